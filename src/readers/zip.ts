/** Reads zip archives (ISO/IEC 21320-1): stored and deflated entries, sizes and counts bounded. */
import { Inflate, inflateSync } from 'fflate'

/** One file of an archive, or why it cannot be had. */
export interface ZipEntry {
  readonly name: string
  /** Throws nothing: the bytes, or a sentence that says why there are none. */
  readonly read: () => Uint8Array | string
  /** Bytes that it has unpacked, as the directory says. */
  readonly size: number
  /** Itself still packed, apart from its archive; or why it cannot be had. */
  readonly packed: () => PackedFile | string
}

/** One file as it stands packed in an archive. Plain data, structured-cloneable. */
export interface PackedFile {
  readonly body: Uint8Array
  /** 0 stored, 8 deflated. */
  readonly method: number
  readonly crc: number
  readonly size: number
}

const MOST_ENTRIES = 20_000
const MOST_BYTES = 400_000_000
/** Deflate cannot shrink further than about 1030 to 1 (RFC 1951); text of scans stays below 20. */
const MOST_RATIO = 1100

const END_OF_DIRECTORY = 0x06054b50
const DIRECTORY_ENTRY = 0x02014b50
const LOCAL_ENTRY = 0x04034b50

/** What archives that are opened together hold so far. */
export interface Unpacked {
  files: number
  bytes: number
}

/**
 * The files of an archive, or a sentence that says why it cannot be opened.
 *
 * @param before counts what other archives of one file hold; this one is added to it
 */
export function zipEntries(
  bytes: Uint8Array,
  before: Unpacked = { files: 0, bytes: 0 },
): readonly ZipEntry[] | string {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const end = findEnd(view)
  if (end < 0) return 'a zip archive without its directory: it breaks off or is damaged'
  const count = view.getUint16(end + 10, true)
  let at = view.getUint32(end + 16, true)
  if (count === 0xffff || at === 0xffffffff) return 'a zip64 archive'
  if (count > MOST_ENTRIES) return `a zip archive of ${count} files, more than ${MOST_ENTRIES}`
  const files = before.files + count
  if (files > MOST_ENTRIES) return `zip archives in one of over ${MOST_ENTRIES} files together`
  const entries: ZipEntry[] = []
  let total = before.bytes
  let packed = 0
  for (let i = 0; i < count; i++) {
    if (at + 46 > bytes.length || view.getUint32(at, true) !== DIRECTORY_ENTRY)
      return 'a zip archive with a damaged directory'
    const entry = directoryEntry(view, at)
    const nameEnd = at + 46 + entry.nameLength
    const name = nameOf(bytes.subarray(at + 46, nameEnd))
    at = nameEnd + view.getUint16(at + 30, true) + view.getUint16(at + 32, true)
    if (name.endsWith('/') || LEFT_BY_SYSTEMS.test(name)) continue
    total += entry.size
    packed += entry.packed
    if (packed > bytes.length) return 'a zip archive whose files overlap'
    if (total > MOST_BYTES) return `a zip archive of over ${MOST_BYTES / 1e6} MB unpacked`
    entries.push({
      name: safeName(name),
      size: entry.size,
      read: () => {
        const packed = packedFile(bytes, view, entry)
        return typeof packed === 'string' ? packed : unpackFile(packed)
      },
      packed: () => {
        const packed = packedFile(bytes, view, entry)
        return typeof packed === 'string' ? packed : { ...packed, body: packed.body.slice() }
      },
    })
  }
  before.files = files
  before.bytes = total
  return entries
}

/** What desktops leave in folders: no one's files. */
const LEFT_BY_SYSTEMS = /(^|[/\\])(__MACOSX[/\\]|\.[^./\\]|(thumbs\.db|desktop\.ini)$)/iu

/** The upper half of code page 437, in which names that are not UTF-8 are written (APPNOTE 6.3, D.1). */
const CODE_PAGE_437 =
  'ÇüéâäàåçêëèïîìÄÅÉæÆôöòûùÿÖÜ¢£¥₧ƒáíóúñÑªº¿⌐¬½¼¡«»░▒▓│┤╡╢╖╕╣║╗╝╜╛┐└┴┬├─┼╞╟╚╔╩╦╠═╬╧╨╤╥╙╘╒╓╫╪┘┌█▄▌▐▀αßΓπΣσµτΦΘΩδ∞φε∩≡±≥≤⌠⌡÷≈°∙·√ⁿ²■\u00a0'

/** A file's name: UTF-8, whatever the flag says, where it is valid; else code page 437. */
function nameOf(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes).normalize('NFC')
  } catch {
    const signs = Array.from(bytes, (byte) =>
      byte < 128 ? String.fromCharCode(byte) : CODE_PAGE_437[byte - 128],
    )
    return signs.join('').normalize('NFC')
  }
}

