/**
 * Kriging with an external drift (Ahmed and de Marsily 1987): the mean is a linear function of
 * something known everywhere, such as elevation, with coefficients that are not known.
 */
import type { Grid, Points } from './model'
import { nodeX, nodeY } from './grid'
import { spreadOf } from './points'
import { trendCount, type TrendDegree } from './trend'

/** Kriging asks for five stations, and the drift's coefficient for one more. */
const LEAST_WITH_DRIFT = 6

/** How many functions the mean is made of: those of the trend, and the drift where there is one. */
export function meanFunctions({ drift }: Pick<Points, 'drift'>, degree: TrendDegree): number {
  return trendCount(degree) + (drift ? 1 : 0)
}

/** Brings a drift to about one, so that its equations are well conditioned. */
export interface DriftScale {
  readonly mean: number
  readonly unit: number
}

/**
 * The scale of a drift's values.
 *
 * @throws Error in words where they are all the same
 */
export function driftScale(drift: Float64Array): DriftScale {
  const { mean, variance } = spreadOf(drift)
  const unit = Math.sqrt(variance)
  if (!isSpread(mean, unit))
    throw new Error(
      `The drift has the same value (${mean}) at all stations; krige without it, or with another.`,
    )
  return { mean, unit }
}

function isSpread(mean: number, unit: number): boolean {
  return unit > 1e-12 * Math.abs(mean) && unit > 0
}

/** Whether points can tell the mean's coefficients: enough of them, and a drift that varies. */
export function holdsMean({ x, drift }: Points, degree: TrendDegree): boolean {
  if (x.length < meanFunctions({ drift }, degree)) return false
  if (!drift) return true
  const { mean, variance } = spreadOf(drift)
  return isSpread(mean, Math.sqrt(variance))
}

/** Something known everywhere, asked for in working units; NaN where it has no value. */
export interface Drift {
  /** The file that it comes from, for messages. */
  readonly file: string
  at(x: number, y: number): number
  /** At the nodes of a grid, row-major. */
  onGrid(grid: Grid): Float64Array
}

/**
 * Points with the drift's value at each, without those where it has none.
 *
 * @returns `without`, the numbers of those that are left out
 * @throws Error in words where it has a value at too few of them
 */
export function withDrift(
  points: Points,
  drift: Drift,
  what: string,
): { readonly points: Points; readonly without: readonly number[] } {
  const values = points.x.map((x, i) => drift.at(x, points.y[i]))
  const without = Array.from(values.keys()).filter((i) => !Number.isFinite(values[i]))
  const keep = (_: number, i: number) => Number.isFinite(values[i])
  const { x, y, value, error } = points
  if (x.length - without.length < LEAST_WITH_DRIFT)
    throw new Error(
      `${drift.file} has a value at ${x.length - without.length} of the ${x.length} stations of ` +
        `${what}; at least ${LEAST_WITH_DRIFT} are needed. Take a raster that covers the ground.`,
    )
  const kept = {
    x: x.filter(keep),
    y: y.filter(keep),
    value: value.filter(keep),
    ...(error ? { error: error.filter(keep) } : {}),
    drift: values.filter(keep),
  }
  driftScale(kept.drift)
  return { points: kept, without }
}

/**
 * The drift at the nodes of some rows of a grid, from that of a finer one: of the node whose cell
 * holds the place. On the very grid it is the node's own.
 */
export function driftOfRows(
  fine: Grid,
  drift: Float64Array,
  grid: Grid,
  [from, to]: readonly [from: number, to: number],
): Float64Array {
  if (fine === grid) return drift.subarray(from * grid.columns, to * grid.columns)
  const place = (offset: number, most: number) =>
    Math.min(most - 1, Math.max(0, Math.floor(offset / fine.cell)))
  const out = new Float64Array((to - from) * grid.columns)
  for (let row = from, node = 0; row < to; row++) {
    const start = place(fine.north - nodeY(grid, row), fine.rows) * fine.columns
    for (let column = 0; column < grid.columns; column++)
      out[node++] = drift[start + place(nodeX(grid, column) - fine.west, fine.columns)]
  }
  return out
}
