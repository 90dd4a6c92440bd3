/**
 * Kriging of transformed values against numbers that tests/oracles/transforms.R worked out with
 * gstat, R's integration and the published formulas.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { comparedOn, compareMethod } from '../../src/surfaces/compare'
import { planSurface } from '../../src/surfaces/compute'
import { computeSurface } from '../../src/surfaces/compute-tile'
import { krigeAt } from '../../src/surfaces/kriging'
import type { Points, SurfaceRule, Variogram } from '../../src/surfaces/model'
import { testTransformed } from '../../src/surfaces/transformed-surface'
import { restorer, transformedPoints, type TransformKind } from '../../src/surfaces/transforms'
import { largestDifference, noSpatial, spatial } from './shared-data'
import { scatter } from './scatter'

type Expected = Record<'transformed' | 'estimate' | 'variance' | 'leftOut', number[]>
const EXPECTED = JSON.parse(
  readFileSync(new URL('transforms.json', import.meta.url), 'utf8'),
) as Record<TransformKind, Expected>

const spherical = (nugget: number, sill: number, range: number): Variogram => ({
  nugget,
  structures: [{ model: 'spherical', sill, range }],
})
const MODELS: Record<TransformKind, Variogram> = {
  log: spherical(0.0507, 0.5906, 897),
  'normal-score': spherical(0.1, 0.9, 900),
  rank: spherical(0.013, 0.07, 900),
}
const AT = {
  x: Float64Array.of(179000, 179500, 180000, 180300, 178800),
  y: Float64Array.of(330500, 331200, 332000, 333100, 330200),
}
const KINDS: TransformKind[] = ['log', 'normal-score', 'rank']
/** Scores and ranks are brought back by a rule of 361 places, R's by adaptive integration. */
const CLOSE: Record<TransformKind, number> = { log: 1e-9, 'normal-score': 2e-4, rank: 2e-4 }

function zinc(): Points {
  const { x, y, zinc: value } = spatial('meuse.csv')
  return { x, y, value }
}

describe.skipIf(noSpatial).each(KINDS)('zinc of Meuse as %s', (kind) => {
  test('is kriged as gstat does, and brought back as the formula has it', () => {
    const points = zinc()
    const transformed = transformedPoints(kind, points, 'zinc')
    const kriged = krigeAt(transformed.points, MODELS[kind], AT, { lagrange: true })
    const expected = EXPECTED[kind]
    expect(largestDifference(kriged.estimate, expected.transformed)).toBeLessThan(1e-9)
    const restored = restorer(transformed, points.value)(kriged)
    expect(largestDifference(restored.estimate, expected.estimate)).toBeLessThan(CLOSE[kind])
    expect(largestDifference(restored.variance, expected.variance)).toBeLessThan(10 * CLOSE[kind])
  })

  test('stations left out are predicted in parts per million', () => {
    const points = zinc()
    const transformed = transformedPoints(kind, points, 'zinc')
    const method = { method: 'kriging', variogram: MODELS[kind] } as const
    const { single, blocks } = testTransformed(transformed, points, method)
    const found = [0, 39, 154].map((i) => single.predicted[i])
    expect(largestDifference(found, EXPECTED[kind].leftOut)).toBeLessThan(CLOSE[kind])
    expect(single.residual[39]).toBeCloseTo(points.value[39] - single.predicted[39], 9)
    expect(single.testing.meanRmse).toBeCloseTo(367.07, 1)
    expect(single.testing.coverage90).toBeGreaterThan(0.8)
    expect(blocks?.testing.rmse).toBeGreaterThan(single.testing.rmse)
    // Each from its nearest others, without the shortcut by one inverse, comes to the same.
    const near = testTransformed(transformed, points, { ...method, neighbours: 153 }).single
    expect(largestDifference(near.predicted, single.predicted)).toBeLessThan(0.02)
    const everyone = { barriers: null, sectors: null, neighbours: null }
    const chosen = testTransformed(transformed, points, { ...method, choice: everyone }).single
    expect(largestDifference(chosen.predicted, single.predicted)).toBeLessThan(1e-7)
  })
})

test('a lognormal estimate is unbiased from a few stations, where the variance alone is too much', () => {
  // Five independent values of one lognormal distribution with mean exp(1 + 0.8/2), many times.
  const { x, y } = scatter(5, 1000)
  let seed = 1
  const uniform = () => (seed = (seed * 16807) % 2147483647) / 2147483647
  const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
  const at = { x: Float64Array.of(1.5), y: Float64Array.of(2.5) }
  const nugget: Variogram = { nugget: 0.8, structures: [] }
  const draws = 4000
  let unbiased = 0
  let withoutMultiplier = 0
  for (let draw = 0; draw < draws; draw++) {
    const value = x.map(() => Math.exp(1 + Math.sqrt(0.8) * normal()))
    const transformed = transformedPoints('log', { x, y, value }, 'x')
    const kriged = krigeAt(transformed.points, nugget, at, { lagrange: true })
    unbiased += restorer(transformed, value)(kriged).estimate[0] / draws
    withoutMultiplier += Math.exp(kriged.estimate[0] + kriged.variance[0] / 2) / draws
  }
  // One standard error of the mean of 4000 is 0.7 %.
  expect(Math.abs(unbiased / Math.exp(1.4) - 1)).toBeLessThan(0.025)
  expect(withoutMultiplier / Math.exp(1.4)).toBeGreaterThan(1.12)
})

