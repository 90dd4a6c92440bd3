/** What testing by blocks tells of its own figures: their errors, and intervals made to fit them. */

/** Standardised errors and the block of each: observed minus predicted over the standard error. */
export interface Standardised {
  readonly size: Float64Array
  readonly blocks: Int32Array
}

/** Half of a normal distribution's middle 90 %, in standard deviations. */
export const NINETY = 1.6448536269514722

/**
 * One standard error of a statistic by leaving out a block at a time (the jackknife of Quenouille
 * and Tukey; Efron and Stein 1981): errors of neighbours go together, so that blocks and not places
 * are what is sampled.
 *
 * @param statistic of the places for which `counts` holds
 */
export function blockError(
  blocks: Int32Array,
  statistic: (counts: (place: number) => boolean) => number,
): number {
  const each = [...new Set(blocks)].map((block) => statistic((place) => blocks[place] !== block))
  const mean = each.reduce((sum, value) => sum + value, 0) / each.length
  const squares = each.reduce((sum, value) => sum + (value - mean) ** 2, 0)
  return Math.sqrt(((each.length - 1) / each.length) * squares)
}

/** Part of the errors within so many standard errors. */
export function partWithin(
  size: Float64Array,
  factor: number,
  counts: (place: number) => boolean = () => true,
): number {
  let [all, inside] = [0, 0]
  size.forEach((each, place) => {
    if (!counts(place)) return
    all++
    if (each <= factor) inside++
  })
  return inside / all
}

/**
 * The standard errors that hold nine tenths of the errors left out, by the rank (n + 1)·0.9 (Vovk
 * 2015; Barber, Candès, Ramdas and Tibshirani 2021); Infinity under nine.
 */
export function fittedFactor({ size, blocks }: Standardised, without: number | null): number {
  const others = size.filter((_, place) => blocks[place] !== without).sort()
  return others[Math.ceil(0.9 * (others.length + 1)) - 1] ?? Infinity
}

/** Part of the stations inside intervals so fitted, the factor of a block from the other blocks. */
export function crossCoverage(tested: Standardised): number {
  const factors = new Map([...new Set(tested.blocks)].map((b) => [b, fittedFactor(tested, b)]))
  const inside = tested.size.filter(
    (each, place) => each <= (factors.get(tested.blocks[place]) ?? Infinity),
  )
  return inside.length / tested.size.length
}
