/** Pairs of stations that a barrier parts: a variogram does not count them. */
import type { Points } from './model'
import { Sight } from './sight'

/** Whether a pair of points may be used. */
export type PairFilter = (i: number, j: number) => boolean

/** Points whose pairs are remembered, a byte each. */
const MOST_REMEMBERED = 1000
const [UNKNOWN, SEEN, PARTED] = [0, 1, 2]

/**
 * Tells pairs that no barrier parts; quick where the first point stays the same for a while. Each
 * pair is looked for once.
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
  const seen = new Uint8Array(x.length <= MOST_REMEMBERED ? x.length ** 2 : 0)
  let facing = -1
  const look = (i: number, j: number) => {
    if (i !== facing) sight.face({ west: x[i], east: x[i], south: y[i], north: y[i] })
    facing = i
    return sight.sees(x[i], y[i], j)
  }
  if (seen.length === 0) return look
  return (i, j) => {
    const at = i * x.length + j
    if (seen[at] === UNKNOWN) seen[at] = look(i, j) ? SEEN : PARTED
    return seen[at] === SEEN
  }
}
