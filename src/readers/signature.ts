/** What a file is by its first bytes. */

export type Signature =
  | 'empty'
  | 'tiff'
  | 'image'
  | 'photo'
  | 'zip'
  | 'compressed'
  | 'document'
  | 'web page'
  | 'receiver log'
  | 'xml'
  | 'geojson'
  | 'json'
  | 'exchange'
  | 'ascii grid'
  | 'other'

/** How far into a file the beginnings of text formats are looked for. */
const LOOKED_AT = 4096

/** Tells a file by its beginning: the published signatures of each format. */
export function signatureOf(bytes: Uint8Array): Signature {
  if (bytes.length === 0) return 'empty'
  const starts = (...values: number[]): boolean => values.every((value, i) => bytes[i] === value)
  if (starts(0x49, 0x49, 42, 0) || starts(0x4d, 0x4d, 0, 42)) return 'tiff'
  if (starts(0x49, 0x49, 43, 0) || starts(0x4d, 0x4d, 0, 43)) return 'tiff'
  if (starts(0xff, 0xd8, 0xff)) return 'photo'
  if (starts(0x89, 0x50, 0x4e, 0x47)) return 'photo'
  if (isPlainBeginning(bytes)) return isTar(bytes) ? 'compressed' : 'other'
  const text = latin(bytes)
  if (/^....ftyp(heic|heix|hevc|mif1|avif)/su.test(text) || /^RIFF....WEBP/su.test(text))
    return 'photo'
  if (text.startsWith('GIF8') || text.startsWith('BM\0')) return 'image'
  if (starts(0x50, 0x4b, 3, 4) || starts(0x50, 0x4b, 5, 6)) return 'zip'
  if (starts(0x1f, 0x8b) || text.startsWith('7z\xbc\xaf') || text.startsWith('Rar!'))
    return 'compressed'
  if (isTar(bytes)) return 'compressed'
  if (text.startsWith('%PDF') || starts(0xd0, 0xcf, 0x11, 0xe0)) return 'document'
  return textSignature(text)
}

/** An archive of POSIX 1003.1: `ustar` stands in the header of its first file, whose name begins it. */
function isTar(bytes: Uint8Array): boolean {
  return [0x75, 0x73, 0x74, 0x61, 0x72].every((value, i) => bytes[257 + i] === value)
}

/** Whether the first byte that is no blank begins no format but a plain table (a mere shortcut). */
function isPlainBeginning(bytes: Uint8Array): boolean {
  let i = 0
  while (i < LOOKED_AT && (bytes[i] === 32 || (bytes[i] >= 9 && bytes[i] <= 13))) i++
  for (let at = i; at < i + 8 && at < bytes.length; at++)
    if (
      bytes[at] > 126 ||
      (bytes[at] < 32 && bytes[at] !== 9 && bytes[at] !== 10 && bytes[at] !== 13)
    )
      return false
  const byte = bytes[i]
  if (byte >= 48 && byte <= 57) return true
  const letter = byte | 32
  return letter >= 97 && letter <= 122 && !OF_LETTERS.some((word) => beginsWith(bytes, i, word))
}

/** Signatures of letters alone, small. */
const OF_LETTERS = ['gif', 'ncols', 'riff', 'rar']

function beginsWith(bytes: Uint8Array, at: number, word: string): boolean {
  for (let i = 0; i < word.length; i++)
    if ((bytes[at + i] | 32) !== word.charCodeAt(i)) return false
  return true
}

function textSignature(text: string): Signature {
  const plain = text
    .replace(/^\xef\xbb\xbf|^[\xff\xfe]{2}/, '')
    .replaceAll('\0', '')
    .trimStart()
  if (/^<(!DOCTYPE html|html|head|body|table|meta)\b/iu.test(plain)) return 'web page'
  if (/^<(\?xml|gpx|kml|!DOCTYPE|!--)/iu.test(plain)) return 'xml'
  if (plain.startsWith('{\\rtf')) return 'document'
  if (/^(\$[A-Z]{5},[^\r\n]*[\r\n]+){2}/u.test(plain)) return 'receiver log'
  if (/^[{[]/.test(plain)) {
    const geographic =
      /"type"\s*:\s*"(FeatureCollection|Feature|Point|MultiPoint|LineString|MultiLineString|Polygon|MultiPolygon|GeometryCollection)"/
    if (geographic.test(plain)) return 'geojson'
    if (/^(\{\s*("|\})|\[\s*[{["\d-])/.test(plain)) return 'json'
  }
  if (/^(\$\$[^\n]*\n\s*)*##\s*TITLE\s*=/iu.test(plain)) return 'exchange'
  if (/^ncols\s+\d+\s+nrows\s+\d+/iu.test(plain)) return 'ascii grid'
  return 'other'
}

function latin(bytes: Uint8Array): string {
  return String.fromCharCode(...bytes.subarray(0, LOOKED_AT))
}
