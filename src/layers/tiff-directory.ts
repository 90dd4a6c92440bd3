/** TIFF 6.0 headers and directories, little-endian. */

export type TiffField =
  | { readonly tag: number; readonly ascii: string }
  | { readonly tag: number; readonly shorts: readonly number[] }
  | { readonly tag: number; readonly longs: readonly number[] }
  | { readonly tag: number; readonly doubles: readonly number[] }

/** An image: its fields but for where its tiles lie, and its tiles in TIFF's order. */
export interface TiffImage {
  readonly fields: readonly TiffField[]
  readonly tiles: readonly Uint8Array[]
}

const TILE_OFFSETS = 324
const TILE_BYTE_COUNTS = 325
const HEADER = 8
/** Offsets are 32 bits wide. */
const LARGEST_FILE = 0xffffffff

/**
 * A classic TIFF: header, all directories, then tiles, those of the last image first, so that a
 * reader that streams finds the overviews early.
 *
 * @throws RangeError above 4 GB.
 */
export function tiffFile(images: readonly TiffImage[]): Uint8Array {
  // Where tiles lie depends on the directories' size, which does not depend on where tiles lie.
  const sizes = images.map((image) => directory(withTiles(image, 0), 0, 0).length)
  const starts = sizes.map((_, i) => HEADER + sum(sizes.slice(0, i)))
  const tileStarts = new Array<number>(images.length)
  let end = HEADER + sum(sizes)
  for (let i = images.length - 1; i >= 0; i--) {
    tileStarts[i] = end
    end += sum(images[i].tiles.map((tile) => tile.length))
  }
  if (end > LARGEST_FILE) throw new RangeError('The raster is above 4 GB: use a larger cell.')
  const file = new Uint8Array(end)
  file.set([0x49, 0x49, 42, 0, HEADER, 0, 0, 0])
  images.forEach((image, i) => {
    const next = i + 1 < images.length ? starts[i + 1] : 0
    file.set(directory(withTiles(image, tileStarts[i]), starts[i], next), starts[i])
    let at = tileStarts[i]
    for (const tile of image.tiles) {
      file.set(tile, at)
      at += tile.length
    }
  })
  return file
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0)
}

function withTiles({ fields, tiles }: TiffImage, start: number): TiffField[] {
  const offsets: number[] = []
  let at = start
  for (const tile of tiles) {
    offsets.push(at)
    at += tile.length
  }
  return [
    ...fields,
    { tag: TILE_OFFSETS, longs: offsets },
    { tag: TILE_BYTE_COUNTS, longs: tiles.map((tile) => tile.length) },
  ].sort((a, b) => a.tag - b.tag)
}

/** One directory with the values that do not fit in its entries after it; even in length. */
function directory(fields: readonly TiffField[], start: number, next: number): Uint8Array {
  const values = fields.map(encoded)
  const head = 2 + 12 * fields.length + 4
  let end = head
  const places = values.map(({ bytes }) => {
    if (bytes.length <= 4) return 0
    const place = end
    end += bytes.length + (bytes.length % 2)
    return place
  })
  end += end % 2
  const out = new Uint8Array(end)
  const view = new DataView(out.buffer)
  view.setUint16(0, fields.length, true)
  values.forEach(({ type, count, bytes }, i) => {
    const entry = 2 + 12 * i
    view.setUint16(entry, fields[i].tag, true)
    view.setUint16(entry + 2, type, true)
    view.setUint32(entry + 4, count, true)
    if (places[i] === 0) out.set(bytes, entry + 8)
    else {
      view.setUint32(entry + 8, start + places[i], true)
      out.set(bytes, places[i])
    }
  })
  view.setUint32(head - 4, next, true)
  return out
}

function encoded(field: TiffField): { type: number; count: number; bytes: Uint8Array } {
  if ('ascii' in field) {
    const bytes = new TextEncoder().encode(`${field.ascii}\0`)
    return { type: 2, count: bytes.length, bytes }
  }
  const [type, width, numbers] =
    'shorts' in field
      ? [3, 2, field.shorts]
      : 'longs' in field
        ? [4, 4, field.longs]
        : [12, 8, field.doubles]
  const bytes = new Uint8Array(width * numbers.length)
  const view = new DataView(bytes.buffer)
  numbers.forEach((number, i) => {
    if (width === 2) view.setUint16(2 * i, number, true)
    else if (width === 4) view.setUint32(4 * i, number, true)
    else view.setFloat64(8 * i, number, true)
  })
  return { type, count: numbers.length, bytes }
}