describe('a surface', () => {
  const rule = (transform: SurfaceRule['transform']): SurfaceRule => ({
    name: 'zinc',
    value: 'zinc',
    method: 'kriging',
    transform,
    cell: 25,
  })
  const points: Points = (() => {
    const { x, y, value } = scatter(90, 1000)
    return { x, y, value: value.map((each) => Math.exp(2 * each)) }
  })()

  test.each(KINDS)(
    '%s: honours stations, stays within the data but for logarithms',
    (transform) => {
      const plan = planSurface(rule(transform), points)
      const { estimate, variance } = computeSurface(plan)
      expect(estimate.filter((each) => !Number.isNaN(each)).length).toBeGreaterThan(500)
      const [least, most] = [Math.min(...points.value), Math.max(...points.value)]
      estimate.forEach((each, node) => {
        if (Number.isNaN(each)) return
        expect(each).toBeGreaterThan(0)
        expect(variance?.[node]).toBeGreaterThanOrEqual(0)
        if (transform !== 'log') expect(each >= least && each <= most).toBe(true)
      })
      const { x, y } = points
      const on = { x: x.slice(5, 6), y: y.slice(5, 6) }
      const transformed = transformedPoints(transform ?? 'log', points, 'zinc')
      if (!plan.variogram) throw new Error('no variogram')
      const kriged = krigeAt(transformed.points, plan.variogram, on, { lagrange: true })
      const back = restorer(transformed, points.value)(kriged)
      expect(back.estimate[0] / points.value[5]).toBeCloseTo(1, 6)
      expect(back.variance[0]).toBeLessThan(1e-6)
      expect(plan.points.value).toEqual(points.value)
      expect(plan.testing?.meanRmse).toBeGreaterThan(0.5)
    },
  )

  test('tiles and octants bring back alike; zero has no logarithm', () => {
    const near = planSurface({ ...rule('log'), octants: 90 }, points)
    const all = planSurface(rule('log'), points)
    expect(largestDifference(present(near), present(all))).toBeLessThan(1e-6)
    const zero = { ...points, value: points.value.map((each, i) => (i === 3 ? 0 : each)) }
    expect(() => planSurface(rule('log'), zero)).toThrow(
      /1 of 90 stations of "zinc" have no logarithm.*below detection/,
    )
    expect(() => planSurface(rule('rank'), zero)).not.toThrow()
  })

  test('an error of the value is carried into its logarithm', () => {
    const error = points.value.map((each) => each / 10)
    const { points: logs } = transformedPoints('log', { ...points, error }, 'zinc')
    logs.error?.forEach((each) => expect(each).toBeCloseTo(0.1, 12))
    expect(transformedPoints('rank', { ...points, error }, 'zinc').points.error).toBeUndefined()
  })
})

function present(plan: ReturnType<typeof planSurface>): Float64Array {
  return computeSurface(plan).estimate.filter((each) => !Number.isNaN(each))
}

describe('the comparison of methods', () => {
  const { x, y, value } = scatter(90, 1000)
  const points = { x, y, value: value.map((each) => Math.exp(each)) }

  test('krigs the transformed values, as a surface of them is tested', () => {
    for (const transform of ['log', 'normal-score', 'rank'] as const) {
      const rule = { name: 's', value: 'v', method: 'kriging' as const, transform, cell: 100 }
      const { testing } = planSurface(rule, points)
      expect(compareMethod('kriging', points, { transform }).single).toEqual(testing)
    }
  })

  test('has the values as they are beside them, and no trend of ranks', () => {
    const names = (transform?: 'log' | 'rank') => comparedOn(points, { transform })
    const own = 'kriging of the values as they are'
    expect(names()).not.toContain(own)
    expect(new Set(names('log'))).toEqual(new Set([...names(), own]))
    expect(names('rank')).not.toContain('kriging with a trend')
    const plain = compareMethod('kriging', points)
    const asTheyAre = compareMethod(own, points, { transform: 'log' })
    expect([asTheyAre.blocked, asTheyAre.single]).toEqual([plain.blocked, plain.single])
    const logs = compareMethod('kriging', points, { transform: 'log' })
    expect(logs.blocked?.count).toBe(plain.blocked?.count)
    expect(logs.blocked?.rmse).not.toBe(plain.blocked?.rmse)
  })
})
