/**
 * The equations of kriging with an unknown mean or trend, for one set of points, by Cholesky.
 *
 * With C = L Lᵀ the covariances of the points and F their drift functions (a column of ones for
 * ordinary kriging), the generalised least-squares trend is β = (FᵀC⁻¹F)⁻¹ FᵀC⁻¹z, the estimate
 * at a node with covariances c and drift f is f·β + c·C⁻¹(z − Fβ), and its variance is
 * C(0) − |L⁻¹c|² + rᵀ(FᵀC⁻¹F)⁻¹r with r = f − FᵀC⁻¹c (Cressie 1993, §3.4). This gives the same
 * numbers as the augmented system with Lagrange multipliers (Isaaks and Srivastava 1989, ch. 12).
 */
import type { CovarianceKernel } from './covariance-kernel'

/**
 * A point whose variance given the points before it (by index) has fallen under this part of its
 * own adds nothing that rounding does not drown: it gets no weight. The stated rule for
 * near-singular systems, such as a gaussian model without nugget on close stations.
 */
export const REDUNDANT = 1e-10

/** Nodes solved together, so that a processor can overlap their sums. */
export const LANES = 4

/** Workspace for one set of at most `capacity` points; used again for set after set. */
export class KrigingSystem {
  /** Points in the set. */
  count = 0
  /** Row-major lower factor, `count` wide. */
  readonly lower: Float64Array
  /** One over the factor's diagonal; 0 for a redundant point. */
  readonly inverse: Float64Array
  /** Drift functions at the points, a column after another; set before `solve`. */
  readonly drift: Float64Array
  readonly values: Float64Array
  /** C⁻¹(z − Fβ). */
  readonly dual: Float64Array
  /** Trend coefficients β. */
  readonly trend: Float64Array
  readonly trends: number
  private readonly whitened: Float64Array
  private readonly gram: Float64Array
  private readonly gramInverse: Float64Array
  private readonly squared: Float64Array
  private readonly triangle: Float64Array
  private readonly lanes: Float64Array
  private readonly misfit: Float64Array

  /**
   * @param capacity most points in a set
   * @param trends number of drift functions, 1 for ordinary kriging
   */
  constructor(capacity: number, trends = 1) {
    this.trends = trends
    this.lower = new Float64Array(capacity * capacity)
    this.inverse = new Float64Array(capacity)
    this.drift = new Float64Array(capacity * trends)
    this.values = new Float64Array(capacity)
    this.dual = new Float64Array(capacity)
    this.trend = new Float64Array(trends)
    this.whitened = new Float64Array(capacity * trends)
    this.gram = new Float64Array(trends * trends)
    this.gramInverse = new Float64Array(trends)
    this.squared = new Float64Array((capacity * (capacity - 1)) / 2)
    this.triangle = new Float64Array((capacity * (capacity - 1)) / 2)
    this.lanes = new Float64Array(capacity * LANES)
    this.misfit = new Float64Array(trends)
  }

  /**
   * Takes a set of points and factors its covariances.
   *
   * @param u, v the set's points in the isotropic plane, @param noise their squared errors
   */
  factor(
    count: number,
    u: Float64Array,
    v: Float64Array,
    noise: Float64Array,
    kernel: CovarianceKernel,
  ): void {
    this.count = count
    const { squared, triangle, lower } = this
    let pair = 0
    for (let i = 1; i < count; i++) {
      for (let j = 0; j < i; j++) {
        const du = u[i] - u[j]
        const dv = v[i] - v[j]
        squared[pair++] = du * du + dv * dv
      }
    }
    kernel.fill(squared, triangle, pair)
    pair = 0
    for (let i = 0; i < count; i++) {
      const row = i * count
      for (let j = 0; j < i; j++) lower[row + j] = triangle[pair++]
      lower[row + i] = kernel.sill + noise[i]
    }
    choleskyInPlace(lower, this.inverse, count)
  }

  /** Fits the trend and the dual weights to `values` and `drift`, once the set is factored. */
  solve(): void {
    const { count, trends, whitened, drift, dual, values, gram, trend } = this
    for (let k = 0; k < trends; k++) this.forward(drift, k * count, whitened, k * count)
    this.forward(values, 0, dual, 0)
    for (let k = 0; k < trends; k++) {
      for (let l = 0; l <= k; l++)
        gram[k * trends + l] = dot(whitened, k * count, whitened, l * count, count)
      trend[k] = dot(whitened, k * count, dual, 0, count)
    }
    choleskyInPlace(gram, this.gramInverse, trends)
    this.solveGram(trend)
    for (let k = 0; k < trends; k++) {
      const beta = trend[k]
      for (let i = 0; i < count; i++) dual[i] -= beta * whitened[k * count + i]
    }
    this.backward(dual)
  }

