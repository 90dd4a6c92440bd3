/** What is drawn of a computed surface beside its values: contours, and how the values are spread. */
import { percentiles } from '../colour/stretch'
import { contours, niceLevels, type Contour } from '../surfaces/contours'
import type { SurfaceBands } from '../surfaces/model'

/** About how many contours are drawn. */
export const CONTOURS = 8

/** Percentiles 0 to 100 of the nodes; null where there is no value. */
export interface Spread {
  readonly estimate: Float64Array | null
  /** Of the standard error. */
  readonly error: Float64Array | null
}

export interface Finished {
  readonly contours: readonly Contour[]
  readonly spread: Spread
  /** The least and largest value where all nodes are nearly the same; null where they are not. */
  readonly even: readonly [least: number, most: number] | null
}

/**
 * Contours and percentiles of a surface. Where its nodes differ by less than `evenBelow` there are
 * no contours, and every percentile is the middle one: colours stretched over rounding would show
 * a pattern that is none.
 */
export function finishSurface(bands: SurfaceBands, evenBelow: number): Finished {
  const [low, high] = limitsOf(bands.estimate)
  const spread = spreadOf(bands)
  if (low <= high && high - low < evenBelow) {
    const middle = spread.estimate?.map((_, __, all) => all[all.length >> 1]) ?? null
    return { contours: [], spread: { ...spread, estimate: middle }, even: [low, high] }
  }
  const levels = low < high ? niceLevels(low, high, CONTOURS) : []
  return { contours: contours(bands.grid, bands.estimate, levels), spread, even: null }
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

function limitsOf(estimate: Float64Array): [least: number, most: number] {
  let low = Infinity
  let high = -Infinity
  for (const value of estimate) {
    if (value < low) low = value
    if (value > high) high = value
  }
  return [low, high]
}
