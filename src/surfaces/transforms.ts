/**
 * Kriging of transformed values, brought back to their own unit.
 *
 * Kriging gives a normal distribution of the transformed value at a node: its estimate y and its
 * variance s². What is told of the value z itself is the mean and the variance of what that
 * distribution becomes when it is brought back; bringing back y alone would give a median, which is
 * too low for a mean where values are skewed.
 */
import type { Points, SurfaceRule } from './model'
import { scoreTable, type Declustering } from './score-table'

export type TransformKind = NonNullable<SurfaceRule['transform']>

/** Why ranks go with neither a trend nor a drift. */
export const NO_RANKS_WITH_MEAN =
  'ranks end at 0 and 1, so that what a trend or a drift makes of them cannot be brought back ' +
  'rightly; take "normal-score" or "log"'

/** Stations' transformed values, for kriging. */
export interface Transformed {
  readonly kind: TransformKind
  /** Errors where the transform carries them over. */
  readonly points: Points
  /** How normal scores were declustered; null or absent where stations count alike. */
  readonly declustering?: Declustering | null
}

/** Kriged transformed values, one a node; NaN where there is none. */
export interface KrigedScores {
  readonly estimate: Float64Array
  readonly variance: Float64Array
  /** f·ν, with ν Lagrange's multipliers of C λ + F ν = c and f the mean's functions; of logarithms alone. */
  readonly lagrange?: Float64Array
}

/**
 * Transforms stations' values.
 *
 * - `log`: the natural logarithm; an error e of z becomes e/z.
 * - `normal-score`: standard normal quantiles of the ranks (Deutsch and Journel 1998, §V.2.1).
 * - `rank`: (rank − ½)/n, equal values sharing their mean rank (Journel and Deutsch 1997, from
 *   memory).
 * Scores and ranks take no account of stations' errors.
 *
 * @param declustered whether crowded stations count less in normal scores
 * @throws Error in words where a logarithm does not exist
 */
export function transformedPoints(
  kind: TransformKind,
  points: Points,
  what: string,
  declustered = false,
): Transformed {
  const { x, y, value, error } = points
  const drift = points.drift ? { drift: points.drift } : {}
  if (kind === 'log') {
    const low = value.filter((each) => !(each > 0)).length
    if (low > 0)
      throw new Error(
        `${low} of ${value.length} stations of ${what} have no logarithm, being 0 or less; ` +
          'count cells below detection as half the limit, or take the transform "normal-score".',
      )
    const logs = value.map(Math.log)
    const errors = error?.map((each, i) => each / value[i])
    return { kind, points: { x, y, value: logs, ...(errors ? { error: errors } : {}), ...drift } }
  }
  if (kind === 'rank') return { kind, points: { x, y, value: ranks(value), ...drift } }
  const { scores, declustering } = scoreTable(points, declustered)
  return { kind, points: { x, y, value: scores, ...drift }, declustering }
}

function ranks(values: Float64Array): Float64Array {
  const order = Array.from(values, (_, i) => i).sort((a, b) => values[a] - values[b] || a - b)
  const found = new Float64Array(values.length)
  for (let start = 0; start < order.length;) {
    let end = start + 1
    while (end < order.length && values[order[end]] === values[order[start]]) end++
    for (let i = start; i < end; i++) found[order[i]] = (start + end) / 2 / values.length
    start = end
  }
  return found
}

/** Mean and variance of the value itself, in its unit and its square. */
export interface Restored {
  readonly estimate: Float64Array
  readonly variance: Float64Array
}

/** Brings kriged transformed values back. */
export type Restorer = (kriged: KrigedScores) => Restored

/**
 * The way back for some stations.
 *
 * Logarithms: the mean is exp(y + s²/2 + f·ν), unbiased with an unknown mean, trend or drift
 * (Journel 1980, Math. Geology 12, 285; Cressie 1993, §3.2.2; Cressie 2006, Math. Geology 38, 413,
 * with the sign of ν that belongs to covariances), and the variance its square times exp(s²) − 1.
 * Scores and ranks: mean and variance of the quantiles that
 * the normal distribution of the score gives, the map between neighbouring stations' values being
 * straight. Beyond the least and the greatest score stands the least and the greatest value: these
 * tails are an assumption, so a surface never leaves the range of its data.
 *
 * @param value of the stations, not transformed
 */
