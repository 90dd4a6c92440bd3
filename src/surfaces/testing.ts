/**
 * Testing a surface against its own stations: each, or each block of them, is left out and
 * predicted from the others with the same model.
 */
import { blockedPartError } from './block-error'
import type { Choice } from './chosen-neighbours'
import { ChosenEstimator } from './chosen-rows'
import { triangulate } from './delaunay'
import { holdsMean } from './external-drift'
import { inverseDistanceAt, inverseDistanceLeftOut } from './inverse-distance'
import { krigeAt, MOST_NEIGHBOURS } from './kriging'
import { prepareField } from './kriging-field'
import { allLeftOut, nearestLeftOut } from './leave-out'
import type { Points, Testing, Variogram } from './model'
import { NaturalNeighbours, naturalNeighbourLeftOut } from './natural-neighbour'
import { meanSpacing } from './grid'
import { boundsOf, checkPoints, mergeDuplicates, spreadOf } from './points'
import type { TrendDegree } from './trend'
import { inTwoDigits } from './two-digits'

/** How left-out stations are predicted. */
export type TestedMethod = ChoosingMethod | { readonly method: 'natural-neighbour' }

/** One that can choose its stations by more than distance. */
export type ChoosingMethod =
  | {
      readonly method: 'kriging'
      readonly variogram: Variogram
      readonly neighbours?: number | null
      readonly trend?: TrendDegree
      readonly choice?: Choice | null
    }
  | {
      readonly method: 'inverse-distance'
      readonly power?: number
      readonly neighbours?: number | null
      /** Where more than distance decides which stations are used; null or absent where not. */
      readonly choice?: Choice | null
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
  if (method.method === 'natural-neighbour')
    return testedOf(merged, naturalNeighbourLeftOut(merged), null)
  if (method.choice)
    return leaveChosenOut(
      merged,
      Int32Array.from(merged.x, (_, i) => i),
      method,
    )
  if (method.method === 'inverse-distance')
    return testedOf(merged, inverseDistanceLeftOut(merged, method), null)
  const field = prepareField(merged, method.variogram)
  const others = merged.x.length - 1
  const neighbours = Math.min(method.neighbours ?? others, others)
  const degree = method.trend ?? 0
  if (neighbours > MOST_NEIGHBOURS)
    throw new Error(`Leaving out one of ${others + 1} stations needs a number of neighbours set.`)
  const left =
    neighbours === others ? allLeftOut(field, degree) : nearestLeftOut(field, neighbours, degree)
  return testedOf(merged, left.predicted, left.variance)
}

/**
 * Leaves out whole groups of stations, each predicted from all the others. Where those cannot tell
 * the mean's coefficients there is no prediction.
 *
 * @param groups a number of a group for each station, as many as `mergeDuplicates(points)` has
 * @throws Error where all stations are in one group
 */
export function leaveGroupsOut(points: Points, groups: Int32Array, method: TestedMethod): Tested {
  const merged = mergeDuplicates(points)
  if (groups.length !== merged.x.length)
    throw new Error(`${groups.length} groups were given for ${merged.x.length} stations.`)
  if (method.method !== 'natural-neighbour' && method.choice) {
    if (new Set(groups).size < 2) throw new Error(ONE_GROUP)
    return leaveChosenOut(merged, groups, method, groups)
  }
  const predicted = new Float64Array(groups.length)
  const variance = method.method === 'kriging' ? new Float64Array(groups.length) : null
  for (const group of new Set(groups)) {
    const left = indicesWhere(groups, (g) => g === group)
    const kept = indicesWhere(groups, (g) => g !== group)
    if (kept.length === 0) throw new Error(ONE_GROUP)
    const others = pick(merged, kept)
    const targets = pick(merged, left)
    if (method.method !== 'kriging') {
      const estimate = plainAt(others, targets, method)
      left.forEach((i, k) => (predicted[i] = estimate[k]))
      continue
    }
    if (!holdsMean(others, method.trend ?? 0)) {
      for (const i of left) predicted[i] = NaN
      continue
    }
    const kriged = krigeAt(others, method.variogram, targets, method)
    left.forEach((i, k) => {
      predicted[i] = kriged.estimate[k]
      const error = merged.error?.[i] ?? 0
      if (variance) variance[i] = kriged.variance[k] + (error > 0 ? error * error : 0)
    })
  }
  return testedOf(merged, predicted, variance, groups)
}

/** Estimates of a method without a model; NaN where it has none. */
function plainAt(
  others: Points,
  targets: Points,
  method: Exclude<TestedMethod, { method: 'kriging' }>,
): Float64Array {
  if (method.method === 'inverse-distance') return inverseDistanceAt(others, targets, method)
  const mesh = others.x.length < 3 ? null : triangulate(others.x, others.y)
  const field = mesh && new NaturalNeighbours(mesh, others.value)
  return targets.x.map((x, i) => (field ? field.at(x, targets.y[i]) : NaN))
}

const ONE_GROUP = 'Testing needs stations in at least two groups.'

/** The same with chosen stations. One that sees too few others has no prediction and is not counted. */
function leaveChosenOut(
  merged: Points,
  groups: Int32Array,
  method: ChoosingMethod,
  blocks: Int32Array | null = null,
): Tested {
  const left = new ChosenEstimator(merged, method, method.choice ?? EVERYONE).leftOut(groups)
  return testedOf(merged, left.estimate, left.variance, blocks)
}

