/** Testing a surface against its own stations: each is left out and predicted from the others. */
import { inverseDistanceAt } from './inverse-distance'
import { prepareField, type KrigingField } from './kriging-field'
import { KrigingSystem, LANES } from './kriging-system'
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
  system.factor(n, field.u, field.v, field.noise, field.kernel)
  system.values.set(field.points.value)
  system.drift.fill(1)
  system.solve()
  const diagonal = system.projectionDiagonal()
  const predicted = new Float64Array(n)
  const variance = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    if (diagonal[i] === 0) return nearestLeftOut(field, n - 1)
    predicted[i] = field.points.value[i] - system.dual[i] / diagonal[i]
    variance[i] = 1 / diagonal[i]
  }
  return testedOf(field.points, predicted, variance)
}

/** Each station from its own nearest others. */
function nearestLeftOut(field: KrigingField, neighbours: number): Tested {
  const n = field.u.length
  const index = new NeighbourIndex(field.u, field.v)
  const system = new KrigingSystem(neighbours)
  const found = new Int32Array(neighbours)
  const squared = new Float64Array(neighbours)
  const scratch = {
    u: new Float64Array(neighbours),
    v: new Float64Array(neighbours),
    noise: new Float64Array(neighbours),
    distances: new Float64Array(neighbours * LANES),
    covariances: new Float64Array(neighbours * LANES),
    ones: new Float64Array(LANES).fill(1),
    estimate: new Float64Array(LANES),
    variance: new Float64Array(LANES),
  }
  const predicted = new Float64Array(n)
  const variance = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    const size = index.nearest(field.u[i], field.v[i], neighbours, found, squared, i)
    found.subarray(0, size).sort()
    for (let k = 0; k < size; k++) {
      const member = found[k]
      scratch.u[k] = field.u[member]
      scratch.v[k] = field.v[member]
      scratch.noise[k] = field.noise[member]
      system.values[k] = field.points.value[member]
      system.drift[k] = 1
      const du = scratch.u[k] - field.u[i]
      const dv = scratch.v[k] - field.v[i]
      scratch.distances.fill(du * du + dv * dv, k * LANES, (k + 1) * LANES)
    }
    system.factor(size, scratch.u, scratch.v, scratch.noise, field.kernel)
    system.solve()
    field.kernel.fill(scratch.distances, scratch.covariances, size * LANES)
    const { covariances, ones, estimate, variance: spread } = scratch
    system.estimate(covariances, ones, field.kernel.sill, estimate, spread)
    predicted[i] = estimate[0]
    variance[i] = spread[0] + field.noise[i]
  }
  return testedOf(field.points, predicted, variance)
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
