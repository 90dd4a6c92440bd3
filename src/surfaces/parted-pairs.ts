/** Pairs of stations that a barrier parts: a variogram does not count them. */
import type { Points } from './model'
import { Sight } from './sight'

/** Whether a pair of points may be used. */
export type PairFilter = (i: number, j: number) => boolean

/**
 * Tells pairs that no barrier parts; quick where the first point stays the same for a while.
 *
 * @param barriers straight pieces as x1, y1, x2, y2 …; null for none
 * @returns null where every pair may be used
 */
export function pairsInSight(
  { x, y }: Pick<Points, 'x' | 'y'>,
  barriers: Float64Array | null,
): PairFilter | null {
  if (!barriers) return null
  const sight = new Sight(x, y, barriers)
  let facing = -1
  return (i, j) => {
    if (i !== facing) sight.face({ west: x[i], east: x[i], south: y[i], north: y[i] })
    facing = i
    return sight.sees(x[i], y[i], j)
  }
}
