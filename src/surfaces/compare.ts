/** Methods side by side on the same stations. */
import { automaticVariogram } from './automatic-variogram'
import { ALL_UP_TO, DEFAULT_NEIGHBOURS, LEAST_FOR_KRIGING } from './compute'
import type { Points, Testing } from './model'
import { checkPoints, checkSpread, mergeDuplicates } from './points'
import { leaveBlocksOut, leaveOneOut, suggestBlockSide, type TestedMethod } from './testing'
import { trendCount } from './trend'

/** One method's figures. */
export interface Compared {
  readonly name: string
  /** Whole blocks left out, the figure to go by; null where all stations lie in one block. */
  readonly blocked: Testing | null
  readonly single: Testing
}

/**
 * Kriging, kriging with a linear trend, inverse distance and the nearest station, each left out
 * one by one and in the same blocks; the best by the blocked RMSE first.
 *
 * @throws Error in words where stations are too few or do not vary
 */
export function compareMethods(input: Points): Compared[] {
  checkPoints(input, LEAST_FOR_KRIGING, 'the comparison')
  const points = mergeDuplicates(input)
  checkPoints(points, LEAST_FOR_KRIGING, 'the comparison')
  checkSpread(points, 'the comparison')
  const neighbours = points.x.length <= ALL_UP_TO ? null : DEFAULT_NEIGHBOURS
  const kriging = (trend: 0 | 1): TestedMethod => ({
    method: 'kriging',
    variogram: automaticVariogram(points, trend).variogram,
    neighbours,
    trend,
  })
  const methods: [name: string, method: TestedMethod][] = [
    ['kriging', kriging(0)],
    ['inverse distance', { method: 'inverse-distance', power: 2, neighbours }],
    ['nearest station', { method: 'inverse-distance', neighbours: 1 }],
  ]
  // Enough stations that a plane is still held up with a block left out.
  if (points.x.length >= 5 * trendCount(1)) methods.push(['kriging with a trend', kriging(1)])
  const side = suggestBlockSide(points, null)
  const compared = methods.map(([name, method]) => ({
    name,
    blocked: leaveBlocksOut(points, method, side)?.testing ?? null,
    single: leaveOneOut(points, method).testing,
  }))
  const rmse = ({ blocked, single }: Compared) => (blocked ?? single).rmse
  return compared.sort((a, b) => rmse(a) - rmse(b))
}
