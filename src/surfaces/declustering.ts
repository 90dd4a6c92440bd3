/**
 * Cell declustering (Journel 1983; Isaaks and Srivastava 1989, chapter 10): walks crowd where
 * something was found, so that a plain mean of stations is a biased one.
 */
import { meanSpacing } from './grid'
import type { Points } from './model'
import { boundsOf } from './points'

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
export function cellWeights(points: Points, cell: number): Float64Array {
  const count = points.x.length
  const [west, south] = boundsOf(points)
  const weights = new Float64Array(count)
  for (let shift = 0; shift < SHIFTS; shift++) {
    // Along a diagonal with unequal parts, so that lattices differ in both directions.
    const dx = (cell * shift) / SHIFTS
    const dy = (cell * ((shift * 3) % SHIFTS)) / SHIFTS
    const keys = Array.from(points.x, (x, i) => {
      const column = Math.floor((x - west + dx) / cell)
      return `${column} ${Math.floor((points.y[i] - south + dy) / cell)}`
    })
    const occupants = new Map<string, number>()
    for (const key of keys) occupants.set(key, (occupants.get(key) ?? 0) + 1)
    keys.forEach((key, i) => {
      weights[i] += count / ((occupants.get(key) ?? 1) * occupants.size * SHIFTS)
    })
  }
  return weights
}

/**
 * Declustered weights. Cells from half to six times the mean spacing are tried and the one whose
 * mean lies farthest from the plain mean is taken, as is customary: the lowest where high values
 * were crowded, the highest where low ones were.
 *
 * @param toward 'low' where high values were sought (the usual case), else 'high'
 */
export function decluster(points: Points, toward: 'low' | 'high' = 'low'): Declustered {
  const spacing = meanSpacing(points)
  let best: Declustered | null = null
  for (let step = 0; step <= 20; step++) {
    const cell = spacing * 0.5 * 12 ** (step / 20)
    const weights = cellWeights(points, cell > 0 ? cell : 1)
    let sum = 0
    for (let i = 0; i < weights.length; i++) sum += weights[i] * points.value[i]
    const mean = sum / weights.length
    if (best === null || (toward === 'low' ? mean < best.mean : mean > best.mean))
      best = { weights, mean, cell }
  }
  if (best === null) throw new Error('No cell could be tried for declustering.')
  return best
}
