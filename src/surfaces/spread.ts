/** How values are spread, where each may stand for more or less ground than another. */

/** Mean, spread and quantiles of values, in their unit. */
export interface Spread {
  readonly mean: number
  /** Standard deviation; 0 for a single value. */
  readonly sd: number
  /** Third standardised moment, about 0 where values are even about their mean; 0 without spread. */
  readonly skewness: number
  readonly least: number
  readonly most: number
  /** One a number of {@link QUANTILES}. */
  readonly quantiles: readonly number[]
}

/** The quantiles that are told. */
export const QUANTILES = [0.1, 0.25, 0.5, 0.75, 0.9] as const

/** Σwz / Σw; the plain mean without weights. */
export function weightedMean(values: Float64Array, weights: Float64Array | null): number {
  let sum = 0
  let total = 0
  for (let i = 0; i < values.length; i++) {
    const weight = weights ? weights[i] : 1
    sum += weight * values[i]
    total += weight
  }
  return sum / total
}

/**
 * The spread of values.
 *
 * With equal weights the variance has the divisor n − 1 and quantiles are Hyndman and Fan's
 * type 7 (1996, Am. Stat. 50, 361); with others the divisor is Σw − Σw²/Σw and a value stands at
 * the middle of its weight.
 *
 * @param values at least one, none missing
 * @param weights one a value, above 0; equal where null
 */
export function spreadWith(values: Float64Array, weights: Float64Array | null): Spread {
  const count = values.length
  const order = Array.from(values, (_, i) => i).sort((a, b) => values[a] - values[b] || a - b)
  const weightOf = (i: number) => (weights ? weights[i] : 1)
  const mean = weightedMean(values, weights)
  let total = 0
  let squares = 0
  let second = 0
  let third = 0
  for (let i = 0; i < count; i++) {
    const weight = weightOf(i)
    total += weight
    squares += weight * weight
    second += weight * (values[i] - mean) ** 2
    third += weight * (values[i] - mean) ** 3
  }
  const divisor = total - squares / total
  return {
    mean,
    sd: count > 1 ? Math.sqrt(second / divisor) : 0,
    skewness: second > 0 ? third / total / (second / total) ** 1.5 : 0,
    least: values[order[0]],
    most: values[order[count - 1]],
    quantiles: quantilesOf(
      order.map((i) => values[i]),
      order.map(weightOf),
    ),
  }
}

/** Between the middles of neighbouring weights, linearly. */
function quantilesOf(ascending: readonly number[], weights: readonly number[]): number[] {
  const places: number[] = []
  let before = 0
  for (const weight of weights) {
    places.push(before + weight / 2)
    before += weight
  }
  const [first, last] = [places[0], places[places.length - 1]]
  let at = 0
  return QUANTILES.map((quantile) => {
    const place = first + quantile * (last - first)
    while (at + 2 < places.length && places[at + 1] < place) at++
    if (places.length === 1) return ascending[0]
    const part = (place - places[at]) / (places[at + 1] - places[at])
    return ascending[at] + Math.min(1, part) * (ascending[at + 1] - ascending[at])
  })
}
