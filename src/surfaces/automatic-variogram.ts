/** A variogram for points with no word from the user. */
import { experimentalVariogram, suggestLags, type Lags } from './experimental'
import { fitVariogram } from './fit-variogram'
import type { Lag, Points, Variogram } from './model'
import { boundsOf, mergeDuplicates } from './points'

export interface AutomaticVariogram {
  readonly variogram: Variogram
  /** The lags it was fitted to and the experimental variogram on them. */
  readonly lags: Lags
  readonly experimental: readonly Lag[]
}

/**
 * Fits a variogram with every choice made from the points.
 *
 * @throws Error in words where the points do not allow a fit
 */
export function automaticVariogram(input: Points): AutomaticVariogram {
  const points = mergeDuplicates(input)
  let lags = suggestLags(points)
  let experimental = experimentalVariogram(points, lags)
  if (experimental.length < 3) {
    // A handful of stations: every pair must serve.
    const [west, south, east, north] = boundsOf(points)
    const cutoff = Math.hypot(east - west, north - south)
    lags = { cutoff, width: cutoff / 5 }
    experimental = experimentalVariogram(points, lags)
  }
  return { variogram: fitVariogram(experimental).variogram, lags, experimental }
}
