/** Methods side by side on the same stations. */
import { automaticVariogram } from './automatic-variogram'
import { LEAST_FOR_KRIGING, usualNeighbours } from './compute'
import type { Points, Testing } from './model'
import { checkPoints, checkSpread, mergeDuplicates } from './points'
import { leaveBlocksOut, leaveOneOut, suggestBlockSide, type TestedMethod } from './testing'
import { testTransformed } from './transformed-surface'
import { transformedPoints, type TransformKind } from './transforms'
import { trendCount, type TrendDegree } from './trend'

/** Methods that are compared. */
export const COMPARED = [
  'kriging',
  'kriging with a trend',
  'kriging with the drift',
  'kriging with trend and drift',
  'kriging of the values as they are',
  'inverse distance',
  'natural neighbour',
  'nearest station',
] as const
export type ComparedName = (typeof COMPARED)[number]

/** What the mean of a kind of kriging is made of. */
const MEANS: Readonly<
  Partial<Record<ComparedName, { readonly trend: TrendDegree; readonly drift: boolean }>>
> = {
  kriging: { trend: 0, drift: false },
  'kriging with a trend': { trend: 1, drift: false },
  'kriging with the drift': { trend: 0, drift: true },
  'kriging with trend and drift': { trend: 1, drift: true },
  'kriging of the values as they are': { trend: 0, drift: false },
}

/** What methods are compared under. */
export interface Comparing {
  /** Across which no station is used; null or absent for none. */
  readonly barriers?: Float64Array | null
  /** What is kriged in place of the values, and brought back; absent for the values themselves. */
  readonly transform?: TransformKind
  /** Whether crowded stations count less in normal scores. */
  readonly declustered?: boolean
}

/** One method's figures. */
export interface Compared {
  readonly name: ComparedName
  /** Whole blocks left out, the figure to go by; null where all stations lie in one block. */
  readonly blocked: Testing | null
  readonly single: Testing
}

/**
 * Kriging, kriging with a linear trend, with the external drift where points have one and with
 * both, inverse distance, natural neighbour and the nearest station, each left out one by one and in
 * the same blocks; the best by the blocked RMSE first. With a transform kriging is of the transformed
 * values, and stands beside kriging of the values as they are; figures are in the value's unit.
 *
 * @throws Error in words where stations are too few or do not vary
 */
export function compareMethods(points: Points, comparing: Comparing = {}): Compared[] {
  const names = comparedOn(points, comparing)
  return ranked(names.map((name) => compareMethod(name, points, comparing)))
}

/**
 * Methods worth comparing on points: a trend, and a drift that the points have, only where it is
 * held up with a block left out, natural neighbour only where there are no barriers, for it keeps to
 * none. Ranks have neither trend nor drift.
 */
export function comparedOn(
  points: Points,
  { barriers, transform }: Comparing = {},
): ComparedName[] {
  const count = mergeDuplicates(points).x.length
  return COMPARED.filter((name) => {
    if (name === 'natural neighbour') return !barriers
    if (name === 'kriging of the values as they are') return transform !== undefined
    const mean = MEANS[name]
    if (mean && transform === 'rank' && (mean.trend > 0 || mean.drift)) return false
    if (!mean || (mean.trend === 0 && !mean.drift)) return true
    return (
      (!mean.drift || points.drift) && count >= 5 * (trendCount(mean.trend) + (mean.drift ? 1 : 0))
    )
  })
}

/**
 * One method's figures; the blocks are the same for every method.
 *
 * @throws Error in words where stations are too few or do not vary
 */
export function compareMethod(
  name: ComparedName,
  input: Points,
  comparing: Comparing = {},
): Compared {
  checkPoints(input, LEAST_FOR_KRIGING, 'the comparison')
  const merged = mergeDuplicates(input)
  const points = MEANS[name]?.drift ? merged : { ...merged, drift: undefined }
  checkPoints(points, LEAST_FOR_KRIGING, 'the comparison')
  checkSpread(points, 'the comparison')
  const side = suggestBlockSide(points, null)
  const { barriers = null, transform, declustered } = comparing
  const kriged = MEANS[name] !== undefined && name !== 'kriging of the values as they are'
  if (transform && kriged) {
    const transformed = transformedPoints(transform, points, 'the comparison', declustered)
    const method = krigingOf(name, transformed.points, barriers)
    const { single, blocks } = testTransformed(transformed, points, method, side)
    return { name, blocked: blocks?.testing ?? null, single: single.testing }
  }
  const method = methodOf(name, points, barriers)
  const blocked = leaveBlocksOut(points, method, side)
  const single = leaveOneOut(points, method)
  return { name, blocked: blocked?.testing ?? null, single: single.testing }
}

/**
 * The best first, by the blocked RMSE where there is one. A method that predicts fewer stations
 * than others (natural neighbour, inside the hull alone) has the easier ones and comes after them.
 */
export function ranked(compared: readonly Compared[]): Compared[] {
  const of = ({ blocked, single }: Compared) => blocked ?? single
  const most = Math.max(...compared.map((each) => of(each).count))
  const isPartial = (each: Compared) => (of(each).count < most ? 1 : 0)
  return [...compared].sort((a, b) => isPartial(a) - isPartial(b) || of(a).rmse - of(b).rmse)
}

function methodOf(name: ComparedName, points: Points, barriers: Float64Array | null): TestedMethod {
  if (name === 'inverse distance') {
    const neighbours = usualNeighbours(points.x.length, 'inverse-distance')
    return { method: 'inverse-distance', power: 2, ...choosing(neighbours, barriers) }
  }
  if (name === 'natural neighbour') return { method: 'natural-neighbour' }
  if (name === 'nearest station') return { method: 'inverse-distance', ...choosing(1, barriers) }
  return krigingOf(name, points, barriers)
}

function krigingOf(
  name: ComparedName,
  points: Points,
  barriers: Float64Array | null,
): Extract<TestedMethod, { method: 'kriging' }> {
  const trend = MEANS[name]?.trend ?? 0
  const neighbours = usualNeighbours(points.x.length, 'kriging')
  const { variogram } = automaticVariogram(points, trend, barriers)
  return { method: 'kriging', variogram, trend, ...choosing(neighbours, barriers) }
}

function choosing(neighbours: number | null, barriers: Float64Array | null) {
  return { neighbours, choice: barriers && { barriers, sectors: null, neighbours } }
}