/** The end record stands in the last 65,557 bytes, behind it at most a comment. */
function findEnd(view: DataView): number {
  const lowest = Math.max(0, view.byteLength - 65_557)
  for (let at = view.byteLength - 22; at >= lowest; at--)
    if (view.getUint32(at, true) === END_OF_DIRECTORY) return at
  return -1
}

interface DirectoryEntry {
  readonly flags: number
  readonly method: number
  readonly crc: number
  readonly packed: number
  readonly size: number
  readonly nameLength: number
  readonly offset: number
}

function directoryEntry(view: DataView, at: number): DirectoryEntry {
  return {
    flags: view.getUint16(at + 8, true),
    method: view.getUint16(at + 10, true),
    crc: view.getUint32(at + 16, true),
    packed: view.getUint32(at + 20, true),
    size: view.getUint32(at + 24, true),
    nameLength: view.getUint16(at + 28, true),
    offset: view.getUint32(at + 42, true),
  }
}

/** A path that stays within the archive. */
function safeName(name: string): string {
  return name
    .replaceAll('\\', '/')
    .split('/')
    .filter((part) => part !== '' && part !== '.' && part !== '..')
    .join('/')
}

/** A file's packed bytes where they stand in the archive. */
function packedFile(bytes: Uint8Array, view: DataView, entry: DirectoryEntry): PackedFile | string {
  const { offset, packed, size, method, crc } = entry
  if ((entry.flags & 1) !== 0) return 'an encrypted file in a zip archive'
  if (offset + 30 > bytes.length || view.getUint32(offset, true) !== LOCAL_ENTRY)
    return 'a file in a damaged zip archive'
  const start = offset + 30 + view.getUint16(offset + 26, true) + view.getUint16(offset + 28, true)
  if (start + packed > bytes.length) return 'a file that its zip archive breaks off in'
  if (size > 1000 && size / Math.max(1, packed) > MOST_RATIO) return 'a file packed beyond reason'
  if (method !== 0 && method !== 8) return `a file packed by method ${method}, which is not read`
  return { body: bytes.subarray(start, start + packed), method, crc, size }
}

/** A file's bytes, or a sentence that says why there are none. */
export function unpackFile({ body, method, crc, size }: PackedFile): Uint8Array | string {
  const unpacked = method === 8 ? (inflatedWhole(body, size) ?? inflated(body, size)) : body
  if (typeof unpacked === 'string') return unpacked
  if (unpacked.length !== size || crc32(unpacked) !== crc)
    return 'a file that its zip archive holds damaged (its checksum is wrong)'
  return unpacked
}

/** Packed bytes of a file that is inflated whole: whatever it says, it cannot hold over 34 MB. */
const SMALL = 32_768

/**
 * What a small deflated file holds; null where it is not small, or not what its directory says, for
 * then what is wrong is found piece by piece. Pieces cost twice the time: each wants its own buffer.
 */
function inflatedWhole(body: Uint8Array, size: number): Uint8Array | null {
  if (body.length > SMALL) return null
  try {
    // With a byte to spare, for what goes beyond is dropped without a word.
    const unpacked = inflateSync(body, { out: new Uint8Array(size + 1) })
    return unpacked.length === size ? unpacked : null
  } catch {
    return null
  }
}

/**
 * Packed bytes that are inflated at once: fewer towards the end, so that of a file that holds more
 * than it says no more than a megabyte, or sixteen times the rest, is inflated in vain.
 */
const [LEAST_PIECE, MOST_PIECE] = [1024, 65_536]

/** What a deflated file holds, stopped at once where that is more than its directory says. */
function inflated(body: Uint8Array, size: number): Uint8Array | string {
  const unpacked = new Uint8Array(size)
  let got = 0
  const stream = new Inflate((piece) => {
    if (got + piece.length <= size) unpacked.set(piece, got)
    got += piece.length
  })
  try {
    for (let at = 0; at < body.length;) {
      const end = at + Math.min(MOST_PIECE, Math.max(LEAST_PIECE, (size - got) >> 6))
      stream.push(body.subarray(at, end), end >= body.length)
      if (got > size) return 'a file that unpacks to more than its zip archive says'
      at = end
    }
  } catch {
    return 'a file that its zip archive holds damaged'
  }
  return unpacked.subarray(0, got)
}

const CRC_TABLE = Int32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte
  for (let bit = 0; bit < 8; bit++) crc = (crc & 1) !== 0 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1
  return crc
})

/** CRC-32 of ISO 3309, as zip has it: of `123456789` it is 0xCBF43926. */
export function crc32(bytes: Uint8Array): number {
  let crc = -1
  for (let i = 0; i < bytes.length; i++) crc = CRC_TABLE[(crc ^ bytes[i]) & 255] ^ (crc >>> 8)
  return (crc ^ -1) >>> 0
}