const EVERYONE: Choice = { barriers: null, sectors: null, neighbours: null }

function indicesWhere(groups: Int32Array, holds: (group: number) => boolean): number[] {
  const found: number[] = []
  groups.forEach((group, i) => {
    if (holds(group)) found.push(i)
  })
  return found
}

/** Some of the points, by number. */
export function pick(points: Points, indices: readonly number[]): Points {
  const of = (column: Float64Array) => Float64Array.from(indices, (i) => column[i])
  return {
    x: of(points.x),
    y: of(points.y),
    value: of(points.value),
    ...(points.error ? { error: of(points.error) } : {}),
    ...(points.drift ? { drift: of(points.drift) } : {}),
  }
}

/** Fewest blocks across the longer side: with fewer, little is left to predict from. */
const LEAST_BLOCKS = 4
/** Most blocks across the longer side: more would take long and be hardly blocks. */
const MOST_BLOCKS = 10

/**
 * A side for testing blocks: the variogram's range, since stations nearer than that answer for
 * each other (Roberts et al. 2017, Ecography 40, 913), but a quarter of the longer side of the
 * bounding box at most, and no less than a tenth of it or twice the mean spacing. Working units.
 */
export function suggestBlockSide(points: Points, variogram: Variogram | null): number {
  const [west, south, east, north] = boundsOf(points)
  const longer = Math.max(east - west, north - south)
  const most = longer / LEAST_BLOCKS
  const least = Math.max(longer / MOST_BLOCKS, Math.min(most, 2 * meanSpacing(points)))
  const range = Math.max(0, ...(variogram?.structures.map((s) => s.range) ?? []))
  return range > 0 ? Math.max(least, Math.min(range, most)) : most
}

/** The square block of each station, on a lattice of the given side from the south-west corner. */
export function spatialBlocks(points: Points, side: number): Int32Array {
  const [west, south, east] = boundsOf(points)
  const columns = Math.floor((east - west) / side) + 1
  return Int32Array.from(
    points.x,
    (x, i) => Math.floor((points.y[i] - south) / side) * columns + Math.floor((x - west) / side),
  )
}

/**
 * Spatially blocked testing: each block is predicted from the rest. What stations say of ground
 * that nobody walked is nearer to this than to leave-one-out.
 *
 * @param side of the blocks; suggested from the method's variogram where absent
 * @returns null where all stations lie in one block
 */
export function leaveBlocksOut(points: Points, method: TestedMethod, side?: number): Tested | null {
  const merged = mergeDuplicates(points)
  const variogram = method.method === 'kriging' ? method.variogram : null
  const blocks = spatialBlocks(merged, side ?? suggestBlockSide(merged, variogram))
  if (new Set(blocks).size < 2) return null
  return leaveGroupsOut(merged, blocks, method)
}

/** Half of a normal distribution's middle 90 %, in standard deviations. */
const NINETY = 1.6448536269514722

/**
 * Sums up predictions in the value's unit. Observed minus predicted is the residual. Stations
 * without a prediction (NaN) are not counted.
 *
 * @param blocks the number of each station's block, where whole blocks were left out
 */
export function testedOf(
  points: Points,
  predicted: Float64Array,
  variance: Float64Array | null,
  blocks: Int32Array | null = null,
): Tested {
  const residual = points.value.map((value, i) => value - predicted[i])
  let count = 0
  let sum = 0
  let squares = 0
  let standardised = 0
  let covered = 0
  const inside = new Float64Array(residual.length).fill(NaN)
  for (let i = 0; i < residual.length; i++) {
    if (Number.isNaN(residual[i])) continue
    count++
    const square = residual[i] ** 2
    sum += residual[i]
    squares += square
    if (!variance) continue
    standardised += square / variance[i]
    inside[i] = square <= NINETY ** 2 * variance[i] ? 1 : 0
    covered += inside[i]
  }
  const testing: Testing = {
    count,
    meanError: sum / count,
    rmse: Math.sqrt(squares / count),
    meanSquaredStandardised: variance ? standardised / count : null,
    meanRmse: Math.sqrt(spreadOf(points.value).variance),
    coverage90: variance ? covered / count : null,
    coverage90Error: variance && blocks ? blockedPartError(inside, blocks) : null,
  }
  return { testing, points, predicted, variance, residual }
}

/**
 * A plain sentence on how far a surface can be believed, the blocked figure first.
 *
 * @param unit of the value; empty for a pure number
 */
export function trustSentence(single: Testing, blocked: Testing | null, unit: string): string {
  const of = (value: number) => `${inTwoDigits(value)}${unit ? ` ${unit}` : ''}`
  const first = blocked ?? single
  const gain = 1 - first.rmse / first.meanRmse
  const how = blocked
    ? `Away from stations (whole blocks left out) it is off by ${of(blocked.rmse)}, beside them by ${of(single.rmse)}`
    : `With each station left out it is off by ${of(single.rmse)}`
  const against = `the mean of all stations by ${of(first.meanRmse)}`
  if (gain < 0.02)
    return `${how}; ${against}: no better than the mean, so trust the stations and not the surface.`
  const percent = Math.round(100 * gain)
  return `${how}; ${against}: ${percent} % better than the mean.`
}
