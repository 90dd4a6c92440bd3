/**
 * Restricted likelihood of a correlation model (Patterson and Thompson 1971; Kitanidis 1983),
 * each value conditioned on its nearest earlier ones (Vecchia 1988; Stein, Chi and Welty 2004).
 *
 * Points are taken in a spread-out order. With n terms, u the standardised residuals of the
 * values and a those of a constant, the mean is β = Σau/Σa², the variance s² = Σ(u − aβ)²/(n − 1),
 * and −2 log L = (n − 1)(1 + log s²) + Σ log of the conditional variances + log Σa².
 */
import { kernelOf } from './covariance-kernel'
import type { Points, Variogram } from './model'
import { factorPacked, packedLength } from './cholesky'
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
/** Earlier points that a value is conditioned on. */
const CONDITIONED_ON = 20

/** One value and the earlier ones it is conditioned on, itself last. */
interface Term {
  readonly size: number
  /** Steps between members, pairs (i, j < i) in rows: squared east, product, squared north. */
  readonly xx: Float64Array
  readonly xy: Float64Array
  readonly yy: Float64Array
  readonly values: Float64Array
  readonly noise: Float64Array
}

/** The restricted likelihood of points, prepared for many models. */
export class RestrictedLikelihood {
  private readonly terms: readonly Term[]
  private readonly squared: Float64Array
  private readonly covariances: Float64Array
  private readonly matrix: Float64Array
  private readonly inverse: Float64Array
  /** Whether points state errors, so that sills are absolute. */
  readonly absolute: boolean

  /** @param points without duplicates */
  constructor(points: Points) {
    this.absolute = points.error?.some((error) => error > 0) ?? false
    const order = spreadOrder(points)
    // All of the first hundred, which tell of long ranges, then an even part of the rest.
    const keep = Math.min(order.length, 100)
    const step = Math.max(1, (order.length - keep) / (MOST_TERMS - keep))
    const chosen: number[] = Array.from({ length: keep }, (_, i) => i)
    for (let at = keep; Math.floor(at) < order.length; at += step) chosen.push(Math.floor(at))
    this.terms = chosen.map((at) => termOf(points, order, at))
    const most = CONDITIONED_ON + 1
    this.squared = new Float64Array(packedLength(most))
    this.covariances = new Float64Array(this.squared.length)
    this.matrix = new Float64Array(packedLength(most))
    this.inverse = new Float64Array(most)
  }

  /** The likelihood of a model; unless `absolute`, only the ratios of its nugget and sills matter. */
  of(variogram: Variogram): Likelihood {
    const kernel = kernelOf(variogram)
    const { uu, uv, vu, vv } = planeOf(variogram)
    const xx = uu * uu + vu * vu
    const xy = 2 * (uu * uv + vu * vv)
    const yy = uv * uv + vv * vv
    let logVariances = 0
    let aa = 0
    let au = 0
    let uu2 = 0
    for (const term of this.terms) {
      const pairs = term.xx.length
      for (let p = 0; p < pairs; p++)
        this.squared[p] = xx * term.xx[p] + xy * term.xy[p] + yy * term.yy[p]
      kernel.fill(this.squared, this.covariances, pairs)
      const { variance, a, u } = this.condition(term, kernel.sill)
      if (variance === 0) continue
      logVariances += Math.log(variance)
      aa += a * a
      au += a * u
      uu2 += u * u
    }
    const freedom = this.terms.length - 1
    const squares = Math.max(uu2 - (au * au) / aa, Number.MIN_VALUE)
    if (this.absolute) return { deviance: squares + logVariances + Math.log(aa), scale: 1 }
    const scale = squares / freedom
    return { deviance: freedom * (1 + Math.log(scale)) + logVariances + Math.log(aa), scale }
  }

  /** Standardised residuals of a term's last member, and of a constant, given the others. */
  private condition(term: Term, sill: number): { variance: number; a: number; u: number } {
    const { matrix, inverse, covariances } = this
    const { size, values, noise } = term
    for (let i = 0, pair = 0, entry = 0; i < size; i++) {
      for (let j = 0; j < i; j++) matrix[entry++] = covariances[pair++]
      matrix[entry++] = sill + noise[i]
    }
    factorPacked(matrix, inverse, size)
    // The last entries of L⁻¹z and L⁻¹1.
    const z = this.squared
    const ones = this.covariances
    for (let i = 0, row = 0; i < size; i++, row += i) {
      let u = values[i]
      let a = 1
      for (let j = 0; j < i; j++) {
        u -= matrix[row + j] * z[j]
        a -= matrix[row + j] * ones[j]
      }
      z[i] = u * inverse[i]
      ones[i] = a * inverse[i]
    }
    const root = matrix[packedLength(size) - 1]
    return { variance: root * root, a: ones[size - 1], u: z[size - 1] }
  }
}

function termOf(points: Points, order: readonly number[], at: number): Term {
  const self = order[at]
  const members = [...nearestEarlier(points, order, at), self]
  const size = members.length
  const pairs = (size * (size - 1)) / 2
  const term = {
    size,
    xx: new Float64Array(pairs),
    xy: new Float64Array(pairs),
    yy: new Float64Array(pairs),
    values: Float64Array.from(members, (i) => points.value[i]),
    noise: Float64Array.from(members, (i) => {
      const error = points.error?.[i] ?? 0
      return error > 0 ? error * error : 0
    }),
  }
  let pair = 0
  for (let i = 1; i < size; i++) {
    for (let j = 0; j < i; j++) {
      const dx = points.x[members[i]] - points.x[members[j]]
      const dy = points.y[members[i]] - points.y[members[j]]
      term.xx[pair] = dx * dx
      term.xy[pair] = dx * dy
      term.yy[pair++] = dy * dy
    }
  }
  return term
}

/** The nearest of the points before a place in the order, nearest first. */
function nearestEarlier(points: Points, order: readonly number[], at: number): number[] {
  const { x, y } = points
  const self = order[at]
  const near: number[] = []
  const squared: number[] = []
  for (let k = 0; k < at; k++) {
    const i = order[k]
    const d = (x[i] - x[self]) ** 2 + (y[i] - y[self]) ** 2
    if (near.length === CONDITIONED_ON && d >= squared[CONDITIONED_ON - 1]) continue
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
