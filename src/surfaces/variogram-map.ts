/** The variogram map: half the mean squared difference by east and north separation. */
import type { Lags } from './experimental'
import type { Points } from './model'
import type { PairFilter } from './parted-pairs'

export interface VariogramMap {
  /** Cells from the centre to an edge; the map is 2·half + 1 cells square, row 0 the northernmost. */
  readonly half: number
  /** Side of a cell, working units. */
  readonly width: number
  /** Pairs in each cell, each pair counted in both of its directions; row-major. */
  readonly pairs: Float64Array
  /** Half the mean squared difference; NaN where there is no pair. */
  readonly gamma: Float64Array
}

/**
 * The variogram map of points out to the cutoff in both directions. Pairs on one spot are left out.
 *
 * @param allowed pairs that may be used; null for all
 */
export function variogramMap(
  points: Points,
  lags: Lags,
  allowed: PairFilter | null = null,
): VariogramMap {
  const { cutoff, width } = lags
  const half = Math.max(1, Math.ceil(cutoff / width))
  const side = 2 * half + 1
  const limit = (half + 0.5) * width
  const pairs = new Float64Array(side * side)
  const gamma = new Float64Array(side * side)
  const { x, y, value } = points
  for (let i = 1; i < x.length; i++) {
    for (let j = 0; j < i; j++) {
      const dx = x[i] - x[j]
      const dy = y[i] - y[j]
      if (!(Math.abs(dx) < limit && Math.abs(dy) < limit) || (dx === 0 && dy === 0)) continue
      if (allowed && !allowed(i, j)) continue
      const column = Math.floor(dx / width + half + 0.5)
      const row = Math.floor(half + 0.5 - dy / width)
      const square = (value[i] - value[j]) ** 2
      const cell = Math.min(row, side - 1) * side + Math.min(column, side - 1)
      // The opposite direction holds the same pair.
      for (const at of [cell, side * side - 1 - cell]) {
        pairs[at]++
        gamma[at] += square
      }
    }
  }
  for (let at = 0; at < gamma.length; at++)
    gamma[at] = pairs[at] > 0 ? gamma[at] / (2 * pairs[at]) : NaN
  return { half, width, pairs, gamma }
}
