/** What is drawn of a computed surface beside its values: contours, and how the values are spread. */
import { percentiles } from '../colour/stretch'
import { contours, niceLevels, type Contour } from '../surfaces/contours'
import type { SurfaceBands } from '../surfaces/model'

/** About how many contours are drawn. */
const CONTOURS = 8

/** Percentiles 0 to 100 of the nodes; null where there is no value. */
export interface Spread {
  readonly estimate: Float64Array | null
  /** Of the standard error. */
  readonly error: Float64Array | null
}

export interface Finished {
  readonly contours: readonly Contour[]
  readonly spread: Spread
}

/** Contours and percentiles of a surface. */
export function finishSurface(bands: SurfaceBands): Finished {
  return {
    contours: contours(bands.grid, bands.estimate, levelsOf(bands)),
    spread: spreadOf(bands),
  }
}

/** Percentiles of a surface and of its standard error. */
export function spreadOf({ estimate, variance }: SurfaceBands): Spread {
  // The root keeps the order, but percentiles between two nodes are means of the errors themselves.
  return {
    estimate: percentiles(estimate),
    error: variance ? percentiles(standardErrors(variance)) : null,
  }
}

/** Standard error at each node: the root of the variance. */
export function standardErrors(variance: Float64Array): Float64Array {
  return variance.map((value) => Math.sqrt(Math.max(0, value)))
}

function levelsOf({ estimate }: SurfaceBands): number[] {
  let low = Infinity
  let high = -Infinity
  for (const value of estimate) {
    if (value < low) low = value
    if (value > high) high = value
  }
  return low < high ? niceLevels(low, high, CONTOURS) : []
}
