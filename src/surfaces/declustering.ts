/**
 * Cell declustering (Journel 1983; Isaaks and Srivastava 1989, chapter 10): walks crowd where
 * something was found, so that a plain mean of stations is a biased one.
 */
import { meanSpacing } from './grid'
import type { Points } from './model'
import { boundsOf } from './points'
import { weightedMean } from './spread'

export interface Declustered {
  /** One weight a point; they sum to the number of points. */
  readonly weights: Float64Array
  /** The weighted mean. */
  readonly mean: number
  /** Side of the cells that gave it, working units. */
  readonly cell: number
}

/** Shifts of the lattice that weights are averaged over. */
const SHIFTS = 8

/** Weights for one cell: each occupied cell counts the same, shared among its points. */
export function cellWeights(points: Pick<Points, 'x' | 'y'>, cell: number): Float64Array {
  const count = points.x.length
  const [west, south, east] = boundsOf(points)
  const columns = Math.floor((east - west) / cell) + 2
  const weights = new Float64Array(count)
  const keys = new Float64Array(count)
  for (let shift = 0; shift < SHIFTS; shift++) {
    // Along a diagonal with unequal parts, so that lattices differ in both directions.
    const dx = (cell * shift) / SHIFTS
    const dy = (cell * ((shift * 3) % SHIFTS)) / SHIFTS
    const occupants = new Map<number, number>()
    for (let i = 0; i < count; i++) {
      const column = Math.floor((points.x[i] - west + dx) / cell)
      keys[i] = Math.floor((points.y[i] - south + dy) / cell) * columns + column
      occupants.set(keys[i], (occupants.get(keys[i]) ?? 0) + 1)
    }
    const share = count / (occupants.size * SHIFTS)
    for (let i = 0; i < count; i++) weights[i] += share / (occupants.get(keys[i]) ?? 1)
  }
  return weights
}

/** Cells that are tried, from half the mean spacing to six times it. */
const STEPS = 20

/**
 * Declustered weights. Cells from half to six times the mean spacing are tried and the one whose
 * mean lies farthest from the plain mean is taken, as is customary: the lowest where high values
 * were crowded, the highest where low ones were.
 *
 * @param toward 'low' where high values were sought (the usual case), 'high' where low ones were,
 *   'told' where the side to which the cells lead on average decides
 */
export function decluster(points: Points, toward: 'low' | 'high' | 'told' = 'low'): Declustered {
  const spacing = meanSpacing(points)
  const plain = weightedMean(points.value, null)
  const tried = Array.from({ length: STEPS + 1 }, (_, step): Declustered => {
    const cell = spacing * 0.5 * 12 ** (step / STEPS) || 1
    const weights = cellWeights(points, cell)
    return { weights, mean: weightedMean(points.value, weights), cell }
  })
  const led = tried.reduce((sum, { mean }) => sum + mean - plain, 0)
  const low = toward === 'told' ? led <= 0 : toward === 'low'
  return tried.reduce((best, each) =>
    (low ? each.mean < best.mean : each.mean > best.mean) ? each : best,
  )
}
