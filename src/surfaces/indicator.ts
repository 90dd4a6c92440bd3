/**
 * Class probability by indicator kriging (Journel 1983); several classes jointly in `likeliest.ts`.
 *
 * An indicator is 1 where a station is of the class and 0 where it is not; where the
 * identification is in doubt it is soft, anything between.
 */
import type { Points } from './model'
import { checkPoints, checkSpread } from './points'

/** Under this many stations a probability would be a pretence. */
export const LEAST_STATIONS = 20

/**
 * Refuses indicators that no probability can be drawn from.
 *
 * @throws Error in words: too few stations, a value outside 0…1, or all the same
 */
export function checkIndicators(points: Points, what = 'this class'): void {
  checkPoints(points, 1, what)
  if (points.value.length < LEAST_STATIONS)
    throw new Error(
      `A probability of ${what} needs at least ${LEAST_STATIONS} stations and has ` +
        `${points.value.length}; show the stations themselves instead.`,
    )
  for (const value of points.value)
    if (value < 0 || value > 1)
      throw new Error(`An indicator of ${what} must lie between 0 and 1; one is ${value}.`)
  checkSpread(points, what)
}

/** Probabilities from kriged indicators: those outside are brought to 0 or 1. NaN stays. */
export function clippedProbabilities(kriged: Float64Array): Float64Array {
  return kriged.map((value) => Math.min(1, Math.max(0, value)))
}
