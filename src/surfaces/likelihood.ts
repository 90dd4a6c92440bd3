/**
 * Restricted likelihood of a correlation model (Patterson and Thompson 1971; Kitanidis 1983),
 * each value conditioned on its nearest earlier ones (Vecchia 1988; Stein, Chi and Welty 2004).
 *
 * Points are taken in a spread-out order. With n terms, u the standardised residuals of the
 * values and A those of the trend's p functions, β = (AᵀA)⁻¹Aᵀu, the variance is
 * s² = |u − Aβ|²/(n − p), and −2 log L = (n − p)(1 + log s²) + Σ log of the conditional variances
 * + log det AᵀA. Where points state errors of their own the model's sills are taken as they are
 * and s² is 1.
 */
import { factorPacked, forward, packedLength } from './cholesky'
import { kernelOf } from './covariance-kernel'
import { driftScale, meanFunctions } from './external-drift'
import type { Points, Variogram } from './model'
import type { PairFilter } from './parted-pairs'
import { boundsOf, spreadOf } from './points'
import { trendCount, writeTrend, type TrendDegree } from './trend'
import { planeOf } from './variogram-models'

/** What a correlation model says of the points. */
export interface Likelihood {
  /** −2 log restricted likelihood, up to a constant of the points. */
  readonly deviance: number
  /** The factor of the model's sills that makes it largest; 1 where points state errors. */
  readonly scale: number
}

/** Most terms that are summed: each costs the factor of a small system. */
const MOST_TERMS = 400
/** The first terms, which tell of long ranges, are all summed. */
const ALL_OF_FIRST = 100
/** Earlier points that a value is conditioned on. */
const CONDITIONED_ON = 20

/** One value and the earlier ones it is conditioned on, itself last. */
interface Term {
  readonly size: number
  /** Steps between members, packed by rows as a matrix is: squared east, product, squared north. */
  readonly xx: Float64Array
  readonly xy: Float64Array
  readonly yy: Float64Array
  readonly noise: Float64Array
  /** Values, then each function of the trend, `size` numbers each. */
  readonly columns: Float64Array
}

/** The restricted likelihood of points, prepared for many models. */
export class RestrictedLikelihood {
  /** Whether points state errors, so that sills are absolute. */
  readonly absolute: boolean
  private readonly terms: readonly Term[]
  private readonly functions: number
  private readonly squared: Float64Array
  private readonly matrix: Float64Array
  private readonly inverse: Float64Array
  private readonly column = new Float64Array(CONDITIONED_ON + 1)
  /** Standardised residuals of the value and of the trend's functions, of one term. */
  private readonly residuals: Float64Array
  private readonly gram: Float64Array
  private readonly gramInverse: Float64Array
  private readonly products: Float64Array

  /**
   * @param input points without duplicates
   * @param pairs that may be used; null for all
   */
  constructor(input: Points, degree: TrendDegree = 0, pairs: PairFilter | null = null) {
    // A mean far above the spread would cost the sums their digits; the trend takes it off anyway.
    const { mean } = spreadOf(input.value)
    const points = {
      ...input,
      value: input.value.map((value) => value - mean),
      ...(input.drift ? { drift: scaled(input.drift) } : {}),
    }
    this.absolute = points.error?.some((error) => error > 0) ?? false
    this.functions = meanFunctions(points, degree)
    const order = spreadOrder(points)
    this.terms = chosenTerms(order.length).map((at) => termOf(points, order, at, degree, pairs))
    this.squared = new Float64Array(packedLength(CONDITIONED_ON + 1))
    this.matrix = new Float64Array(packedLength(CONDITIONED_ON + 1))
    this.inverse = new Float64Array(CONDITIONED_ON + 1)
    this.residuals = new Float64Array(1 + this.functions)
    this.gram = new Float64Array(packedLength(this.functions))
    this.gramInverse = new Float64Array(this.functions)
    this.products = new Float64Array(this.functions)
  }

  /**
   * The likelihood of a model. Unless `absolute`, only the ratios of its nugget and sills matter.
   */
  of(variogram: Variogram): Likelihood {
    const { squared, matrix, residuals, gram, products, functions } = this
    const kernel = kernelOf(variogram)
    const { uu, uv, vu, vv } = planeOf(variogram)
    const xx = uu * uu + vu * vu
    const xy = 2 * (uu * uv + vu * vv)
    const yy = uv * uv + vv * vv
    gram.fill(0)
    products.fill(0)
    let logVariances = 0
    let squares = 0
    for (const term of this.terms) {
      const entries = term.xx.length
      for (let e = 0; e < entries; e++)
        squared[e] = xx * term.xx[e] + xy * term.xy[e] + yy * term.yy[e]
      kernel.fill(squared, matrix, entries)
      const variance = this.condition(term)
      if (variance === 0) continue
      logVariances += Math.log(variance)
      squares += residuals[0] ** 2
      for (let k = 0, entry = 0; k < functions; k++) {
        products[k] += residuals[0] * residuals[k + 1]
        for (let l = 0; l <= k; l++) gram[entry++] += residuals[k + 1] * residuals[l + 1]
      }
    }
    return this.summed(squares, logVariances)
  }

