/** Grids of numbers to write: smooth, noisy and with holes, the same every time. */
import type { Grid } from '../../src/surfaces/model'

/** A grid on Grid-like coordinates of the Atacama. */
export function gridOf(columns: number, rows: number): Grid {
  return { west: 412_300, north: 7_301_260, cell: 20, columns, rows }
}

/** Positions near 2205 nm, NaN outside a disc. */
export function discOfPositions({ columns, rows }: Grid): Float64Array {
  const values = new Float64Array(columns * rows)
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      const x = (c - columns / 2) / columns
      const y = (r - rows / 2) / rows
      const inside = x * x + y * y < 0.2
      values[r * columns + c] = inside
        ? 2205 + 8 * Math.sin(9 * x) * Math.cos(7 * y) + ((c * 7919 + r * 104729) % 97) / 1000
        : NaN
    }
  }
  return values
}

/** What a Float32 raster with nodata must hold. */
export function asWritten(values: ArrayLike<number>): Float32Array {
  return Float32Array.from(values, (value) => (Number.isNaN(value) ? -9999 : value))
}
