/**
 * The equations of kriging with an unknown mean or trend, for one set of points, by Cholesky.
 *
 * With C = L Lᵀ the covariances of the points and F their drift functions (a column of ones for
 * ordinary kriging), whitening by L⁻¹ turns generalised into ordinary least squares: with Y = L⁻¹F
 * and y = L⁻¹z the trend is β = (YᵀY)⁻¹Yᵀy. At a node with covariances c and drift f, and w = L⁻¹c,
 * the estimate is f·β + w·(y − Yβ) and its variance C(0) − w·w + rᵀ(YᵀY)⁻¹r with r = f − Yᵀw
 * (Cressie 1993, §3.4). These are the numbers of the augmented system with Lagrange multipliers
 * (Isaaks and Srivastava 1989, ch. 12).
 */
import { backward, factorPacked, forward, forwardLanes, LANES, packedLength } from './cholesky'

/** Workspace for one set of at most `capacity` points; used again for set after set. */
export class KrigingSystem {
  /** Points in the set. */
  count = 0
  /** The covariances of the set, packed by rows (`factorPacked`); its factor once factored. */
  readonly matrix: Float64Array
  /** One over the factor's diagonal; 0 for a redundant point. */
  readonly inverse: Float64Array
  readonly trends: number
  /** Trend coefficients β. */
  readonly trend: Float64Array
  /** FᵀC⁻¹F, packed and factored. */
  readonly gram: Float64Array
  /** Y = L⁻¹F, a column after another. */
  private readonly whitened: Float64Array
  /** y − Yβ. */
  private readonly misfit: Float64Array
  private readonly gramInverse: Float64Array
  private readonly column: Float64Array
  private readonly rest: Float64Array
  private readonly own: Float64Array

  /**
   * @param capacity most points in a set
   * @param trends number of drift functions, 1 for ordinary kriging
   */
  constructor(capacity: number, trends = 1) {
    this.trends = trends
    this.matrix = new Float64Array(packedLength(capacity))
    this.inverse = new Float64Array(capacity)
    this.trend = new Float64Array(trends)
    this.gram = new Float64Array(packedLength(trends))
    this.whitened = new Float64Array(capacity * trends)
    this.misfit = new Float64Array(capacity)
    this.gramInverse = new Float64Array(trends)
    this.column = new Float64Array(capacity)
    this.rest = new Float64Array(trends)
    this.own = new Float64Array(trends)
  }

  /** Factors `matrix`, which holds the covariances of `count` points. */
  factor(count: number): void {
    this.count = count
    factorPacked(this.matrix, this.inverse, count)
  }

  /**
   * Fits the trend.
   *
   * @param values of the points
   * @param drift functions at the points, a column of `count` after another
   */
  solve(values: Float64Array, drift: Float64Array): void {
    const { count, trends, whitened, misfit, column } = this
    for (let i = 0; i < count; i++) misfit[i] = values[i]
    forward(this.matrix, this.inverse, count, misfit)
    for (let k = 0; k < trends; k++) {
      for (let i = 0; i < count; i++) column[i] = drift[k * count + i]
      forward(this.matrix, this.inverse, count, column)
      for (let i = 0; i < count; i++) whitened[k * count + i] = column[i]
    }
    this.fitTrend()
  }

  /** Takes y and a single Y = L⁻¹1 from lanes 0 and 1 of whitened sides and fits the mean. */
  solveMean(lanes: Float64Array): void {
    const { count, whitened, misfit } = this
    for (let i = 0, at = 0; i < count; i++, at += LANES) {
      misfit[i] = lanes[at]
      whitened[i] = lanes[at + 1]
    }
    this.fitTrend()
  }

  /** β from y in `misfit` and Y in `whitened`; leaves y − Yβ in `misfit`. */
  private fitTrend(): void {
    const { count, trends, whitened, misfit, gram, gramInverse, trend } = this
    for (let k = 0, entry = 0; k < trends; k++) {
      for (let l = 0; l <= k; l++)
        gram[entry++] = dot(whitened, k * count, whitened, l * count, count)
      trend[k] = dot(whitened, k * count, misfit, 0, count)
    }
    factorPacked(gram, gramInverse, trends)
    forward(gram, gramInverse, trends, trend)
    backward(gram, gramInverse, trends, trend)
    for (let k = 0; k < trends; k++) {
      const beta = trend[k]
      for (let i = 0; i < count; i++) misfit[i] -= beta * whitened[k * count + i]
    }
  }