  /**
   * The diagonal of P = C⁻¹ − C⁻¹F(FᵀC⁻¹F)⁻¹FᵀC⁻¹ for a solved set; 0 for a redundant point.
   * It takes count³/6 steps.
   */
  projectionDiagonal(): Float64Array {
    const { count, trends, lower, inverse, whitened, gram, gramInverse } = this
    const diagonal = new Float64Array(count)
    const column = new Float64Array(count)
    const part = new Float64Array(trends)
    for (let i = 0; i < count; i++) {
      if (inverse[i] === 0) continue
      // column = L⁻¹ eᵢ, which starts at i.
      let sum = 0
      part.fill(0)
      for (let r = i; r < count; r++) {
        let value = r === i ? 1 : 0
        for (let k = i; k < r; k++) value -= lower[r * count + k] * column[k]
        value *= inverse[r]
        column[r] = value
        sum += value * value
        for (let t = 0; t < trends; t++) part[t] += whitened[t * count + r] * value
      }
      for (let k = 0; k < trends; k++) {
        let value = part[k]
        for (let l = 0; l < k; l++) value -= gram[k * trends + l] * part[l]
        value *= gramInverse[k]
        part[k] = value
        sum -= value * value
      }
      diagonal[i] = sum
    }
    return diagonal
  }

  /** out = L⁻¹ b. */
  private forward(b: Float64Array, from: number, out: Float64Array, to: number): void {
    const { lower, inverse, count } = this
    for (let i = 0; i < count; i++) {
      let sum = b[from + i]
      const row = i * count
      for (let j = 0; j < i; j++) sum -= lower[row + j] * out[to + j]
      out[to + i] = sum * inverse[i]
    }
  }

  /** b = L⁻ᵀ b, in place. */
  private backward(b: Float64Array): void {
    const { lower, inverse, count } = this
    for (let i = count - 1; i >= 0; i--) {
      const value = b[i] * inverse[i]
      b[i] = value
      const row = i * count
      for (let j = 0; j < i; j++) b[j] -= lower[row + j] * value
    }
  }

  /** b = G⁻¹ b, in place, with the factored Gram matrix. */
  private solveGram(b: Float64Array): void {
    const { gram, gramInverse, trends } = this
    for (let i = 0; i < trends; i++) {
      let sum = b[i]
      for (let j = 0; j < i; j++) sum -= gram[i * trends + j] * b[j]
      b[i] = sum * gramInverse[i]
    }
    for (let i = trends - 1; i >= 0; i--) {
      let sum = b[i]
      for (let j = i + 1; j < trends; j++) sum -= gram[j * trends + i] * b[j]
      b[i] = sum * gramInverse[i]
    }
  }

  /**
   * Estimates and variances at `LANES` nodes.
   *
   * @param covariances of point i and node k at `[i * LANES + k]`
   * @param nodeDrift drift function t at node k at `[t * LANES + k]`
   * @param sill C(0)
   * @param estimate, variance take `LANES` numbers
   */
  estimate(
    covariances: Float64Array,
    nodeDrift: Float64Array,
    sill: number,
    estimate: Float64Array,
    variance: Float64Array,
  ): void {
    const { count, trends, lower, inverse, lanes, dual } = this
    let e0 = 0
    let e1 = 0
    let e2 = 0
    let e3 = 0
    let q0 = 0
    let q1 = 0
    let q2 = 0
    let q3 = 0
    for (let i = 0; i < count; i++) {
      const at = i * LANES
      let s0 = covariances[at]
      let s1 = covariances[at + 1]
      let s2 = covariances[at + 2]
      let s3 = covariances[at + 3]
      const weight = dual[i]
      e0 += weight * s0
      e1 += weight * s1
      e2 += weight * s2
      e3 += weight * s3
      const row = i * count
      for (let j = 0, b = 0; j < i; j++, b += LANES) {
        const factor = lower[row + j]
        s0 -= factor * lanes[b]
        s1 -= factor * lanes[b + 1]
        s2 -= factor * lanes[b + 2]
        s3 -= factor * lanes[b + 3]
      }
      const scale = inverse[i]
      s0 *= scale
      s1 *= scale
      s2 *= scale
      s3 *= scale
      lanes[at] = s0
      lanes[at + 1] = s1
      lanes[at + 2] = s2
      lanes[at + 3] = s3
      q0 += s0 * s0
      q1 += s1 * s1
      q2 += s2 * s2
      q3 += s3 * s3
    }
    estimate[0] = e0
    estimate[1] = e1
    estimate[2] = e2
    estimate[3] = e3
    variance[0] = sill - q0
    variance[1] = sill - q1
    variance[2] = sill - q2
    variance[3] = sill - q3
    if (trends === 1) this.addMean(nodeDrift, estimate, variance)
    else this.addTrend(nodeDrift, estimate, variance)
    for (let k = 0; k < LANES; k++) variance[k] = Math.max(0, variance[k])
  }

