/**
 * A mean in which odd values pull little: Huber's (1964, Ann. Math. Stat. 35, 73) M-estimate of
 * location with the scale held at the median absolute deviation. Values farther than 1.5 of it
 * from the mean count as if they lay there; none is dropped. With three values, one of them far
 * off, a scale that is fitted along would follow the odd one.
 */

/** Makes the median absolute deviation of normal values their standard deviation. */
const OF_NORMAL = 1.4826
const REACH = 1.5
/** Rounds at most, and the change at which the mean has settled, in parts of the scale. */
const ROUNDS = 200
const SETTLED = 1e-9

/**
 * The robust mean of values, in their unit.
 *
 * @param values one at least
 * @param least the scale is taken as no smaller: the standard error of a single value
 */
export function robustMean(values: readonly number[], least = 0): number {
  let mean = medianOf(values)
  const scale = OF_NORMAL * medianOf(values.map((value) => Math.abs(value - mean)))
  const reach = REACH * Math.max(scale, least)
  for (let round = 0; round < ROUNDS; round++) {
    const before = mean
    const sum = values.reduce(
      (total, value) => total + Math.min(Math.max(value, before - reach), before + reach),
      0,
    )
    mean = sum / values.length
    if (Math.abs(mean - before) <= SETTLED * reach) break
  }
  return mean
}

function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  const middle = sorted.length >> 1
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2
}
