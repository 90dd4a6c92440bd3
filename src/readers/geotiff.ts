/** Opens a GeoTIFF (OGC 19-008r4) once its own numbers show that it can be read in bounds. */
import type { BaseDecoder, GeoTIFFImage } from 'geotiff'
import { Unzlib } from 'fflate'
import type { InputFile } from './input'
import { unpackLzw } from './lzw'

/** The first image of a file, with its coordinate system. */
export interface OpenGeotiff {
  readonly image: GeoTIFFImage
  /** `EPSG:n` */
  readonly crs: string
  /** Whether values stand for points rather than for cells. */
  readonly ofPoints: boolean
}

/** TIFF 6.0 and its supplements: ways to pack that elevations come in. */
const PACKED: ReadonlyMap<number, string> = new Map([
  [1, 'none'],
  [5, 'LZW'],
  [8, 'deflate'],
  [32_946, 'deflate'],
  [32_773, 'PackBits'],
])
const DEFLATED = [8, 32_946]
const LZW = 5
/** For each cell that a file may have it may take so many bytes, all bands together. */
const BYTES_A_CELL = 8
const USER_DEFINED = 32_767

/**
 * Opens the first image.
 *
 * @param mostCells cells that it may have; a tile or strip may have no more
 * @throws Error that names the file, what is wrong and what to do
 */
export async function openGeotiff(file: InputFile, mostCells: number): Promise<OpenGeotiff> {
  const { addDecoder, BaseDecoder, fromArrayBuffer } = await import('geotiff')
  const bounded = (unpack: Unpack) =>
    Promise.resolve(boundedDecoder(BaseDecoder, unpack, BYTES_A_CELL * mostCells))
  addDecoder(DEFLATED, () => bounded(inflated))
  addDecoder(LZW, () => bounded(unpackLzw))
  const image = await fromArrayBuffer(file.bytes.slice().buffer)
    .then((tiff) => tiff.getImage())
    .catch(() => {
      throw new Error(`${file.path} cannot be read as a GeoTIFF; save it again as one.`)
    })
  refuseBeyondBounds(file.path, image, mostCells)
  const keys = image.getGeoKeys()
  const code: unknown = keys?.ProjectedCSTypeGeoKey ?? keys?.GeographicTypeGeoKey
  if (typeof code !== 'number' || code === USER_DEFINED)
    throw new Error(`${file.path} does not say its EPSG code; save it again with its CRS.`)
  return { image, crs: `EPSG:${code}`, ofPoints: keys?.GTRasterTypeGeoKey === 2 }
}

function refuseBeyondBounds(path: string, image: GeoTIFFImage, mostCells: number): void {
  const [columns, rows] = [image.getWidth(), image.getHeight()]
  if (!(columns > 0 && rows > 0)) throw new Error(`${path} has no cells; save it again.`)
  if (!(columns * rows <= mostCells))
    throw new Error(
      `${path} has ${columns} by ${rows} cells; clip it to the ground of the stations ` +
        `(${mostCells / 1e6} million cells at most).`,
    )
  const compression: unknown = image.fileDirectory.getValue('Compression') ?? 1
  if (typeof compression !== 'number' || !PACKED.has(compression))
    throw new Error(
      `${path} is packed by method ${String(compression)}, which is not read; save it with ` +
        `deflate, LZW or no compression.`,
    )
  const block = image.getTileWidth() * image.getBlockHeight(0)
  const bytes = Math.max(block, columns * rows) * image.getBytesPerPixel()
  if (!(bytes <= BYTES_A_CELL * mostCells))
    throw new Error(
      `${path} takes ${Math.round(bytes / 1e6)} MB unpacked; save its heights alone, as one band ` +
        'in tiles of 256 by 256.',
    )
}

/** Unpacks a block, and throws where more comes out than may. */
type Unpack = (packed: Uint8Array, most: number) => Uint8Array<ArrayBuffer>

/**
 * A decoder of blocks that stops where one unpacks to more than a block holds: a few kilobytes
 * could otherwise fill the memory.
 */
function boundedDecoder(
  Base: typeof BaseDecoder,
  unpack: Unpack,
  most: number,
): typeof BaseDecoder {
  return class BoundedDecoder extends Base {
    override decodeBlock(buffer: ArrayBufferLike): ArrayBufferLike {
      const { tileWidth, tileHeight, bitsPerSample, planarConfiguration } = this.parameters
      const bits = typeof bitsPerSample === 'number' ? [bitsPerSample] : Array.from(bitsPerSample)
      const bitsACell = planarConfiguration === 2 ? bits[0] : bits.reduce((sum, b) => sum + b, 0)
      const bytes = Math.ceil((tileWidth * tileHeight * bitsACell) / 8)
      return unpack(new Uint8Array(buffer), Math.min(most, bytes)).buffer
    }
  }
}

/** Packed bytes that are inflated at once. */
const PIECE = 16_384

/** @param most bytes; more than the block has where it is said to be higher than the image */
function inflated(body: Uint8Array, most: number): Uint8Array<ArrayBuffer> {
  const pieces: Uint8Array[] = []
  let size = 0
  const stream = new Unzlib((piece) => {
    size += piece.length
    if (size > most) throw new Error('a block unpacks to more than it may hold')
    pieces.push(piece)
  })
  for (let at = 0; at < body.length; at += PIECE)
    stream.push(body.subarray(at, at + PIECE), at + PIECE >= body.length)
  const block = new Uint8Array(size)
  let at = 0
  for (const piece of pieces) {
    block.set(piece, at)
    at += piece.length
  }
  return block
}

/**
 * The values of the first band, row by row from the north.
 *
 * @param size columns and rows to resample to, bilinear; the image's own where absent
 * @throws Error that names the file where its data are damaged
 */
export async function firstBand(
  path: string,
  image: GeoTIFFImage,
  size?: { readonly width: number; readonly height: number },
): Promise<ArrayLike<number>> {
  const how = size ? { ...size, resampleMethod: 'bilinear' as const } : {}
  const bands = await image
    .readRasters({ samples: [0], interleave: false, ...how })
    .catch((error: unknown) => {
      const why = error instanceof Error ? error.message : String(error)
      throw new Error(`${path} is damaged (${why}); copy it again.`)
    })
  const [band] = bands
  if (typeof band === 'number' || band === undefined)
    throw new Error(`${path} holds no band; save it again.`)
  return band
}

/**
 * A file's word for "no value" as its values carry it; null where it has none. Written as text, it
 * may have fewer digits than the values that it stands for.
 */
export function noDataIn(image: GeoTIFFImage, values: ArrayLike<number>): number | null {
  const said = image.getGDALNoData()
  return said !== null && values instanceof Float32Array ? Math.fround(said) : said
}
