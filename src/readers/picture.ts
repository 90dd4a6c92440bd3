/**
 * What a photograph's file says before it is decoded: its size and where its EXIF stands. JPEG
 * (ITU-T T.81, EXIF in APP1), PNG (W3C PNG third edition, `eXIf`) and WebP (RFC 9649, `EXIF`).
 */

export interface PictureHead {
  readonly format: 'JPEG' | 'PNG' | 'WebP'
  /** Pixels as stored, before the orientation that EXIF asks for. */
  readonly width: number
  readonly height: number
  /** The TIFF structure that holds EXIF; null where there is none. */
  readonly exif: Uint8Array | null
}

/** Pixels a side and in all beyond which a picture is not decoded: it could fill the memory. */
const MOST_SIDE = 30_000
const MOST_PIXELS = 200_000_000
/** Segments or chunks before something else is meant. */
const MOST_PARTS = 2000
/** EXIF of a JPEG fits one segment of 65,535 bytes; more is not read in the others either. */
const MOST_EXIF = 65_535

/** A picture's head, or a sentence on why it cannot be used. Throws nothing for what a file holds. */
export function pictureHead(bytes: Uint8Array): PictureHead | string {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const head = headOf(view, bytes)
  if (typeof head === 'string') return head
  const { width, height } = head
  if (width < 1 || height < 1) return 'it has no size, or breaks off before its size'
  if (width > MOST_SIDE || height > MOST_SIDE || width * height > MOST_PIXELS) {
    return `${width} × ${height} pixels, more than ${MOST_PIXELS / 1e6} million or ${MOST_SIDE} a side`
  }
  return head
}

/** Brands of files that hold one still picture (ISO 14496-12; ISO 23008-12, annex B; AVIF 1.1). */
const HEIF_BRANDS = new Set(['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'mif1', 'msf1'])

/** What a picture is that is not read, by its brand, and what to do. */
function unreadable(brand: string): string {
  if (HEIF_BRANDS.has(brand))
    return 'a HEIC picture, as many phones take them, which is not read here; save or send it as JPEG and add that, and set the phone’s camera to JPEG for the next ones'
  const name =
    brand === 'avif' || brand === 'avis' ? 'an AVIF picture' : 'a film, or a picture in a format'
  return `${name} that is not read here; save it as JPEG and add that`
}

function headOf(view: DataView, bytes: Uint8Array): PictureHead | string {
  if (starts(bytes, 0, [0xff, 0xd8, 0xff])) return jpegHead(view, bytes)
  if (starts(bytes, 0, [0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10])) return pngHead(view, bytes)
  if (letters(bytes, 0) === 'RIFF' && letters(bytes, 8) === 'WEBP') return webpHead(view, bytes)
  if (letters(bytes, 4) === 'ftyp') {
    return unreadable(letters(bytes, 8))
  }
  return 'neither JPEG, PNG nor WebP; save it as JPEG'
}

function jpegHead(view: DataView, bytes: Uint8Array): PictureHead {
  let at = 2
  let exif: Uint8Array | null = null
  for (let part = 0; part < MOST_PARTS && at + 4 <= bytes.length; part++) {
    if (bytes[at] !== 0xff) break
    const marker = bytes[at + 1]
    // Filling bytes, and markers that stand alone.
    if (marker === 0xff) {
      at += 1
      continue
    }
    if (marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8)) {
      at += 2
      continue
    }
    // The scan begins, or the picture ends.
    if (marker === 0xda || marker === 0xd9) break
    const length = view.getUint16(at + 2)
    if (length < 2) break
    const body = at + 4
    const end = Math.min(bytes.length, at + 2 + length)
    if (marker === 0xe1 && exif === null && isExifSegment(bytes, body, end)) {
      exif = bytes.subarray(body + 6, end)
    } else if (isFrame(marker) && body + 5 <= end) {
      const [height, width] = [view.getUint16(body + 1), view.getUint16(body + 3)]
      return { format: 'JPEG', width, height, exif }
    }
    at += 2 + length
  }
  return { format: 'JPEG', width: 0, height: 0, exif }
}

function isExifSegment(bytes: Uint8Array, at: number, end: number): boolean {
  return at + 6 < end && letters(bytes, at) === 'Exif' && bytes[at + 4] === 0
}

/** SOF0 to SOF15, without the tables and the arithmetic conditioning among them (T.81, table B.1). */
function isFrame(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)
}

function pngHead(view: DataView, bytes: Uint8Array): PictureHead {
  let size = { width: 0, height: 0 }
  let exif: Uint8Array | null = null
  let at = 8
  for (let part = 0; part < MOST_PARTS && at + 8 <= bytes.length; part++) {
    const length = view.getUint32(at)
    const kind = letters(bytes, at + 4)
    const body = at + 8
    if (kind === 'IHDR' && body + 8 <= bytes.length) {
      size = { width: view.getUint32(body), height: view.getUint32(body + 4) }
    } else if (kind === 'eXIf') exif ??= partOf(bytes, body, length)
    else if (kind === 'IEND') break
    at = body + length + 4
  }
  return { format: 'PNG', ...size, exif }
}

function webpHead(view: DataView, bytes: Uint8Array): PictureHead {
  let size = { width: 0, height: 0 }
  let exif: Uint8Array | null = null
  let at = 12
  for (let part = 0; part < MOST_PARTS && at + 8 <= bytes.length; part++) {
    const kind = letters(bytes, at)
    const length = view.getUint32(at + 4, true)
    const body = at + 8
    if (kind === 'EXIF') exif ??= partOf(bytes, body, length)
    else if (size.width === 0 && body + 10 <= bytes.length) size = webpSize(view, kind, body)
    at = body + length + (length % 2)
  }
  return { format: 'WebP', ...size, exif }
}

/** The size in the first chunk: extended, lossy (RFC 6386) or lossless. */
function webpSize(view: DataView, kind: string, at: number): { width: number; height: number } {
  const three = (from: number) => view.getUint16(from, true) + 65_536 * view.getUint8(from + 2)
  switch (kind) {
    case 'VP8X':
      return { width: 1 + three(at + 4), height: 1 + three(at + 7) }
    case 'VP8 ':
      return {
        width: view.getUint16(at + 6, true) & 0x3fff,
        height: view.getUint16(at + 8, true) & 0x3fff,
      }
    case 'VP8L': {
      const bits = view.getUint32(at + 1, true)
      return { width: 1 + (bits & 0x3fff), height: 1 + ((bits >>> 14) & 0x3fff) }
    }
    default:
      return { width: 0, height: 0 }
  }
}

function partOf(bytes: Uint8Array, at: number, length: number): Uint8Array | null {
  if (length > MOST_EXIF || at + length > bytes.length) return null
  // Some programs put the JPEG segment's own head before it.
  const skip = letters(bytes, at) === 'Exif' && bytes[at + 4] === 0 ? 6 : 0
  return bytes.subarray(at + skip, at + length)
}

function starts(bytes: Uint8Array, at: number, values: readonly number[]): boolean {
  return values.every((value, i) => bytes[at + i] === value)
}

function letters(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4))
}
