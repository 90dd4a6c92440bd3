/** Scans that are one measurement kept twice. */
import type { Likeness } from './likeness'

/** What a scan repeats. */
export interface Repeat {
  /** Index of the earlier scan. */
  readonly of: number
  /** 0 where they are equal to the last bit, else their difference in noise. */
  readonly difference: number
}

/**
 * For each scan the earlier one that it repeats, or null.
 *
 * Two scans of one spot differ by their noise times √2 even when nothing was moved; where they
 * differ by much less, the noise itself is the same and one was made from the other.
 *
 * @param noises one standard deviation of each scan's noise; null where it is not known
 * @param nearest difference in noise below which two scans are one
 */
export function findRepeats(
  likenesses: readonly Likeness[],
  noises: readonly (number | null)[],
  nearest: number,
): (Repeat | null)[] {
  const repeats: (Repeat | null)[] = equalScans(likenesses)
  const means = likenesses.map(({ sketch }) => meanOf(sketch))
  const order = likenesses
    .map((_, scan) => scan)
    .filter((scan) => repeats[scan] === null && !Number.isNaN(means[scan]))
    .sort((a, b) => means[a] - means[b] || a - b)
  order.forEach((scan, rank) => {
    const noise = noises[scan]
    if (noise === null || !(noise > 0)) return
    for (let next = rank + 1; next < order.length; next++) {
      const other = order[next]
      if (means[other] - means[scan] > nearest * noise) break
      const difference = differenceOf(likenesses[scan].sketch, likenesses[other].sketch) / noise
      if (!(difference < nearest)) continue
      const [earlier, later] = [Math.min(scan, other), Math.max(scan, other)]
      repeats[later] ??= { of: earlier, difference }
    }
  })
  return repeats
}

function equalScans(likenesses: readonly Likeness[]): (Repeat | null)[] {
  const first = new Map<string, number>()
  return likenesses.map(({ hash }, scan) => {
    const of = first.get(hash)
    if (of === undefined) first.set(hash, scan)
    return of === undefined ? null : { of, difference: 0 }
  })
}

function meanOf(sketch: readonly number[]): number {
  let sum = 0
  let count = 0
  for (const value of sketch) {
    if (Number.isNaN(value)) continue
    sum += value
    count++
  }
  return sum / count
}

/** Root-mean-square difference; NaN where gaps do not match. */
function differenceOf(a: readonly number[], b: readonly number[]): number {
  let sum = 0
  let count = 0
  for (let i = 0; i < a.length; i++) {
    if (Number.isNaN(a[i]) && Number.isNaN(b[i])) continue
    sum += (a[i] - b[i]) ** 2
    count++
  }
  return Math.sqrt(sum / count)
}
