/** Reads one file, whatever it is, by looking at its bytes. */
import { readArchive } from './archive'
import { correctionFor, overridesOf, type Correction } from './correction'
import { decodeText } from './decode'
import { readFamiliar } from './familiar'
import { readGpx } from './gpx'
import type { Companions, InputFile, Layout, ReadResult } from './input'
import { readJcamp } from './jcamp'
import { leftOut, nothingIn } from './result'
import { signatureOf, type Signature } from './signature'
import { readText } from './text'
import type { TextFile } from './text-file'

/** Larger than ten thousand scans in one text. */
const MOST_BYTES = 500_000_000

/** No companions. */
export const NO_COMPANIONS: Companions = { axes: [], bandwidths: [] }

/** None yet: other files have not been looked at. */
export const COMPANIONS_UNKNOWN: Companions = { ...NO_COMPANIONS, isPartial: true }

/**
 * All that a file holds: scans, tables, tracks; or its kind where others read it; or problems.
 *
 * Never throws for what a file contains. `overrides` say how its numbers are to be understood;
 * `corrections` say so of all files alike, and are sought by the file's look.
 */
export function readFile(
  file: InputFile,
  companions: Companions = NO_COMPANIONS,
  overrides: Partial<Layout> = {},
  corrections: readonly Correction[] = [],
): ReadResult {
  const signature = signatureOf(file.bytes)
  if (signature === 'zip' && file.bytes.length <= MOST_BYTES) {
    const readOne = (inner: InputFile, around: Companions): ReadResult =>
      readOneOf(inner, around, overrides, corrections)
    return readArchive(file, companions, readOne)
  }
  return readOneOf(file, companions, overrides, corrections, signature)
}

function readOneOf(
  file: InputFile,
  companions: Companions,
  overrides: Partial<Layout>,
  corrections: readonly Correction[],
  signature = signatureOf(file.bytes),
): ReadResult {
  const isAsWritten = signature === 'other' && Object.keys(overrides).length === 0
  const familiar = isAsWritten ? readFamiliar(file) : null
  const found = familiar ?? readOnce(file, signature, companions, overrides)
  const correction = correctionFor(found.look?.like, corrections)
  if (correction === undefined) return found
  const { look } = found
  return { ...readOnce(file, signature, companions, overridesOf(correction)), look, correction }
}

function readOnce(
  file: InputFile,
  signature: Signature,
  companions: Companions,
  overrides: Partial<Layout>,
): ReadResult {
  const { path, bytes } = file
  if (bytes.length > MOST_BYTES) {
    const problem = `a file of ${Math.round(bytes.length / 1e6)} MB`
    return leftOut(path, null, problem, 'split it into files below 500 MB')
  }
  switch (signature) {
    case 'empty':
      return leftOut(path, null, 'the file is empty', 'copy it again from the instrument')
    case 'tiff':
    case 'ascii grid':
      return nothingIn('raster')
    case 'photo':
    case 'image':
      return nothingIn('photo')
    case 'geojson':
      return nothingIn('geojson')
    case 'json':
      return leftOut(
        path,
        null,
        'JSON that is no GeoJSON',
        'nothing to do unless it should be a layer',
      )
    case 'compressed':
      return leftOut(path, null, 'a packed file that is no zip', 'unpack it and add what is in it')
    case 'document':
      return leftOut(path, null, 'a document, not text', 'save its table as CSV')
    case 'web page':
      return leftOut(path, null, 'a web page, not text', 'save its table as CSV')
    case 'receiver log':
      return leftOut(
        path,
        null,
        'sentences of a receiver (NMEA 0183), which are not read',
        'save the track as GPX 1.1',
      )
    case 'zip':
      return leftOut(path, null, 'a zip archive in another', 'unpack the outer one')
    case 'exchange':
      return readAnyText(file, companions, overrides, readJcamp)
    case 'xml':
      return readXml(file)
    case 'other':
      return readAnyText(file, companions, overrides, readText)
  }
}

function readXml(file: InputFile): ReadResult {
  const decoded = decodeText(file.bytes)
  if (decoded === null) return binary(file)
  return readGpx(file, new TextDecoder().decode(decoded.bytes))
}

function readAnyText(
  file: InputFile,
  companions: Companions,
  overrides: Partial<Layout>,
  read: (text: TextFile) => ReadResult,
): ReadResult {
  const decoded = decodeText(file.bytes, overrides.encoding)
  if (decoded === null) return binary(file)
  const { bytes, encoding } = decoded
  return read({ file: file.path, bytes, encoding, companions, overrides })
}

function binary({ path }: InputFile): ReadResult {
  const problem = 'not text but binary data of a kind unknown here'
  return leftOut(path, null, problem, 'export the scan as text from the instrument’s own program')
}
