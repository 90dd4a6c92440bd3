/** Testing a surface against its own stations: each is left out and predicted from the others. */
import { inverseDistanceAt } from './inverse-distance'
import { prepareField, type KrigingField } from './kriging-field'
import { LANES, packedLength } from './cholesky'
import { KrigingSystem } from './kriging-system'
import { MOST_NEIGHBOURS } from './kriging'
import type { Points, Testing, Variogram } from './model'
import { NeighbourIndex } from './neighbours'
import { checkPoints, mergeDuplicates, spreadOf } from './points'

/** How left-out stations are predicted. */
export type TestedMethod =
  | {
      readonly method: 'kriging'
      readonly variogram: Variogram
      readonly neighbours?: number | null
    }
  | {
      readonly method: 'inverse-distance'
      readonly power?: number
      readonly neighbours?: number | null
    }

/** What leaving out gave, one entry a station; duplicates are one station (`mergeDuplicates`). */
export interface Tested {
  readonly testing: Testing
  /** The stations as merged. */
  readonly points: Points
  readonly predicted: Float64Array
  /** Variance of predicted minus observed: kriging variance plus the station's own squared error. */
  readonly variance: Float64Array | null
  /** Observed minus predicted. */
  readonly residual: Float64Array
}

/**
 * Leave-one-station-out with a fixed model.
 *
 * @throws Error where fewer than 3 stations are there
 */
export function leaveOneOut(points: Points, method: TestedMethod): Tested {
  checkPoints(points, 3, 'testing')
  const merged = mergeDuplicates(points)
  checkPoints(merged, 3, 'testing')
  if (method.method === 'inverse-distance') return inverseDistanceLeftOut(merged, method)
  const field = prepareField(merged, method.variogram)
  const others = merged.x.length - 1
  const neighbours = Math.min(method.neighbours ?? others, others)
  return neighbours === others ? allLeftOut(field) : nearestLeftOut(field, neighbours)
}

/** Sums up predictions in the value's unit. Observed minus predicted is the residual. */
export function testedOf(
  points: Points,
  predicted: Float64Array,
  variance: Float64Array | null,
): Tested {
  const residual = points.value.map((value, i) => value - predicted[i])
  const count = residual.length
  let sum = 0
  let squares = 0
  let standardised = 0
  for (let i = 0; i < count; i++) {
    sum += residual[i]
    squares += residual[i] ** 2
    if (variance) standardised += residual[i] ** 2 / variance[i]
  }
  const testing: Testing = {
    count,
    meanError: sum / count,
    rmse: Math.sqrt(squares / count),
    meanSquaredStandardised: variance ? standardised / count : null,
    meanRmse: Math.sqrt(spreadOf(points.value).variance),
  }
  return { testing, points, predicted, variance, residual }
}

/**
 * All at once from one factor (Dubrule 1983, Math. Geology 15, 687): with
 * P = C⁻¹ − C⁻¹1(1ᵀC⁻¹1)⁻¹1ᵀC⁻¹ a residual is (Pz)ᵢ/Pᵢᵢ and its variance 1/Pᵢᵢ.
 */
function allLeftOut(field: KrigingField): Tested {
  const n = field.u.length
  if (n > MOST_NEIGHBOURS)
    throw new Error(`Leaving out one of ${n} stations needs a number of neighbours to be set.`)
  const system = new KrigingSystem(n)
  fillCovariances(
    field,
    Int32Array.from(field.u, (_, i) => i),
    n,
    system.matrix,
  )
  system.factor(n)
  system.solve(field.points.value, new Float64Array(n).fill(1))
  const dual = system.dualWeights()
  const diagonal = system.projectionDiagonal()
  const predicted = new Float64Array(n)
  const variance = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    if (diagonal[i] === 0) return nearestLeftOut(field, n - 1)
    predicted[i] = field.points.value[i] - dual[i] / diagonal[i]
    variance[i] = 1 / diagonal[i]
  }
  return testedOf(field.points, predicted, variance)
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

/** Each station from its own nearest others. */
function nearestLeftOut(field: KrigingField, neighbours: number): Tested {
  const { u, v, noise, kernel, points } = field
  const n = u.length
  const index = new NeighbourIndex(u, v)
  const system = new KrigingSystem(neighbours)
  const found = new Int32Array(neighbours)
  const away = new Float64Array(neighbours)
  const squared = new Float64Array(neighbours * LANES)
  const lanes = new Float64Array(neighbours * LANES)
  const one = Float64Array.of(1)
  const result = new Float64Array(2)
  const predicted = new Float64Array(n)
  const variance = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    const size = index.nearest(u[i], v[i], neighbours, found, away, i)
    found.subarray(0, size).sort()
    fillCovariances(field, found, size, system.matrix)
    system.factor(size)
    for (let k = 0; k < size; k++)
      squared[k * LANES + 2] = (u[found[k]] - u[i]) ** 2 + (v[found[k]] - v[i]) ** 2
    kernel.fill(squared, lanes, size * LANES)
    for (let k = 0; k < size; k++) {
      lanes[k * LANES] = points.value[found[k]]
      lanes[k * LANES + 1] = 1
    }
    system.whiten(lanes)
    system.solveMean(lanes)
    system.estimate(lanes, 2, one, kernel.sill, result)
    predicted[i] = result[0]
    variance[i] = result[1] + noise[i]
  }
  return testedOf(points, predicted, variance)
}

function inverseDistanceLeftOut(
  points: Points,
  method: Extract<TestedMethod, { method: 'inverse-distance' }>,
): Tested {
  const predicted = points.x.map((_, i) => {
    const others = withoutOne(points, i)
    const target = { x: points.x.subarray(i, i + 1), y: points.y.subarray(i, i + 1) }
    return inverseDistanceAt(others, target, method)[0]
  })
  return testedOf(points, predicted, null)
}

function withoutOne(points: Points, left: number): Points {
  const keep = (_: number, i: number) => i !== left
  return { x: points.x.filter(keep), y: points.y.filter(keep), value: points.value.filter(keep) }
}
