/** What is plotted of stations' variogram beside a model: all pairs, four directions, the map. */
import { DIRECTIONS, supportsDirections } from './automatic-variogram'
import { experimentalVariogram, suggestLags } from './experimental'
import type { Lag, Points } from './model'
import { pairsInSight } from './parted-pairs'
import { mergeDuplicates, thinned } from './points'
import { detrended, type TrendDegree } from './trend'
import { variogramMap, type VariogramMap } from './variogram-map'

export interface Direction {
  /** Degrees clockwise from north, 22.5 to either side. */
  readonly azimuth: number
  readonly lags: readonly Lag[]
}

export interface VariogramView {
  readonly lags: readonly Lag[]
  /** The same by the estimator of Cressie and Hawkins, which a few far-off values move little. */
  readonly robust: readonly Lag[]
  readonly directions: readonly Direction[]
  /** Whether each of four directions has 30 pairs in each of five lags. */
  readonly supported: boolean
  /** The fewest pairs of those lags, 0 where one has none. */
  readonly fewest: number
  readonly map: VariogramMap
}

/** Stations whose pairs are counted in all directions, and in each; of more, every k-th is taken. */
const MOST_PLOTTED = 4000
const MOST_DIRECTIONAL = 2000
/** The same for both where each pair has to be looked for across barriers. */
const MOST_LOOKED_FOR = 1000
const DIRECTIONAL_LAGS = 5
/** Pairs that a cell of the map should hold on average, and cells from its centre to an edge. */
const PAIRS_A_CELL = 15
const MAP_CELLS = { least: 3, most: 9 }

/**
 * The experimental variogram of points in every form that is plotted.
 *
 * @param degree of the trend that is taken off first, as is an external drift that the points have
 * @param barriers pairs of stations that these part are not counted; null for none
 */
export function variogramView(
  input: Points,
  degree: TrendDegree = 0,
  barriers: Float64Array | null = null,
): VariogramView {
  const points = mergeDuplicates(input)
  const rest = detrended(points, degree)
  const lags = suggestLags(points)
  const few = thinned(rest, barriers ? MOST_LOOKED_FOR : MOST_DIRECTIONAL)
  const many = barriers ? few : thinned(rest, MOST_PLOTTED)
  const seen = pairsInSight(few, barriers)
  const wide = { cutoff: lags.cutoff, width: lags.cutoff / DIRECTIONAL_LAGS }
  const cells = mapCells(few.x.length)
  const directions = DIRECTIONS.map((azimuth) => ({
    azimuth,
    lags: experimentalVariogram(few, wide, { azimuth, tolerance: 22.5, pairs: seen }),
  }))
  const pairs = directions.flatMap(({ lags: found }) => [
    ...found.map((lag) => lag.pairs),
    ...(found.length < DIRECTIONAL_LAGS ? [0] : []),
  ])
  return {
    lags: experimentalVariogram(many, lags, { pairs: seen }),
    robust: experimentalVariogram(many, lags, { pairs: seen, estimator: 'cressie-hawkins' }),
    directions,
    supported: supportsDirections(points, barriers),
    fewest: Math.min(...pairs),
    map: variogramMap(few, { cutoff: lags.cutoff, width: lags.cutoff / cells }, seen),
  }
}

/** Few stations make a coarse map, so that its cells mean something. */
function mapCells(stations: number): number {
  // About a quarter of all pairs lie within the cutoff, each counted both ways.
  const side = Math.sqrt((stations * (stations - 1)) / 4 / PAIRS_A_CELL)
  return Math.min(MAP_CELLS.most, Math.max(MAP_CELLS.least, Math.floor((side - 1) / 2)))
}
