/** Surfaces of transformed values: their rows and their testing, in the values' own unit. */
import { ChosenEstimator } from './chosen-rows'
import { holdsMean } from './external-drift'
import { krigeAt } from './kriging'
import { prepareField } from './kriging-field'
import { allLeftOut, nearestLeftOut } from './leave-out'
import type { Points } from './model'
import {
  pick,
  spatialBlocks,
  suggestBlockSide,
  testedOf,
  type Tested,
  type TestedMethod,
} from './testing'
import { restorer, type KrigedScores, type Restorer, type Transformed } from './transforms'

type Kriging = Extract<TestedMethod, { method: 'kriging' }>

const restorers = new WeakMap<Transformed, Restorer>()

/** The way back, kept for the next tile. */
export function restorerOf(transformed: Transformed, value: Float64Array): Restorer {
  const known = restorers.get(transformed)
  if (known) return known
  const made = restorer(transformed, value)
  restorers.set(transformed, made)
  return made
}

/**
 * Stations, and blocks of them, left out. Residuals are in the value's unit; standardised errors
 * and the 90 % interval are those of the transformed values, whose distribution is even about its
 * middle: a value lies inside its interval where its score lies inside the score's.
 *
 * @param points the stations without duplicates, not transformed
 * @param side of the blocks; suggested from the method's variogram where absent
 */
export function testTransformed(
  transformed: Transformed,
  points: Points,
  method: Kriging,
  side = suggestBlockSide(transformed.points, method.variogram),
): { readonly single: Tested; readonly blocks: Tested | null } {
  const scored = transformed.points
  const everyone = Int32Array.from(scored.x, (_, i) => i)
  const blocks = spatialBlocks(scored, side)
  const restore = restorerOf(transformed, points.value)
  const tested = (kriged: KrigedScores, within: Int32Array | null = null): Tested => {
    const { coverage90, coverage90Error, meanSquaredStandardised } = testedOf(
      scored,
      kriged.estimate,
      kriged.variance,
      within,
    ).testing
    const restored = restore(kriged)
    const own = testedOf(points, restored.estimate, null)
    return {
      ...own,
      variance: restored.variance,
      testing: { ...own.testing, coverage90, coverage90Error, meanSquaredStandardised },
    }
  }
  return {
    single: tested(method.choice ? chosen(scored, everyone, method) : oneOut(scored, method)),
    blocks:
      new Set(blocks).size < 2
        ? null
        : tested(
            method.choice ? chosen(scored, blocks, method) : groupsOut(scored, blocks, method),
            blocks,
          ),
  }
}

function oneOut(scored: Points, { variogram, neighbours, trend = 0 }: Kriging): KrigedScores {
  const field = prepareField(scored, variogram)
  const others = scored.x.length - 1
  const used = Math.min(neighbours ?? others, others)
  const { predicted, ...rest } =
    used === others ? allLeftOut(field, trend) : nearestLeftOut(field, used, trend)
  return { estimate: predicted, ...rest }
}

function groupsOut(scored: Points, groups: Int32Array, method: Kriging): KrigedScores {
  const count = scored.x.length
  const [estimate, variance, lagrange] = [0, 0, 0].map(() => new Float64Array(count).fill(NaN))
  const options = { neighbours: method.neighbours, trend: method.trend, lagrange: true }
  for (const group of new Set(groups)) {
    const numbers = Array.from(groups, (_, i) => i)
    const left = numbers.filter((i) => groups[i] === group)
    const kept = numbers.filter((i) => groups[i] !== group)
    const others = pick(scored, kept)
    if (!holdsMean(others, method.trend ?? 0)) continue
    const kriged = krigeAt(others, method.variogram, pick(scored, left), options)
    left.forEach((i, k) => {
      const error = scored.error?.[i] ?? 0
      estimate[i] = kriged.estimate[k]
      variance[i] = kriged.variance[k] + (error > 0 ? error * error : 0)
      lagrange[i] = kriged.lagrange?.[k] ?? NaN
    })
  }
  return { estimate, variance, lagrange }
}

function chosen(scored: Points, groups: Int32Array, method: Kriging): KrigedScores {
  const { choice } = method
  if (!choice) throw new Error('No choice of stations was given.')
  const { estimate, variance, lagrange } = new ChosenEstimator(scored, method, choice).leftOut(
    groups,
  )
  return { estimate, variance: variance ?? estimate.map(() => NaN), lagrange }
}
