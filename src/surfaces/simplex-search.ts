/** Searching the least of a function of a few variables without derivatives. */

export interface Least {
  readonly at: readonly number[]
  readonly value: number
}

/**
 * The simplex method of Nelder and Mead 1965 (Computer Journal 7, 308).
 *
 * @param start first corner; @param steps how far the other corners stand off, one a variable
 * @param enough stops where the corners' values differ by less
 * @param most evaluations
 */
export function searchSimplex(
  f: (at: readonly number[]) => number,
  start: readonly number[],
  steps: readonly number[],
  enough: number,
  most: number,
): Least {
  const n = start.length
  let left = most
  const corner = (at: readonly number[]): Least => {
    left--
    return { at, value: f(at) }
  }
  let corners = [
    start,
    ...steps.map((step, i) => start.map((v, j) => (i === j ? v + step : v))),
  ].map(corner)
  const byValue = (a: Least, b: Least) => a.value - b.value
  for (;;) {
    corners.sort(byValue)
    const worst = corners[n]
    if (left <= 0 || worst.value - corners[0].value < enough) return corners[0]
    const middle = start.map((_, j) => corners.slice(0, n).reduce((sum, c) => sum + c.at[j], 0) / n)
    const along = (part: number) => corner(middle.map((m, j) => m + part * (m - worst.at[j])))
    const mirrored = along(1)
    if (mirrored.value < corners[0].value) {
      const farther = along(2)
      corners[n] = farther.value < mirrored.value ? farther : mirrored
    } else if (mirrored.value < corners[n - 1].value) corners[n] = mirrored
    else {
      const nearer = along(mirrored.value < worst.value ? 0.5 : -0.5)
      if (nearer.value < Math.min(mirrored.value, worst.value)) corners[n] = nearer
      else {
        const best = corners[0].at
        corners = corners.map((c, i) =>
          i === 0 ? c : corner(c.at.map((v, j) => (v + best[j]) / 2)),
        )
      }
    }
  }
}
