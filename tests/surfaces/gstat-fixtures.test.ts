/** Kriging against gstat's own numbers, made by tests/oracles/surfaces-gstat.R. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { krigeAt, type KrigingOptions } from '../../src/surfaces/kriging'
import type { Points, Structure, Variogram } from '../../src/surfaces/model'
import { maternReach } from '../../src/surfaces/variogram-models'
import { leaveBlocksOut, leaveOneOut } from '../../src/surfaces/testing'
import { scatter } from './scatter'
import { largestDifference } from './shared-data'

type Fixture = Record<string, { estimate: number[]; variance: number[] }>
const expected = JSON.parse(
  readFileSync(new URL('gstat-fixtures.json', import.meta.url), 'utf8'),
) as Fixture

const POINTS = scatter(60, 1000)
const TARGETS = {
  x: Float64Array.of(100, 333, 512, 760, 905, 40),
  y: Float64Array.of(120, 700, 505, 260, 880, 960),
}
const SPHERICAL: Structure = { model: 'spherical', sill: 0.8, range: 450 }
const MODEL: Variogram = { nugget: 0.05, structures: [SPHERICAL] }

/** The invented height that the script has as external drift. */
function height(x: number, y: number): number {
  return 1200 + 0.3 * x + 80 * Math.sin(y / 150)
}

function check(name: string, points: Points, variogram: Variogram, options: KrigingOptions = {}) {
  const found = krigeAt(points, variogram, TARGETS, options)
  expect(largestDifference(found.estimate, expected[name].estimate)).toBeLessThan(1e-6)
  expect(largestDifference(found.variance, expected[name].variance)).toBeLessThan(1e-6)
}

describe('against gstat', () => {
  test('ordinary kriging', () => check('ordinary', POINTS, MODEL))
  test('a linear trend', () => check('linear', POINTS, MODEL, { trend: 1 }))
  test('a quadratic trend', () => check('quadratic', POINTS, MODEL, { trend: 2 }))
  test('a linear trend in the nearest 24', () =>
    check('linear24', POINTS, MODEL, { trend: 1, neighbours: 24 }))

  test("each point's own error", () => {
    const error = Float64Array.from({ length: 60 }, (_, i) => 0.05 + (0.3 * (i % 5)) / 4)
    check('errors', { ...POINTS, error }, MODEL)
  })

  test('nested structures, exponential 100 and gaussian 300 in gstat’s parameters', () => {
    const structures: Structure[] = [
      { model: 'exponential', sill: 0.5, range: 3 * 100 },
      { model: 'gaussian', sill: 0.4, range: Math.sqrt(3) * 300 },
    ]
    check('nested', POINTS, { nugget: 0.02, structures })
  })

  test('Matérn 0.8', () => {
    const range = 120 * maternReach(0.8)
    const structures: Structure[] = [{ model: 'matern', sill: 0.8, range, smoothness: 0.8 }]
    check('matern', POINTS, { nugget: 0.05, structures })
  })

  test('an external drift, from all and from the nearest 24', () => {
    const points = { ...POINTS, drift: POINTS.x.map((x, i) => height(x, POINTS.y[i])) }
    const targets = { ...TARGETS, drift: TARGETS.x.map((x, i) => height(x, TARGETS.y[i])) }
    for (const [name, neighbours] of [
      ['drift', null],
      ['drift24', 24],
    ] as const) {
      const found = krigeAt(points, MODEL, targets, { neighbours })
      expect(largestDifference(found.estimate, expected[name].estimate)).toBeLessThan(1e-6)
      expect(largestDifference(found.variance, expected[name].variance)).toBeLessThan(1e-6)
    }
    const left = leaveOneOut(points, { method: 'kriging', variogram: MODEL })
    const { estimate, variance } = expected.drift_leave_one_out
    expect(largestDifference(left.predicted, estimate)).toBeLessThan(1e-6)
    expect(largestDifference(left.variance ?? [], variance)).toBeLessThan(1e-6)
    const blocks = leaveBlocksOut(points, { method: 'kriging', variogram: MODEL }, 300)
    const choice = { barriers: null, sectors: null, neighbours: null }
    const chosen = leaveBlocksOut(points, { method: 'kriging', variogram: MODEL, choice }, 300)
    expect(largestDifference(chosen?.predicted ?? [], blocks?.predicted ?? [])).toBeLessThan(1e-9)
  })

  test('leave-one-out with a linear trend', () => {
    const found = leaveOneOut(POINTS, { method: 'kriging', variogram: MODEL, trend: 1 })
    const { estimate, variance } = expected.linear_leave_one_out
    expect(largestDifference(found.predicted, estimate)).toBeLessThan(1e-6)
    expect(largestDifference(found.variance ?? [], variance)).toBeLessThan(1e-6)
  })
})
