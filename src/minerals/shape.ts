/**
 * The shape that is compared: ln reflectance less its own smooth trend, so that level, slope
 * and broad continuum drop out and absorptions add up as Beer's law has it. Unlike a hull it
 * is linear: noise averages out instead of lifting the continuum.
 */
import { GRID, SPACING } from './work-grid'

/** Full width at half height of the smoothing that is kept and of the trend that is taken off, nm. */
const FINE = 15
const TREND = 60

/** Row-major matrix, GRID × GRID: shape = matrix · ln reflectance. Rows reach only ± REACH nodes. */
interface ShapeRow {
  readonly start: number
  readonly weights: Float64Array
}

const ROWS: readonly ShapeRow[] = Array.from(GRID, (_, node) => shapeRow(node))

/** The shape of ln reflectance on the grid, weighted so that its squares sum as an integral. */
export function shapeOf(log: Float64Array): Float64Array {
  const shape = new Float64Array(GRID.length)
  for (let node = 0; node < GRID.length; node++) {
    const { start, weights } = ROWS[node]
    let sum = 0
    for (let k = 0; k < weights.length; k++) sum += weights[k] * log[start + k]
    shape[node] = sum
  }
  return shape
}

/** Variance of the shape at each node from independent variances of ln reflectance. */
export function shapeVariance(variance: Float64Array): Float64Array {
  return Float64Array.from(ROWS, ({ start, weights }) => {
    let sum = 0
    for (let k = 0; k < weights.length; k++) sum += weights[k] * weights[k] * variance[start + k]
    return sum
  })
}

function shapeRow(node: number): ShapeRow {
  const fine = smoothing(node, FINE)
  const trend = smoothing(node, TREND)
  const weight = Math.sqrt(SPACING[node])
  const row = fine.map((value, i) => (value - trend[i]) * weight)
  let start = 0
  while (Math.abs(row[start]) < 1e-6) start++
  let end = row.length
  while (Math.abs(row[end - 1]) < 1e-6) end--
  return { start, weights: row.slice(start, end) }
}

function smoothing(node: number, fwhm: number): Float64Array {
  const row = GRID.map(
    (nm, i) => SPACING[i] * Math.exp(-4 * Math.LN2 * ((nm - GRID[node]) / fwhm) ** 2),
  )
  const total = row.reduce((sum, value) => sum + value, 0)
  return row.map((value) => value / total)
}
