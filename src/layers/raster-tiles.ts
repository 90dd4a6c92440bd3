/** A Float32 band as compressed TIFF tiles, and its overviews. */
import { runDeflater } from './deflate-runs'

export const TILE = 256
export const NODATA = -9999
/** The next Float32 above NODATA, for an estimate that happens to equal it. */
const BESIDE_NODATA = -9998.9990234375

/** A band's values in row-major order, row 0 northernmost; NODATA where there is none. */
export interface Raster {
  readonly columns: number
  readonly rows: number
  readonly values: Float32Array
}

/** What a GIS wants to know of a band before it draws it. */
export interface BandStatistics {
  /** Cells with a value; the others are NaN when there is none. */
  readonly count: number
  readonly minimum: number
  readonly maximum: number
  readonly mean: number
  readonly standardDeviation: number
}

/** Values as written: Float32, with NODATA for NaN and for what Float32 cannot hold. */
export function writtenValues(values: ArrayLike<number>): {
  values: Float32Array
  statistics: BandStatistics
} {
  const written = new Float32Array(values)
  let count = 0
  let minimum = Infinity
  let maximum = -Infinity
  // Sums of differences from the first value, so that the variance keeps its digits.
  let near = 0
  let sum = 0
  let squares = 0
  for (let i = 0; i < written.length; i++) {
    let value = written[i]
    if (value - value !== 0) {
      written[i] = NODATA
      continue
    }
    if (value === NODATA) value = written[i] = BESIDE_NODATA
    if (count === 0) near = value
    count++
    if (value < minimum) minimum = value
    if (value > maximum) maximum = value
    const from = value - near
    sum += from
    squares += from * from
  }
  const mean = near + sum / count
  const standardDeviation = Math.sqrt(Math.max(0, squares / count - (sum / count) ** 2))
  return { values: written, statistics: { count, minimum, maximum, mean, standardDeviation } }
}

/**
 * Tiles from left to right and top to bottom, each a zlib stream of floating-point differences
 * (Adobe Photoshop TIFF Technical Note 3, predictor 3). Tiles that hang over the edge are filled
 * with NODATA.
 */
export function compressedTiles(rasters: readonly Raster[]): Uint8Array[] {
  const deflater = runDeflater(TILE * TILE * 4)
  const tile = new Float32Array(TILE * TILE)
  const differences = new Uint8Array(TILE * TILE * 4)
  const tiles: Uint8Array[] = []
  for (const raster of rasters) {
    for (let row = 0; row < raster.rows; row += TILE) {
      for (let column = 0; column < raster.columns; column += TILE) {
        cutTile(raster, row, column, tile)
        floatingPointDifferences(tile, differences)
        tiles.push(deflater.deflate(differences))
      }
    }
  }
  return tiles
}

function cutTile(raster: Raster, row: number, column: number, tile: Float32Array): void {
  const rows = Math.min(TILE, raster.rows - row)
  const columns = Math.min(TILE, raster.columns - column)
  if (rows < TILE || columns < TILE) tile.fill(NODATA)
  for (let r = 0; r < rows; r++) {
    const from = (row + r) * raster.columns + column
    tile.set(raster.values.subarray(from, from + columns), r * TILE)
  }
}

/**
 * Each row's bytes sorted by significance, the most significant of all samples first, then each
 * byte less the one before it.
 */
function floatingPointDifferences(tile: Float32Array, out: Uint8Array): void {
  const words = new Int32Array(tile.buffer, tile.byteOffset, tile.length)
  for (let r = 0, at = 0; r < TILE; r++, at += 4 * TILE) {
    let before = 0
    const row = r * TILE
    for (let c = 0; c < TILE; c++) {
      const word = words[row + c]
      out[at + c] = (word >>> 24) - (before >>> 24)
      out[at + TILE + c] = (word >>> 16) - (before >>> 16)
      out[at + 2 * TILE + c] = (word >>> 8) - (before >>> 8)
      out[at + 3 * TILE + c] = word - before
      before = word
    }
    // The first byte of each lot follows the last of the lot before it.
    const first = words[row]
    for (let lot = 1; lot < 4; lot++) {
      out[at + lot * TILE] = (first >>> (24 - 8 * lot)) - (before >>> (32 - 8 * lot))
    }
  }
}

/** Half as many columns and rows, each the mean of the up to four cells with a value. */
export function halved({ columns, rows, values }: Raster): Raster {
  const half = { columns: Math.ceil(columns / 2), rows: Math.ceil(rows / 2) }
  const means = new Float32Array(half.columns * half.rows)
  for (let r = 0, at = 0; r < half.rows; r++) {
    const above = 2 * r * columns
    // In an odd last row or column a cell stands for its missing neighbour too.
    const below = Math.min(2 * r + 1, rows - 1) * columns
    for (let c = 0; c < half.columns; c++) {
      const left = 2 * c
      const right = Math.min(left + 1, columns - 1)
      const a = values[above + left]
      const b = values[above + right]
      const d = values[below + left]
      const e = values[below + right]
      const count = +(a !== NODATA) + +(b !== NODATA) + +(d !== NODATA) + +(e !== NODATA)
      const sum = valueOr0(a) + valueOr0(b) + valueOr0(d) + valueOr0(e)
      means[at++] = count === 0 ? NODATA : sum / count
    }
  }
  return { ...half, values: means }
}

function valueOr0(value: number): number {
  return value === NODATA ? 0 : value
}

/**
 * Half as many columns and rows, each the value that most of its up to four cells have, of equals
 * the one to the north-west: for numbers that stand for names, whose mean is another name.
 */
export function halvedCodes({ columns, rows, values }: Raster): Raster {
  const half = { columns: Math.ceil(columns / 2), rows: Math.ceil(rows / 2) }
  const codes = new Float32Array(half.columns * half.rows)
  for (let r = 0, at = 0; r < half.rows; r++) {
    for (let c = 0; c < half.columns; c++) {
      const four: number[] = []
      for (let row = 2 * r; row < Math.min(2 * r + 2, rows); row++)
        for (let column = 2 * c; column < Math.min(2 * c + 2, columns); column++)
          four.push(values[row * columns + column])
      codes[at++] = commonest(four)
    }
  }
  return { ...half, values: codes }
}

function commonest(cells: readonly number[]): number {
  const found = cells.filter((cell) => cell !== NODATA)
  let [best, most] = [NODATA, 0]
  for (const code of found) {
    const count = found.filter((other) => other === code).length
    if (count > most) [best, most] = [code, count]
  }
  return best
}
