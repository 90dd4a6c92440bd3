/** What is drawn of a computed surface beside its values: contours, and how the values are spread. */
import { percentiles } from '../colour/stretch'
import { contours, levelsEvery, niceLevels, type Contour } from '../surfaces/contours'
import type { SurfaceBands } from '../surfaces/model'

/** About how many contours are drawn where no interval is chosen. */
const CONTOURS = 8

/** Percentiles 0 to 100 of the nodes; null where there is no value. */
export interface Spread {
  readonly estimate: Float64Array | null
  /** Of the standard error. */
  readonly error: Float64Array | null
}

export interface Finished {
  readonly contours: readonly Contour[]
  /** Whether an interval was asked for that would draw more lines than can be told apart. */
  readonly crowded: boolean
  readonly spread: Spread
  /** The least and largest value where all nodes are nearly the same; null where they are not. */
  readonly even: readonly [least: number, most: number] | null
}

/**
 * Contours and percentiles of a surface. Where its nodes differ by less than `evenBelow` there are
 * no contours, and every percentile is the middle one: colours stretched over rounding would show
 * a pattern that is none.
 *
 * @param interval between contours, the value's unit; absent for the usual ones
 */
export function finishSurface(bands: SurfaceBands, evenBelow: number, interval?: number): Finished {
  const [low, high] = limitsOf(bands.estimate)
  const spread = spreadOf(bands)
  if (low <= high && high - low < evenBelow) {
    const middle = spread.estimate?.map((_, __, all) => all[all.length >> 1]) ?? null
    const flat = { ...spread, estimate: middle }
    return { contours: [], crowded: false, spread: flat, even: [low, high] }
  }
  const levels = contourLevels(low, high, interval)
  const lines = contours(bands.grid, bands.estimate, levels ?? [])
  return { contours: lines, crowded: levels === null, spread, even: null }
}

/**
 * Values at which contours of a surface between two values stand: every so many units, or about
 * eight round ones; null where an interval would make too many.
 */
export function contourLevels(low: number, high: number, interval?: number): number[] | null {
  if (!(low < high)) return []
  return interval === undefined ? niceLevels(low, high, CONTOURS) : levelsEvery(low, high, interval)
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
