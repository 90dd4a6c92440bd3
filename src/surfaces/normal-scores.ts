/** Normal scores of values and the way back. */

/** A monotonic map between values and standard normal scores. */
export interface NormalScores {
  /** Score of each value, in the order given; equal values share one. */
  readonly scores: Float64Array
  /** The value of a score: between neighbouring values linearly, beyond the ends the end itself. */
  readonly back: (score: number) => number
  /** The score above which `back` gives more than a value; ∓Infinity where all or none do. */
  readonly above: (value: number) => number
}

/**
 * Ranks to standard normal quantiles at (rank − ½)/n (Deutsch and Journel 1998, §V.2.1).
 *
 * @param weights of the values where some stand for more ground (declustering); equal when absent
 */
export function normalScores(values: Float64Array, weights?: Float64Array): NormalScores {
  const order = Array.from(values, (_, i) => i).sort((a, b) => values[a] - values[b] || a - b)
  const total = weights ? weights.reduce((a, b) => a + b, 0) : values.length
  const scores = new Float64Array(values.length)
  const knots: { value: number; score: number }[] = []
  let before = 0
  for (let start = 0; start < order.length;) {
    let end = start
    let weight = 0
    for (; end < order.length && values[order[end]] === values[order[start]]; end++)
      weight += weights ? weights[order[end]] : 1
    const score = normalQuantile((before + weight / 2) / total)
    knots.push({ value: values[order[start]], score })
    for (let i = start; i < end; i++) scores[order[i]] = score
    before += weight
    start = end
  }
  return {
    scores,
    back: (score) => interpolate(knots, score),
    above: (value) => scoreOf(knots, value),
  }
}

function scoreOf(knots: readonly { value: number; score: number }[], value: number): number {
  if (value < knots[0].value) return -Infinity
  const next = knots.findIndex((knot) => knot.value > value)
  if (next < 0) return Infinity
  const [low, high] = [knots[next - 1], knots[next]]
  const part = (value - low.value) / (high.value - low.value)
  return low.score + part * (high.score - low.score)
}

function interpolate(knots: readonly { value: number; score: number }[], score: number): number {
  let low = 0
  let high = knots.length - 1
  if (score <= knots[low].score) return knots[low].value
  if (score >= knots[high].score) return knots[high].value
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (knots[middle].score <= score) low = middle
    else high = middle
  }
  const part = (score - knots[low].score) / (knots[high].score - knots[low].score)
  return knots[low].value + part * (knots[high].value - knots[low].value)
}

/**
 * The standard normal quantile, by Halley's steps on the distribution function from a central
 * or a tail approximation; to about 1e-12.
 *
 * @param p between 0 and 1, neither
 */
export function normalQuantile(p: number): number {
  if (p > 0.5) return -normalQuantile(1 - p)
  const t = -2 * Math.log(p)
  let z =
    p < 0.05
      ? -Math.sqrt(t - Math.log(t - Math.log(2 * Math.PI * t)) - Math.log(2 * Math.PI))
      : 5.5556 * (1 - ((1 - p) / p) ** 0.1186)
  for (let i = 0; i < 50; i++) {
    const step = (normalBelow(z) - p) / (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI))
    // The density's slope is −z times itself.
    const move = step / (1 + (z * step) / 2)
    z -= move
    if (Math.abs(move) < 1e-13) break
  }
  return z
}

/** The standard normal distribution function. */
export function normalBelow(z: number): number {
  if (z > 0) return 1 - normalBelow(-z)
  const x = -z
  const density = Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI)
  if (x > 3) {
    // The continued fraction of Mills's ratio (Abramowitz and Stegun 26.2.14), from its tail.
    let fraction = x
    for (let k = 120; k >= 1; k--) fraction = x + k / fraction
    return density / fraction
  }
  // Half minus the series x + x³/3 + x⁵/15 + … times the density (26.2.11).
  let term = x
  let sum = x
  for (let k = 1; k < 100 && term > 1e-18 * sum; k++) {
    term *= (x * x) / (2 * k + 1)
    sum += term
  }
  return 0.5 - density * sum
}
