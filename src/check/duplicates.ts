/** Scans that are one measurement kept twice. */
import type { Likeness } from './likeness'

/** What a scan repeats. */
export interface Repeat {
  /** Index of the scan that is taken for the first. */
  readonly of: number
  /** 0 where they are equal to the last bit, else their difference in noise. */
  readonly difference: number
}

/**
 * For each scan the one that it repeats, or null. Of two alike the one with the shorter name is taken
 * for the first, for copies are named `AB12 copy` or `AB12 (1)`; of names of one length the earlier.
 *
 * Two scans of one spot differ by their noise times √2 even when nothing was moved; where they
 * differ by much less, the noise itself is the same and one was made from the other.
 *
 * @param names of the scans
 * @param noises one standard deviation of each scan's noise; null where it is not known
 * @param nearest difference in noise below which two scans are one
 */
export function findRepeats(
  names: readonly string[],
  likenesses: readonly Likeness[],
  noises: readonly (number | null)[],
  nearest: number,
): (Repeat | null)[] {
  const repeats: (Repeat | null)[] = equalScans(names, likenesses)
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
      const [first, copy] = isFirst(names, scan, other) ? [scan, other] : [other, scan]
      repeats[copy] ??= { of: first, difference }
    }
  })
  return repeats
}

function equalScans(names: readonly string[], likenesses: readonly Likeness[]): (Repeat | null)[] {
  const first = new Map<string, number>()
  likenesses.forEach(({ hash }, scan) => {
    const known = first.get(hash)
    if (known === undefined || isFirst(names, scan, known)) first.set(hash, scan)
  })
  return likenesses.map(({ hash }, scan) => {
    const of = first.get(hash)
    return of === undefined || of === scan ? null : { of, difference: 0 }
  })
}

/** Whether of two scans alike `one` is the first and `other` the copy. */
function isFirst(names: readonly string[], one: number, other: number): boolean {
  const [a, b] = [names[one].length, names[other].length]
  return a === b ? one < other : a < b
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