  /** L⁻¹ of `LANES` sides at once, in place (`forwardLanes`). */
  whiten(lanes: Float64Array): void {
    forwardLanes(this.matrix, this.inverse, this.count, lanes)
  }

  /**
   * Estimate and variance at the node whose whitened covariances stand in a lane.
   *
   * @param nodeDrift drift functions at the node
   * @param sill C(0)
   * @param out takes the estimate, the variance and f·ν, with ν Lagrange's multipliers of
   *   C λ + F ν = c; for ordinary kriging that is the multiplier itself
   */
  estimate(
    lanes: Float64Array,
    lane: number,
    nodeDrift: Float64Array,
    sill: number,
    out: Float64Array,
  ): void {
    const { count, trends, whitened, misfit, trend, gram, gramInverse, rest, own } = this
    let estimate = 0
    let explained = 0
    let drifted = 0
    for (let i = 0, at = lane; i < count; i++, at += LANES) {
      const w = lanes[at]
      estimate += misfit[i] * w
      explained += w * w
      drifted += whitened[i] * w
    }
    let variance = sill - explained
    if (trends === 1) {
      const r = (nodeDrift[0] - drifted) * gramInverse[0]
      out[0] = estimate + trend[0] * nodeDrift[0]
      out[1] = Math.max(0, variance + r * r)
      out[2] = -r * gramInverse[0]
      return
    }
    for (let k = 0; k < trends; k++) {
      estimate += trend[k] * nodeDrift[k]
      let sum = nodeDrift[k]
      for (let i = 0; i < count; i++) sum -= whitened[k * count + i] * lanes[i * LANES + lane]
      rest[k] = sum
    }
    forward(gram, gramInverse, trends, rest)
    own.set(nodeDrift)
    forward(gram, gramInverse, trends, own)
    let multiplier = 0
    for (let k = 0; k < trends; k++) {
      variance += rest[k] * rest[k]
      multiplier -= own[k] * rest[k]
    }
    out[0] = estimate
    out[1] = Math.max(0, variance)
    out[2] = multiplier
  }

  /**
   * The diagonal of F(FᵀC⁻¹F)⁻¹FᵀC⁻¹ of a solved set: what each point's value weighs in the fitted
   * mean at its own place.
   *
   * @param drift functions at the points, a column of `count` after another
   */
  ownWeights(drift: Float64Array): Float64Array {
    const { count, trends, whitened, gram, gramInverse, rest, own } = this
    const columns = Array.from({ length: trends }, (_, k) => {
      const column = whitened.slice(k * count, (k + 1) * count)
      backward(this.matrix, this.inverse, count, column)
      return column
    })
    return Float64Array.from({ length: count }, (_, i) => {
      for (let k = 0; k < trends; k++) {
        rest[k] = columns[k][i]
        own[k] = drift[k * count + i]
      }
      forward(gram, gramInverse, trends, rest)
      forward(gram, gramInverse, trends, own)
      let sum = 0
      for (let k = 0; k < trends; k++) sum += rest[k] * own[k]
      return sum
    })
  }

  /** C⁻¹(z − Fβ) of a solved set. */
  dualWeights(): Float64Array {
    const dual = this.misfit.slice(0, this.count)
    backward(this.matrix, this.inverse, this.count, dual)
    return dual
  }

  /**
   * The diagonal of P = C⁻¹ − C⁻¹F(FᵀC⁻¹F)⁻¹FᵀC⁻¹ of a solved set; 0 for a redundant point.
   * It takes count³/6 steps.
   */
  projectionDiagonal(): Float64Array {
    const { count, trends, matrix, inverse, whitened, gram, gramInverse, column, rest } = this
    const diagonal = new Float64Array(count)
    for (let i = 0; i < count; i++) {
      if (inverse[i] === 0) continue
      // column = L⁻¹ eᵢ, which starts at i.
      let sum = 0
      rest.fill(0)
      for (let r = i; r < count; r++) {
        const row = packedLength(r)
        let value = r === i ? 1 : 0
        for (let k = i; k < r; k++) value -= matrix[row + k] * column[k]
        value *= inverse[r]
        column[r] = value
        sum += value * value
        for (let t = 0; t < trends; t++) rest[t] += whitened[t * count + r] * value
      }
      forward(gram, gramInverse, trends, rest)
      for (let t = 0; t < trends; t++) sum -= rest[t] * rest[t]
      diagonal[i] = sum
    }
    return diagonal
  }
}

function dot(a: Float64Array, from: number, b: Float64Array, to: number, count: number): number {
  let sum = 0
  for (let i = 0; i < count; i++) sum += a[from + i] * b[to + i]
  return sum
}
