/**
 * Kriging of transformed values about a trend, a drift or both, against numbers that
 * tests/oracles/transforms.R worked out with gstat, R's integration and the published formulas.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { planSurface } from '../../src/surfaces/compute'
import { computeSurface } from '../../src/surfaces/compute-tile'
import { krigeAt } from '../../src/surfaces/kriging'
import type { Points, SurfaceRule, Variogram } from '../../src/surfaces/model'
import { testTransformed } from '../../src/surfaces/transformed-surface'
import { restorer, transformedPoints } from '../../src/surfaces/transforms'
import { largestDifference, noSpatial, spatial } from './shared-data'
import { scatter } from './scatter'

type Expected = Record<'transformed' | 'estimate' | 'variance' | 'leftOut', number[]>
const EXPECTED = JSON.parse(
  readFileSync(new URL('transforms.json', import.meta.url), 'utf8'),
) as Record<string, Expected>

const spherical = (nugget: number, sill: number, range: number): Variogram => ({
  nugget,
  structures: [{ model: 'spherical', sill, range }],
})
const MODELS = { log: spherical(0.0507, 0.5906, 897), 'normal-score': spherical(0.1, 0.9, 900) }
/** Scores are brought back by a rule of 361 places, R's by adaptive integration. */
const CLOSE = { log: 1e-8, 'normal-score': 2e-4 }
const AT = {
  x: Float64Array.of(179000, 179500, 180000, 180300, 178800),
  y: Float64Array.of(330500, 331200, 332000, 333100, 330200),
}
const ELEVATION = Float64Array.of(8, 7.5, 9, 7, 8.5)

describe.skipIf(noSpatial).each([
  ['log', 'plane'],
  ['log', 'drift'],
  ['log', 'both'],
  ['normal-score', 'plane'],
  ['normal-score', 'drift'],
  ['normal-score', 'both'],
] as const)('zinc of Meuse as %s about a mean of the kind %s', (kind, mean) => {
  const { x, y, zinc: value, elev } = noSpatial ? { ...AT } : spatial('meuse.csv')
  const points: Points = { x, y, value, ...(mean === 'plane' ? {} : { drift: elev }) }
  const targets = mean === 'plane' ? AT : { ...AT, drift: ELEVATION }
  const trend = mean === 'drift' ? 0 : 1
  const expected = EXPECTED[`${kind} ${mean}`]
  const variogram = MODELS[kind]

  test('is kriged as gstat does, and brought back as the formula has it', () => {
    const transformed = transformedPoints(kind, points, 'zinc')
    const kriged = krigeAt(transformed.points, variogram, targets, { trend, lagrange: true })
    expect(largestDifference(kriged.estimate, expected.transformed)).toBeLessThan(1e-8)
    const restored = restorer(transformed, points.value)(kriged)
    expect(largestDifference(restored.estimate, expected.estimate)).toBeLessThan(CLOSE[kind])
    expect(largestDifference(restored.variance, expected.variance)).toBeLessThan(10 * CLOSE[kind])
  })

  test('stations left out are predicted alike by one inverse, one by one, and chosen', () => {
    const transformed = transformedPoints(kind, points, 'zinc')
    const method = { method: 'kriging', variogram, trend } as const
    const { single, blocks } = testTransformed(transformed, points, method)
    const found = [0, 39, 154].map((i) => single.predicted[i])
    expect(largestDifference(found, expected.leftOut)).toBeLessThan(CLOSE[kind])
    expect(blocks?.testing.rmse).toBeGreaterThan(single.testing.rmse)
    const everyone = { barriers: null, sectors: null, neighbours: null }
    const chosen = testTransformed(transformed, points, { ...method, choice: everyone }).single
    expect(largestDifference(chosen.predicted, single.predicted)).toBeLessThan(1e-7)
    const near = testTransformed(transformed, points, { ...method, neighbours: 153 }).single
    const off = near.predicted.map((each, i) => each / single.predicted[i])
    expect(Math.abs(off.toSorted()[77] - 1)).toBeLessThan(0.01)
  })
})

