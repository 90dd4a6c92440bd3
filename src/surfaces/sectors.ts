/** Sectors of equal width around a place, counted from east against the clock. */

/** One for all directions together, quadrants, or octants. */
export type SectorCount = 1 | 4 | 8

/** The sector that a step lies in. */
export function sectorOf(du: number, dv: number, count: SectorCount): number {
  if (count === 1) return 0
  const upper = dv > 0 || (dv === 0 && du >= 0)
  const a = upper ? du : -du
  const b = upper ? dv : -dv
  const octant = (a > 0 ? (b < a ? 0 : 1) : b > -a ? 2 : 3) + (upper ? 0 : 4)
  return count === 8 ? octant : octant >> 1
}

/**
 * The sectors that steps of a rectangle can lie in, as bits; at their edges one more than needed.
 *
 * @param a least and @param b largest step east; @param c least and @param d largest step north
 */
export function sectorsOf(a: number, b: number, c: number, d: number, count: SectorCount): number {
  if (count === 1) return 1
  const aboveLeast = Math.max(c, 0)
  const belowLeast = Math.max(-d, 0)
  const eastLeast = Math.max(a, 0)
  const westLeast = Math.max(-b, 0)
  let octants = 0
  if (d >= 0) {
    if (b >= 0 && aboveLeast <= b) octants |= 1
    if (b >= 0 && eastLeast <= d) octants |= 2
    if (a <= 0 && westLeast <= d) octants |= 4
    if (a <= 0 && aboveLeast <= -a) octants |= 8
  }
  if (c <= 0) {
    if (a <= 0 && belowLeast <= -a) octants |= 16
    if (a <= 0 && westLeast <= -c) octants |= 32
    if (b >= 0 && eastLeast <= -c) octants |= 64
    if (b >= 0 && belowLeast <= b) octants |= 128
  }
  if (count === 8) return octants
  let quadrants = 0
  for (let k = 0; k < 4; k++) if (octants & (3 << (2 * k))) quadrants |= 1 << k
  return quadrants
}