export function restorer({ kind, points }: Transformed, value: Float64Array): Restorer {
  if (kind === 'log') return restoreLogs
  const knots = knotsOf(points.value, value)
  return ({ estimate, variance }) => {
    const restored = { estimate: estimate.slice(), variance: variance.slice() }
    for (let node = 0; node < estimate.length; node++) {
      if (Number.isNaN(estimate[node])) continue
      const [mean, spread] = meanAndVariance(knots, estimate[node], Math.sqrt(variance[node]))
      restored.estimate[node] = mean
      restored.variance[node] = spread
    }
    return restored
  }
}

function restoreLogs({ estimate, variance, lagrange }: KrigedScores): Restored {
  const mean = estimate.map((y, i) => Math.exp(y + variance[i] / 2 + (lagrange?.[i] ?? 0)))
  return {
    estimate: mean,
    variance: variance.map((s2, i) => mean[i] * mean[i] * Math.expm1(s2)),
  }
}

/** Ascending scores and their values, each once, and the same map read at even steps. */
interface Knots {
  readonly scores: Float64Array
  readonly values: Float64Array
  /** Values at `STEPS` + 1 scores from the first to the last. */
  readonly even: Float64Array
}

/** Enough that a map of some thousand stations keeps its bends. */
const STEPS = 8192

function knotsOf(scores: Float64Array, values: Float64Array): Knots {
  const order = Array.from(scores, (_, i) => i).sort((a, b) => scores[a] - scores[b])
  const once = order.filter((i, k) => k === 0 || scores[i] > scores[order[k - 1]])
  const knots = {
    scores: Float64Array.from(once, (i) => scores[i]),
    values: Float64Array.from(once, (i) => values[i]),
  }
  const [first, last] = [knots.scores[0], knots.scores[once.length - 1]]
  const even = Float64Array.from({ length: STEPS + 1 }, (_, i) =>
    valueAt(knots, first + (i / STEPS) * (last - first)),
  )
  return { ...knots, even }
}

/** Standard normal deviates from −4.5 to 4.5 by 0.025, and the part of the distribution at each. */
const DEVIATES = Float64Array.from({ length: 361 }, (_, i) => (i - 180) / 40)
const PARTS = DEVIATES.map((z) => Math.exp((-z * z) / 2))
const WHOLE = PARTS.reduce((a, b) => a + b)

/** Mean and variance of the values of normal scores, by the trapezium rule over the deviates. */
function meanAndVariance(
  knots: Knots,
  mean: number,
  spread: number,
): [mean: number, variance: number] {
  const { scores, even } = knots
  const middle = valueAt(knots, mean)
  if (!(spread > 0)) return [middle, 0]
  const first = scores[0]
  const scale = STEPS / (scores[scores.length - 1] - first)
  const read = (score: number): number => {
    // Before the first knot and after the last the value is theirs.
    const place = Math.min(STEPS, Math.max(0, (score - first) * scale))
    const at = Math.min(STEPS - 1, place | 0)
    return even[at] + (place - at) * (even[at + 1] - even[at])
  }
  // As differences from the value at the mean, so that a small variance keeps its digits.
  const from = read(mean)
  let sum = 0
  let squares = 0
  for (let k = 0; k < DEVIATES.length; k++) {
    const value = read(mean + spread * DEVIATES[k]) - from
    const weighed = PARTS[k] * value
    sum += weighed
    squares += weighed * value
  }
  const shift = sum / WHOLE
  return [middle + shift, Math.max(0, squares / WHOLE - shift * shift)]
}

/** On the straight line between knots; the ends' values beyond them. */
function valueAt({ scores, values }: Pick<Knots, 'scores' | 'values'>, score: number): number {
  const last = scores.length - 1
  if (score <= scores[0]) return values[0]
  if (score >= scores[last]) return values[last]
  let low = 0
  let high = last
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (scores[middle] <= score) low = middle
    else high = middle
  }
  const part = (score - scores[low]) / (scores[high] - scores[low])
  return values[low] + part * (values[high] - values[low])
}
