/** The chance of exceeding a value, against simple kriging by gstat and against itself. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import {
  chanceBands,
  computeChance,
  drawStretch,
  simulatedError,
  stretchesOf,
} from '../../src/surfaces/chance'
import { planSurface, type SurfacePlan } from '../../src/surfaces/compute'
import type { Grid, SurfaceRule, Variogram } from '../../src/surfaces/model'
import { normalScores } from '../../src/surfaces/normal-scores'
import { normalStream } from '../../src/surfaces/random'
import {
  chanceAbove,
  simulateScores,
  simulateSurface,
  SimulationWalk,
} from '../../src/surfaces/simulation'
import { scatter, seeded } from './scatter'

const {
  chance: expected,
  chance_west: west,
  chance_east: east,
} = JSON.parse(readFileSync(new URL('gstat-fixtures.json', import.meta.url), 'utf8')) as Record<
  'chance' | 'chance_west' | 'chance_east',
  { estimate: number[] }
>
const POINTS = scatter(60, 1000)
const GRID: Grid = { west: 0, north: 1000, cell: 50, columns: 20, rows: 20 }
const RULE: SurfaceRule = { name: 'high', value: 'v', method: 'chance-above', above: 1, reach: 300 }

describe('the chance of exceeding a value', () => {
  test('is what gstat’s simple kriging of the scores tells, within the noise of 1000 draws', () => {
    const { scores } = normalScores(POINTS.value)
    const model: Variogram = {
      nugget: 0.1,
      structures: [{ model: 'spherical', sill: 0.9, range: 450 }],
    }
    const scored = { x: POINTS.x, y: POINTS.y, value: scores }
    const fields = simulateScores(scored, model, GRID, { realisations: [0, 1000] })
    const chance = chanceAbove(fields, 0.5)
    const nodes = [
      [125, 125],
      [325, 675],
      [525, 475],
      [775, 275],
      [925, 875],
      [25, 975],
    ]
    nodes.forEach(([x, y], i) => {
      const node = Math.floor((1000 - y) / 50) * 20 + Math.floor(x / 50)
      expect(Math.abs(chance[node] - expected.estimate[i])).toBeLessThan(0.06)
    })
  })

  test('beside a fault across all of the ground is what gstat tells from either side alone', () => {
    const { x, y } = POINTS
    const { scores } = normalScores(POINTS.value.map((z, i) => z + (x[i] >= 500 ? 2 : 0)))
    const structures = [{ model: 'spherical', sill: 0.9, range: 450 } as const]
    const barriers = Float64Array.of(500, -50, 500, 480, 500, 480, 500, 1050)
    const chanceWith = (options: object) =>
      chanceAbove(
        simulateScores({ x, y, value: scores }, { nugget: 0.1, structures }, GRID, {
          realisations: [0, 1000],
          ...options,
        }),
        0,
      )
    const [walled, free] = [chanceWith({ barriers }), chanceWith({})]
    let moved = 0
    for (const [i, north] of [225, 525, 775].entries()) {
      const row = Math.floor((1000 - north) / 50)
      const [left, right] = [20 * row + 9, 20 * row + 10]
      expect(Math.abs(walled[left] - west.estimate[i])).toBeLessThan(0.06)
      expect(Math.abs(walled[right] - east.estimate[3 + i])).toBeLessThan(0.06)
      moved = Math.max(moved, Math.abs(free[left] - west.estimate[i]))
    }
    expect(moved).toBeGreaterThan(0.15)
  })

  test('barriers far from everything change no byte', () => {
    const plain = planSurface(RULE, POINTS, { grid: GRID })
    const boundaries = { within: null, barriers: Float64Array.of(5000, 5000, 5000, 6000) }
    const walled = planSurface(RULE, POINTS, { grid: GRID, boundaries })
    expect(computeChance(walled).estimate).toEqual(computeChance(plain).estimate)
    expect(walled.blocked).not.toBeNull()
  })

  test('is the part of back-transformed realisations that exceed it', () => {
    const plan = planSurface(RULE, POINTS, { grid: GRID })
    const { estimate, variance } = computeChance(plan)
    const whole = chanceAbove(simulateSurface(POINTS, GRID, { realisations: [0, 200] }), 1)
    let compared = 0
    estimate.forEach((chance, node) => {
      if (Number.isNaN(chance)) return
      compared++
      // A value that stands on the limit itself may fall to either side by Float32’s last place.
      expect(Math.abs(chance - whole[node])).toBeLessThanOrEqual(1 / 200)
    })
    expect(compared).toBeGreaterThan(300)
    expect(variance).toBeNull()
  })

  test('is the same in whatever order its batches come', () => {
    const plan: SurfacePlan = planSurface({ ...RULE, realisations: 120 }, POINTS, { grid: GRID })
    const batches = stretchesOf(plan)
    expect(batches.map(([{ batch }]) => batch)).toEqual([
      [0, 50],
      [50, 100],
      [100, 120],
    ])
    const counts = [...batches].reverse().map((stretches) => {
      let fields: readonly Float32Array<ArrayBuffer>[] | null = null
      let exceeding: Uint16Array | null = null
      for (const stretch of stretches)
        ({ fields, exceeding } = drawStretch(structuredClone(plan), stretch, fields))
      return exceeding ?? new Uint16Array(0)
    })
    expect(chanceBands(plan, counts)).toEqual(computeChance(plan))
  })

  test('is tested as a chance: worse than nothing only where it should be', () => {
    const { testing, blocked } = planSurface(RULE, POINTS, { grid: GRID })
    expect(testing?.count).toBe(60)
    // A smooth field with little noise: its stations tell of each other.
    expect(testing?.rmse).toBeLessThan(0.8 * (testing?.meanRmse ?? 0))
    expect(blocked?.rmse).toBeGreaterThan(testing?.rmse ?? Infinity)
    const random = seeded(3)
    const noise = { ...POINTS, value: POINTS.value.map(random) }
    const none = planSurface({ ...RULE, above: 0.5 }, noise, { grid: GRID }).testing
    expect(none?.rmse).toBeGreaterThan(0.95 * (none?.meanRmse ?? 0))
  })

  test('is refused in words where it cannot be told', () => {
    expect(() => planSurface({ ...RULE, above: 50 }, POINTS)).toThrow(/No station lies above 50/)
    expect(() => planSurface({ ...RULE, above: -50 }, POINTS)).toThrow(/All stations lie above -50/)
    expect(() => planSurface({ ...RULE, cell: 1 }, POINTS)).toThrow(/larger cell/)
    expect(() => planSurface({ ...RULE, octants: 2 }, POINTS)).toThrow(/keeps to no octants/)
  })
})

describe('what it is made of', () => {
  test('a walk is the same however it is cut', () => {
    const model: Variogram = {
      nugget: 0,
      structures: [{ model: 'exponential', sill: 1, range: 300 }],
    }
    const whole = simulateScores(null, model, GRID, { realisations: [3, 5], seed: 7 })
    const walk = new SimulationWalk(null, model, GRID, { seed: 7 })
    const fields = [new Float32Array(400), new Float32Array(400)]
    for (const [from, to] of [
      [0, 1],
      [1, 4],
      [4, 133],
      [133, 400],
    ] as const)
      walk.advance(fields, 3, [from, to])
    expect(fields).toEqual(whole)
  })

  test('a stream goes on where it was left', () => {
    for (const skip of [0, 1, 2, 5, 1000]) {
      const all = normalStream(4, 2)
      for (let i = 0; i < skip; i++) all()
      const rest = normalStream(4, 2, skip)
      expect([rest(), rest(), rest()]).toEqual([all(), all(), all()])
    }
  })

  test('the score of a value is where the way back passes it', () => {
    const { back, above, scores } = normalScores(Float64Array.of(3, 1, 4, 1, 5, 9, 2, 6))
    for (const value of [1, 1.5, 3, 4.2, 8.9]) {
      const score = above(value)
      expect(back(score)).toBeCloseTo(value, 12)
      expect(back(score + 1e-6)).toBeGreaterThan(value)
    }
    expect(above(0.5)).toBe(-Infinity)
    expect(above(9)).toBe(Infinity)
    expect(scores[1]).toBe(scores[3])
  })
})

test('the nearest station’s value is drawn, and tested so', () => {
  const plan = planSurface({ name: 'n', value: 'v', method: 'nearest', cell: 50 }, POINTS)
  expect([plan.neighbours, plan.variogram, plan.power]).toEqual([1, null, null])
  expect(plan.testing?.meanSquaredStandardised).toBeNull()
})

test('draws leave a chance as open as the beta distribution has it (SciPy 1.10, beta.std)', () => {
  const expected = [
    [0, 200, 0.004926048010957167],
    [100, 200, 0.03509312031717982],
    [47, 60, 0.05267719876953071],
    [200, 200, 0.004926048010957167],
  ]
  for (const [exceeding, drawn, error] of expected)
    expect(simulatedError(exceeding / drawn, drawn)).toBeCloseTo(error, 12)
})
