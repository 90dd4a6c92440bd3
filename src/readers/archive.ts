/** Reads what a zip archive holds, each file as though it lay in a folder of the archive's name. */
import { collectCompanions } from './companions'
import type { Companions, InputFile, Problem, ReadResult, ReadScan, Table, Track } from './input'
import { leftOut, nothingIn } from './result'
import { zipEntries, type Unpacked, type ZipEntry } from './zip'

type ReadOne = (file: InputFile, companions: Companions) => ReadResult

const ZIP = [0x50, 0x4b, 3, 4]

/** What to save instead of an archive that is one of another program's files. */
const SPREADSHEET = {
  problem: 'a spreadsheet or document, not text',
  advice: 'save its table as CSV',
} as const
const LAYER_OF_PLACES = {
  problem: 'KML in an archive, which is not read',
  advice: 'save a track as GPX 1.1, places as CSV or GeoJSON',
} as const

/** Reads every file by `readOne`, with companions from the archive and from around it. */
export function readArchive(
  archive: InputFile,
  companions: Companions,
  readOne: ReadOne,
): ReadResult {
  const { files, problems } = filesIn(archive, { files: 0, bytes: 0 }, false)
  const own = collectCompanions(files)
  const all = {
    axes: [...own.axes, ...companions.axes],
    bandwidths: [...own.bandwidths, ...companions.bandwidths],
    ...(companions.isPartial ? { isPartial: true as const } : {}),
  }
  return joined(
    archive.path,
    files.map((file) => readOne(file, all)),
    problems,
  )
}

/**
 * The files of an archive and of the archives in it, one level deep; all of them share the bounds on
 * count and size, and `so far` counts them.
 */
function filesIn(
  { path, bytes }: InputFile,
  soFar: Unpacked,
  isInner: boolean,
): { readonly files: InputFile[]; readonly problems: Problem[] } {
  const out = (problem: string, advice: string, file = path): Problem => ({
    file,
    line: null,
    problem,
    done: `left out; ${advice}`,
  })
  const entries = zipEntries(bytes, soFar)
  if (typeof entries === 'string')
    return { files: [], problems: [out(entries, 'unpack it and add what is in it')] }
  const other = otherProgram(entries)
  if (other !== null) return { files: [], problems: [out(other.problem, other.advice)] }
  const files: InputFile[] = []
  const problems: Problem[] = []
  for (const { name, read } of entries) {
    const file = { path: `${path}/${name}`, bytes: read() }
    if (typeof file.bytes === 'string') problems.push(out(file.bytes, 'pack it again', file.path))
    else if (!isZip(file.bytes)) files.push({ path: file.path, bytes: file.bytes })
    else if (isInner)
      problems.push(
        out('a zip archive in one that is in another', 'unpack the outer ones', file.path),
      )
    else {
      const inner = filesIn({ path: file.path, bytes: file.bytes }, soFar, true)
      files.push(...inner.files)
      problems.push(...inner.problems)
    }
  }
  return { files, problems }
}

function isZip(bytes: Uint8Array): boolean {
  return ZIP.every((value, i) => bytes[i] === value)
}

/** What an archive is that another program keeps as one file; null where it is a plain one. */
function otherProgram(
  entries: readonly ZipEntry[],
): { readonly problem: string; readonly advice: string } | null {
  const has = (name: string): boolean => entries.some((entry) => entry.name === name)
  if (has('[Content_Types].xml') || (has('mimetype') && has('content.xml'))) return SPREADSHEET
  return entries.some(({ name }) => /\.kml$/iu.test(name)) ? LAYER_OF_PLACES : null
}

function joined(
  path: string,
  results: readonly ReadResult[],
  before: readonly Problem[],
): ReadResult {
  if (results.some(({ wantsCompanions }) => wantsCompanions))
    return { ...nothingIn('unknown'), wantsCompanions: true }
  const scans: ReadScan[] = results.flatMap((result) => result.scans)
  const tables: Table[] = results.flatMap((result) => result.tables)
  const tracks: Track[] = results.flatMap((result) => result.tracks)
  const problems = [...before, ...results.flatMap((result) => result.problems)]
  const others = results.filter(
    ({ kind }) => kind === 'raster' || kind === 'geojson' || kind === 'photo',
  )
  if (others.length > 0) {
    problems.push({
      file: path,
      line: null,
      problem: `${others.length} rasters, layers or photos in a zip archive`,
      done: 'left out; unpack the archive to use them',
    })
  }
  if (scans.length + tables.length + tracks.length + problems.length === 0)
    return leftOut(path, null, 'a zip archive without scans, tables or tracks', 'pack it again')
  const kind =
    scans.length > 0
      ? 'scans'
      : tracks.length > 0
        ? 'track'
        : tables.length > 0
          ? 'table'
          : 'unknown'
  const first = results.find((result) => result.layout !== null)
  const seen = first ?? results.find(({ look }) => look !== undefined)
  return {
    kind,
    scans,
    tables,
    tracks,
    layout: first?.layout ?? null,
    look: seen?.look,
    correction: seen?.correction,
    problems,
  }
}