  /** The mean's part of estimate and variance: `addTrend` for a single drift function. */
  private addMean(nodeDrift: Float64Array, estimate: Float64Array, variance: Float64Array): void {
    const { count, lanes, whitened } = this
    let w0 = 0
    let w1 = 0
    let w2 = 0
    let w3 = 0
    for (let i = 0, at = 0; i < count; i++, at += LANES) {
      const y = whitened[i]
      w0 += y * lanes[at]
      w1 += y * lanes[at + 1]
      w2 += y * lanes[at + 2]
      w3 += y * lanes[at + 3]
    }
    const beta = this.trend[0]
    const scale = this.gramInverse[0]
    const r0 = (nodeDrift[0] - w0) * scale
    const r1 = (nodeDrift[1] - w1) * scale
    const r2 = (nodeDrift[2] - w2) * scale
    const r3 = (nodeDrift[3] - w3) * scale
    estimate[0] += beta * nodeDrift[0]
    estimate[1] += beta * nodeDrift[1]
    estimate[2] += beta * nodeDrift[2]
    estimate[3] += beta * nodeDrift[3]
    variance[0] += r0 * r0
    variance[1] += r1 * r1
    variance[2] += r2 * r2
    variance[3] += r3 * r3
  }

  private addTrend(nodeDrift: Float64Array, estimate: Float64Array, variance: Float64Array): void {
    const { count, trends, lanes, whitened, misfit, gram, gramInverse, trend } = this
    for (let lane = 0; lane < LANES; lane++) {
      for (let k = 0; k < trends; k++) {
        let sum = nodeDrift[k * LANES + lane]
        estimate[lane] += trend[k] * sum
        for (let i = 0; i < count; i++) sum -= whitened[k * count + i] * lanes[i * LANES + lane]
        misfit[k] = sum
      }
      for (let k = 0; k < trends; k++) {
        let sum = misfit[k]
        for (let l = 0; l < k; l++) sum -= gram[k * trends + l] * misfit[l]
        sum *= gramInverse[k]
        misfit[k] = sum
        variance[lane] += sum * sum
      }
    }
  }
}

function dot(a: Float64Array, from: number, b: Float64Array, to: number, count: number): number {
  let sum = 0
  for (let i = 0; i < count; i++) sum += a[from + i] * b[to + i]
  return sum
}

/**
 * Cholesky's factor of a symmetric matrix whose lower triangle is given, in place.
 *
 * A row that the rows before it make redundant (see `REDUNDANT`) gets a column of zeros and an
 * inverse of 0, which takes it out of every solution.
 *
 * @param a row-major, `n` wide
 * @param inverse takes one over the diagonal
 */
export function choleskyInPlace(a: Float64Array, inverse: Float64Array, n: number): void {
  for (let i = 0; i < n; i++) {
    const row = i * n
    let pivot = a[row + i]
    const own = pivot
    for (let j = 0; j < i; j++) {
      const other = j * n
      let sum = a[row + j]
      for (let k = 0; k < j; k++) sum -= a[row + k] * a[other + k]
      sum *= inverse[j]
      a[row + j] = sum
      pivot -= sum * sum
    }
    const root = pivot > REDUNDANT * own ? Math.sqrt(pivot) : 0
    a[row + i] = root
    inverse[i] = root > 0 ? 1 / root : 0
  }
}
