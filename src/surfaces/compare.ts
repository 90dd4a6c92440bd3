/** Methods side by side on the same stations. */
import { automaticVariogram } from './automatic-variogram'
import { LEAST_FOR_KRIGING, usualNeighbours } from './compute'
import type { Points, Testing } from './model'
import { checkPoints, checkSpread, mergeDuplicates } from './points'
import { leaveBlocksOut, leaveOneOut, suggestBlockSide, type TestedMethod } from './testing'
import { trendCount, type TrendDegree } from './trend'

/** Methods that are compared. */
export const COMPARED = [
  'kriging',
  'kriging with a trend',
  'kriging with the drift',
  'kriging with trend and drift',
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
 * the same blocks; the best by the blocked RMSE first.
 *
 * @throws Error in words where stations are too few or do not vary
 */
export function compareMethods(points: Points, barriers: Float64Array | null = null): Compared[] {
  const names = comparedOn(points, barriers)
  return ranked(names.map((name) => compareMethod(name, points, barriers)))
}

/**
 * Methods worth comparing on points: a trend, and a drift that the points have, only where it is
 * held up with a block left out, natural neighbour only where there are no barriers, for it keeps to
 * none.
 */
export function comparedOn(points: Points, barriers: Float64Array | null = null): ComparedName[] {
  const count = mergeDuplicates(points).x.length
  return COMPARED.filter((name) => {
    if (name === 'natural neighbour') return !barriers
    const mean = MEANS[name]
    if (!mean || (mean.trend === 0 && !mean.drift)) return true
    return (
      (!mean.drift || points.drift) && count >= 5 * (trendCount(mean.trend) + (mean.drift ? 1 : 0))
    )
  })
}

/**
 * One method's figures; the blocks are the same for every method.
 *
 * @param barriers across which no station is used; null for none
 * @throws Error in words where stations are too few or do not vary
 */
export function compareMethod(
  name: ComparedName,
  input: Points,
  barriers: Float64Array | null = null,
): Compared {
  checkPoints(input, LEAST_FOR_KRIGING, 'the comparison')
  const merged = mergeDuplicates(input)
  const points = MEANS[name]?.drift ? merged : { ...merged, drift: undefined }
  checkPoints(points, LEAST_FOR_KRIGING, 'the comparison')
  checkSpread(points, 'the comparison')
  const method = methodOf(name, points, barriers)
  const blocked = leaveBlocksOut(points, method, suggestBlockSide(points, null))
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
  const method = name === 'inverse distance' ? 'inverse-distance' : 'kriging'
  const neighbours = usualNeighbours(points.x.length, method)
  const choosing = (most: number | null) => ({
    neighbours: most,
    choice: barriers && { barriers, sectors: null, neighbours: most },
  })
  if (name === 'inverse distance')
    return { method: 'inverse-distance', power: 2, ...choosing(neighbours) }
  if (name === 'natural neighbour') return { method: 'natural-neighbour' }
  if (name === 'nearest station') return { method: 'inverse-distance', ...choosing(1) }
  const trend = MEANS[name]?.trend ?? 0
  const { variogram } = automaticVariogram(points, trend, barriers)
  return { method: 'kriging', variogram, trend, ...choosing(neighbours) }
}
