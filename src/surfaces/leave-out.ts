/** Leaving stations out one at a time, fast, for one fixed model. */
import { LANES, packedLength } from './cholesky'
import type { KrigingField } from './kriging-field'
import { KrigingSystem } from './kriging-system'
import { NeighbourIndex } from './neighbours'
import { meanFunctions } from './external-drift'
import { trendCount, writeTrend, type TrendDegree } from './trend'

/** Predictions at left-out stations and the variances of predicted minus observed. */
export interface LeftOut {
  readonly predicted: Float64Array
  readonly variance: Float64Array
  /** f·ν at the station, with ν Lagrange's multipliers of C λ + F ν = c. */
  readonly lagrange: Float64Array
}

/**
 * All at once from one factor (Dubrule 1983, Math. Geology 15, 687): with
 * P = C⁻¹ − C⁻¹F(FᵀC⁻¹F)⁻¹FᵀC⁻¹ a residual is (Pz)ᵢ/Pᵢᵢ and its variance 1/Pᵢᵢ. Lagrange's
 * multipliers come to minus the station's weight in its own mean over Pᵢᵢ, by the same inverse of
 * the whole system.
 */
export function allLeftOut(field: KrigingField, degree: TrendDegree): LeftOut {
  const n = field.u.length
  const system = new KrigingSystem(n, meanFunctions(field.points, degree))
  const everyone = Int32Array.from(field.u, (_, i) => i)
  const drift = new Float64Array(n * meanFunctions(field.points, degree))
  fillCovariances(field, everyone, n, system.matrix)
  system.factor(n)
  fillDrift(field, degree, everyone, n, drift)
  system.solve(field.points.value, drift)
  const dual = system.dualWeights()
  const diagonal = system.projectionDiagonal()
  const predicted = new Float64Array(n)
  const variance = new Float64Array(n)
  const lagrange = new Float64Array(n)
  const own = system.ownWeights(drift)
  for (let i = 0; i < n; i++) {
    // A redundant point, or one that alone holds up the trend, has no such shortcut.
    if (!(diagonal[i] > 1e-12 / field.kernel.sill)) return nearestLeftOut(field, n - 1, degree)
    predicted[i] = field.points.value[i] - dual[i] / diagonal[i]
    variance[i] = 1 / diagonal[i]
    lagrange[i] = -own[i] / diagonal[i]
  }
  return { predicted, variance, lagrange }
}

/** Each station from its own nearest others. */
export function nearestLeftOut(
  field: KrigingField,
  neighbours: number,
  degree: TrendDegree,
): LeftOut {
  const { u, v, noise, kernel, points } = field
  const n = u.length
  const index = new NeighbourIndex(u, v)
  const trends = meanFunctions(points, degree)
  const system = new KrigingSystem(neighbours, trends)
  const found = new Int32Array(neighbours)
  const away = new Float64Array(neighbours)
  const squared = new Float64Array(neighbours * LANES)
  const lanes = new Float64Array(neighbours * LANES)
  const values = new Float64Array(neighbours)
  const drift = new Float64Array(neighbours * trends)
  const own = new Float64Array(trends)
  const result = new Float64Array(3)
  const predicted = new Float64Array(n)
  const variance = new Float64Array(n)
  const lagrange = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    const size = index.nearest(u[i], v[i], neighbours, found, away, i)
    found.subarray(0, size).sort()
    fillCovariances(field, found, size, system.matrix)
    system.factor(size)
    for (let k = 0; k < size; k++) {
      values[k] = points.value[found[k]]
      squared[k * LANES] = (u[found[k]] - u[i]) ** 2 + (v[found[k]] - v[i]) ** 2
    }
    fillDrift(field, degree, found, size, drift)
    system.solve(values, drift)
    kernel.fill(squared, lanes, size * LANES)
    system.whiten(lanes)
    fillDrift(field, degree, Int32Array.of(i), 1, own)
    system.estimate(lanes, 0, own, kernel.sill, result)
    predicted[i] = result[0]
    variance[i] = result[1] + noise[i]
    lagrange[i] = result[2]
  }
  return { predicted, variance, lagrange }
}

/** Writes the packed covariances among some of a field's points. */
function fillCovariances(
  field: KrigingField,
  members: Int32Array,
  count: number,
  matrix: Float64Array,
): void {
  const { u, v, noise, kernel } = field
  const squared = new Float64Array(packedLength(count))
  for (let i = 0, entry = 0; i < count; i++) {
    for (let j = 0; j <= i; j++) {
      const du = u[members[i]] - u[members[j]]
      const dv = v[members[i]] - v[members[j]]
      squared[entry++] = du * du + dv * dv
    }
  }
  kernel.fill(squared, matrix, squared.length)
  for (let i = 0; i < count; i++) matrix[packedLength(i) + i] += noise[members[i]]
}

/** Writes the trend's functions at some of a field's points. */
function fillDrift(
  field: KrigingField,
  degree: TrendDegree,
  members: Int32Array,
  count: number,
  drift: Float64Array,
): void {
  const { u, v, trendScale } = field
  for (let i = 0; i < count; i++) {
    writeTrend(degree, u[members[i]] * trendScale, v[members[i]] * trendScale, drift, i, count)
    if (field.drift) drift[trendCount(degree) * count + i] = field.drift.values[members[i]]
  }
}