test('a lognormal estimate about a plane is unbiased, where the variance alone is too much', () => {
  const { x, y } = scatter(12, 1000)
  const normal = normals(1)
  // Outside the stations, where the plane is known worst.
  const at = { x: Float64Array.of(1100), y: Float64Array.of(900) }
  const nugget: Variogram = { nugget: 0.3, structures: [] }
  const mean = (px: number, py: number) => 1 + px / 1000 - py / 2000
  const draws = 6000
  let unbiased = 0
  let withoutMultiplier = 0
  for (let draw = 0; draw < draws; draw++) {
    const value = x.map((px, i) => Math.exp(mean(px, y[i]) + Math.sqrt(0.3) * normal()))
    const transformed = transformedPoints('log', { x, y, value }, 'x')
    const kriged = krigeAt(transformed.points, nugget, at, { trend: 1, lagrange: true })
    unbiased += restorer(transformed, value)(kriged).estimate[0] / draws
    withoutMultiplier += Math.exp(kriged.estimate[0] + kriged.variance[0] / 2) / draws
  }
  const truth = Math.exp(mean(1100, 900) + 0.3 / 2)
  expect(Math.abs(unbiased / truth - 1)).toBeLessThan(0.02)
  expect(withoutMultiplier / truth).toBeGreaterThan(1.1)
})

test('scores about a plane are nearly unbiased among the stations', () => {
  const { x, y } = scatter(60, 1000)
  const normal = normals(5)
  const targets = scatter(20, 700)
  const at = { x: targets.x.map((v) => v + 150), y: targets.y.map((v) => v + 150) }
  const nugget: Variogram = { nugget: 1, structures: [] }
  const mean = (px: number, py: number) => (2 * px + py) / 1000
  let told = 0
  let truth = 0
  for (let draw = 0; draw < 300; draw++) {
    const value = x.map((px, i) => Math.exp(mean(px, y[i]) + 0.5 * normal()))
    const transformed = transformedPoints('normal-score', { x, y, value }, 'x')
    const rest = spreadAbout(transformed.points)
    const model = { ...nugget, nugget: rest }
    const kriged = krigeAt(transformed.points, model, at, { trend: 1 })
    const { estimate } = restorer(transformed, value)(kriged)
    estimate.forEach((each, i) => {
      told += each
      truth += Math.exp(mean(at.x[i], at.y[i]) + 0.125)
    })
  }
  // Bringing back the score alone would give a median, a ninth too low.
  expect(Math.abs(told / truth - 1)).toBeLessThan(0.03)
})

test('a surface of logarithms about a plane honours its stations; ranks are refused', () => {
  const { x, y, value } = scatter(90, 1000)
  const points = { x, y, value: value.map((each, i) => Math.exp(2 * each + x[i] / 500)) }
  const rule: SurfaceRule = { name: 'zinc', value: 'zinc', method: 'kriging', trend: 1, cell: 25 }
  const plan = planSurface({ ...rule, transform: 'log' }, points)
  const { estimate, variance } = computeSurface(plan)
  expect(plan.trend).toBe(1)
  estimate.forEach((each, node) => {
    if (Number.isNaN(each)) return
    expect(each).toBeGreaterThan(0)
    expect(variance?.[node]).toBeGreaterThanOrEqual(0)
  })
  const chosen = computeSurface(planSurface({ ...rule, transform: 'log', octants: 90 }, points))
  const both = Array.from(estimate).flatMap((each, i) =>
    Number.isNaN(each) || Number.isNaN(chosen.estimate[i]) ? [] : [each / chosen.estimate[i] - 1],
  )
  expect(Math.max(...both.map(Math.abs))).toBeLessThan(1e-6)
  expect(() => planSurface({ ...rule, transform: 'rank' }, points)).toThrow(
    /ranks end at 0 and 1.*normal-score/,
  )
})

/** The variance that a plane of least squares leaves. */
function spreadAbout({ x, y, value }: Points): number {
  const plane = krigeAt(
    { x, y, value },
    { nugget: 1, structures: [] },
    { x: x.map((v) => v + 1e-6), y },
    { trend: 1 },
  )
  const squares = value.reduce((sum, each, i) => sum + (each - plane.estimate[i]) ** 2, 0)
  return squares / (x.length - 3)
}

function normals(start: number): () => number {
  let seed = start
  const uniform = () => (seed = (seed * 16807) % 2147483647) / 2147483647
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
}