  /** Takes the trend out of the summed squares and puts the likelihood together. */
  private summed(squares: number, logVariances: number): Likelihood {
    const { gram, gramInverse, products, functions } = this
    factorPacked(gram, gramInverse, functions)
    forward(gram, gramInverse, functions, products)
    let rest = squares
    let logs = logVariances
    for (let k = 0; k < functions; k++) {
      rest -= products[k] ** 2
      if (gramInverse[k] > 0) logs -= 2 * Math.log(gramInverse[k])
    }
    rest = Math.max(rest, Number.MIN_VALUE)
    if (this.absolute) return { deviance: rest + logs, scale: 1 }
    const freedom = Math.max(1, this.terms.length - functions)
    const scale = rest / freedom
    return { deviance: freedom * (1 + Math.log(scale)) + logs, scale }
  }

  /** Fills the residuals of a term's last member given the others; gives its variance. */
  private condition(term: Term): number {
    const { matrix, inverse, column, residuals } = this
    const { size, noise, columns } = term
    for (let i = 0; i < size; i++) matrix[packedLength(i) + i] += noise[i]
    factorPacked(matrix, inverse, size)
    for (let c = 0; c < residuals.length; c++) {
      for (let i = 0; i < size; i++) column[i] = columns[c * size + i]
      forward(matrix, inverse, size, column)
      residuals[c] = column[size - 1]
    }
    return matrix[packedLength(size) - 1] ** 2
  }
}

function scaled(drift: Float64Array): Float64Array {
  const { mean, unit } = driftScale(drift)
  return drift.map((value) => (value - mean) / unit)
}

/** Which places of the order are summed: the first ones and an even part of the rest. */
function chosenTerms(count: number): number[] {
  const first = Math.min(count, ALL_OF_FIRST)
  const chosen = Array.from({ length: first }, (_, i) => i)
  const step = Math.max(1, (count - first) / (MOST_TERMS - first))
  for (let at = first; Math.floor(at) < count; at += step) chosen.push(Math.floor(at))
  return chosen
}

function termOf(
  points: Points,
  order: readonly number[],
  at: number,
  degree: TrendDegree,
  pairs: PairFilter | null,
): Term {
  const { x, y, value, error, drift } = points
  const members = [...nearestEarlier(points, order, at, pairs), order[at]]
  const size = members.length
  const xx = new Float64Array(packedLength(size))
  const xy = new Float64Array(packedLength(size))
  const yy = new Float64Array(packedLength(size))
  for (let i = 0, entry = 0; i < size; i++) {
    for (let j = 0; j <= i; j++, entry++) {
      const dx = x[members[i]] - x[members[j]]
      const dy = y[members[i]] - y[members[j]]
      xx[entry] = dx * dx
      xy[entry] = dx * dy
      yy[entry] = dy * dy
    }
  }
  const [west, south, east, north] = boundsOf(points)
  const span = Math.max(east - west, north - south, Number.MIN_VALUE * 1e10)
  const columns = new Float64Array(size * (1 + meanFunctions(points, degree)))
  const noise = new Float64Array(size)
  members.forEach((member, i) => {
    columns[i] = value[member]
    const a = (x[member] - west) / span
    const b = (y[member] - south) / span
    writeTrend(degree, a, b, columns, size + i, size)
    if (drift) columns[(1 + trendCount(degree)) * size + i] = drift[member]
    const own = error?.[member] ?? 0
    if (own > 0) noise[i] = own * own
  })
  return { size, xx, xy, yy, noise, columns }
}

/** The nearest of the points before a place in the order, nearest first. */
function nearestEarlier(
  points: Points,
  order: readonly number[],
  at: number,
  pairs: PairFilter | null,
): number[] {
  const { x, y } = points
  const self = order[at]
  const near: number[] = []
  const squared: number[] = []
  for (let k = 0; k < at; k++) {
    const i = order[k]
    const d = (x[i] - x[self]) ** 2 + (y[i] - y[self]) ** 2
    if (near.length === CONDITIONED_ON && d >= squared[CONDITIONED_ON - 1]) continue
    if (pairs && !pairs(self, i)) continue
    if (near.length === CONDITIONED_ON) {
      near.pop()
      squared.pop()
    }
    let place = near.length
    while (place > 0 && squared[place - 1] > d) place--
    near.splice(place, 0, i)
    squared.splice(place, 0, d)
  }
  return near
}

/** An order in which early points are spread out: a fixed shuffle. */
function spreadOrder(points: Points): number[] {
  const order = Array.from(points.x, (_, i) => i)
  let state = 12345
  for (let i = order.length - 1; i > 0; i--) {
    // A linear congruential generator (constants of Numerical Recipes, from memory).
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    const j = Math.floor((state / 2 ** 32) * (i + 1))
    const other = order[i]
    order[i] = order[j]
    order[j] = other
  }
  return order
}
