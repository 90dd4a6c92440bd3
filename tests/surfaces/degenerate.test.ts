/**
 * Stations as no one would wish them: on a line, in a heap, twice on a spot with other values, few,
 * far from the origin. Every method either says in words why not or draws every node within reach.
 */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { planSurface } from '../../src/surfaces/compute'
import { computeSurface } from '../../src/surfaces/compute-tile'
import { REDUNDANT } from '../../src/surfaces/cholesky'
import { krigeAt } from '../../src/surfaces/kriging'
import type { Points, SurfaceRule, Variogram } from '../../src/surfaces/model'
import { mergeDuplicates } from '../../src/surfaces/points'
import { withinReach } from '../../src/surfaces/reach'
import { wholeRows } from '../../src/surfaces/tiles'
import { scatter } from './scatter'

const RULES: readonly SurfaceRule[] = [
  { name: 'kriged', value: 'v', method: 'kriging' },
  { name: 'with a trend', value: 'v', method: 'kriging', trend: 1 },
  { name: 'by octants', value: 'v', method: 'kriging', octants: 2 },
  { name: 'nearest four', value: 'v', method: 'kriging', neighbours: 4 },
  { name: 'inverse', value: 'v', method: 'inverse-distance', neighbours: 5 },
  { name: 'nearest', value: 'v', method: 'nearest' },
  { name: 'natural', value: 'v', method: 'natural-neighbour' },
]

/** Places in [0, 1] squared, bent into what fails: a line, heaps, few spots taken again and again. */
/** To a millionth: no instrument tells places apart that only a floating point can. */
const unit = fc.integer({ min: 0, max: 1_000_000 }).map((millionths) => millionths / 1e6)
const places = fc
  .tuple(
    fc.oneof(
      fc.array(fc.tuple(unit, unit), { minLength: 1, maxLength: 6 }),
      fc.array(fc.tuple(unit, unit), { minLength: 12, maxLength: 40 }),
      fc.array(fc.tuple(unit, unit), { minLength: 12, maxLength: 40 }),
    ),
    fc.constantFrom('as they are', 'line', 'heaps', 'lattice', 'hair'),
  )
  .map(([list, shape]) =>
    list.map(([a, b], i): [number, number] => {
      if (shape === 'line') return [a, 0.25 + 0.5 * a]
      if (shape === 'heaps') return [(i % 3) / 2 + 1e-7 * a, (i % 2) + 1e-7 * b]
      if (shape === 'lattice') return [Math.round(4 * a) / 4, Math.round(4 * b) / 4]
      if (shape === 'hair') return [a, 1e-13 * b]
      return [a, b]
    }),
  )

const stations = fc
  .tuple(
    places,
    fc.constantFrom(1, 1000, 1e6),
    fc.constantFrom(0, 7.2e6, -3e8),
    fc.constantFrom(1, 1e-9, 1e12),
    fc.integer({ min: 0, max: 1000 }),
  )
  .map(([list, side, origin, size, seed]): Points => ({
    x: Float64Array.from(list, ([a]) => origin + side * a),
    y: Float64Array.from(list, ([, b]) => origin / 2 + side * b),
    value: Float64Array.from(list, (_, i) => size * Math.sin(seed + 12.9898 * i)),
  }))

describe('stations that are ill placed', () => {
  for (const rule of RULES)
    test(`${rule.name}: words, or a value at every node`, () => {
      let drawn = 0
      fc.assert(
        fc.property(stations, (points) => {
          let plan
          try {
            plan = planSurface(rule, points)
          } catch (error) {
            // A sentence, not a fault of the machine.
            expect(error).toBeInstanceOf(Error)
            expect(error).not.toBeInstanceOf(TypeError)
            expect(error).not.toBeInstanceOf(RangeError)
            expect((error as Error).message).toMatch(/^[A-Z"].{15,}/)
            return
          }
          drawn++
          const { grid, reach } = plan
          const cells = grid.columns * grid.rows
          const side = Math.max(grid.columns, grid.rows)
          // A coarse look is enough, and quick whatever cell was suggested.
          const few = { ...grid, cell: (grid.cell * side) / 12, columns: 12, rows: 12 }
          const coarse = cells > 400 ? { ...plan, grid: few } : plan
          const { estimate, variance } = computeSurface(coarse)
          const wanted = withinReach(
            plan.points,
            coarse.grid,
            wholeRows(coarse.grid, 0, coarse.grid.rows),
            reach,
          )
          for (let node = 0; node < estimate.length; node++) {
            if (wanted[node] === 0) continue
            // Natural neighbours end at the hull, which the words on the method say.
            if (rule.method !== 'natural-neighbour' || !Number.isNaN(estimate[node]))
              expect(Number.isFinite(estimate[node])).toBe(true)
            if (variance) expect(variance[node]).toBeGreaterThanOrEqual(0)
          }
          for (const { rmse } of [plan.testing, plan.blocked].flatMap((each) => each ?? []))
            expect(rmse).toBeGreaterThanOrEqual(0)
        }),
        { numRuns: 100, seed: 11 },
      )
      expect(drawn).toBeGreaterThan(10)
    }, 60_000)
})

describe('stations on one spot, and all but on one', () => {
  const model: Variogram = { nugget: 0, structures: [{ model: 'gaussian', sill: 1, range: 100 }] }
  const at = { x: Float64Array.of(25), y: Float64Array.of(10) }

  test('exact duplicates are their mean, and weighed by 1/error² where all state one', () => {
    const x = Float64Array.of(0, 0, 50, 80, 20)
    const y = Float64Array.of(0, 0, 10, 60, 70)
    const value = Float64Array.of(1, 3, 5, 2, 4)
    const one = { x: x.slice(1), y: y.slice(1), value: Float64Array.of(2, 5, 2, 4) }
    expect(krigeAt({ x, y, value }, model, at)).toEqual(krigeAt(one, model, at))
    const error = Float64Array.of(1, 2, 1, 1, 1)
    // (1/1 · 1 + 1/4 · 3) / (1 + 1/4), ± 1/√(1 + 1/4)
    const weighed = {
      ...one,
      value: Float64Array.of(1.4, 5, 2, 4),
      error: Float64Array.of(Math.sqrt(0.8), 1, 1, 1),
    }
    const found = krigeAt({ x, y, value, error }, model, at)
    expect(found.estimate[0]).toBeCloseTo(krigeAt(weighed, model, at).estimate[0], 12)
    expect(found.variance[0]).toBeCloseTo(krigeAt(weighed, model, at).variance[0], 12)
  })

  test('one that the others before it tell to 1e-10 of its variance gets no weight', () => {
    expect(REDUNDANT).toBe(1e-10)
    const x = Float64Array.of(0, 50, 80, 20)
    const y = Float64Array.of(0, 10, 60, 70)
    const value = Float64Array.of(1, 5, 2, 4)
    // A millionth of the range away the gaussian leaves 6e-12 of the variance.
    const near = {
      x: Float64Array.of(...x, 1e-4),
      y: Float64Array.of(...y, 0),
      value: Float64Array.of(...value, 900),
    }
    const found = krigeAt(near, model, at)
    const alone = krigeAt({ x, y, value }, model, at)
    expect(found.estimate[0]).toBeCloseTo(alone.estimate[0], 9)
    expect(found.variance[0]).toBeCloseTo(alone.variance[0], 9)
  })
})

describe('stations nearer than a spot', () => {
  const { x, y, value } = scatter(40, 1000)
  const twice = (dx: number, dy: number): Points => ({
    x: Float64Array.of(...x, x[7] + dx, 0, dx),
    y: Float64Array.of(...y, y[7] + dy, 0, dy),
    value: Float64Array.of(...value, 9, 4, 5),
  })

  test('are one, at the earliest’s place, as exact duplicates are; farther ones are not', () => {
    const exact = mergeDuplicates(twice(0, 0))
    expect(exact.x.length).toBe(41)
    for (const step of [1e-160, 1e-12, 9e-10]) {
      expect(mergeDuplicates(twice(step, -step / 2))).toEqual(exact)
      expect(mergeDuplicates(mergeDuplicates(twice(step, step)))).toEqual(exact)
    }
    expect(mergeDuplicates(twice(1e-8, 0)).x.length).toBe(43)
    // A chain joins those near the first alone.
    const chain = {
      x: Float64Array.of(0, 0.8e-12, 1.6e-12, 1),
      y: new Float64Array(4),
      value: x.slice(0, 4),
    }
    expect([...mergeDuplicates(chain).x]).toEqual([0, 1.6e-12, 1])
    const lattice = { x: x.map((_, i) => i % 8), y: y.map((_, i) => Math.floor(i / 8)), value }
    expect(mergeDuplicates(lattice)).toBe(lattice)
  })

  test.each([1e-160, 1e-155, 1e-100])(
    '%s apart they give finite values by every method',
    (step) => {
      for (const rule of RULES) {
        const plan = planSurface(rule, twice(step, -step))
        const few = {
          ...plan.grid,
          cell: (plan.grid.cell * plan.grid.columns) / 12,
          columns: 12,
          rows: 12,
        }
        const { estimate, variance } = computeSurface({ ...plan, grid: few })
        const wanted = withinReach(plan.points, few, wholeRows(few, 0, 12), plan.reach)
        estimate.forEach((each, node) => {
          if (wanted[node] === 0 || (rule.method === 'natural-neighbour' && Number.isNaN(each)))
            return
          expect(Number.isFinite(each)).toBe(true)
          if (variance) expect(variance[node]).toBeGreaterThanOrEqual(0)
        })
      }
    },
  )

  test('all within one spot are refused in words', () => {
    const tiny = { x: x.map((each) => each * 1e-150), y: y.map((each) => each * 1e-150), value }
    expect(() => planSurface(RULES[0], tiny)).toThrow(/kriged.* has 1 station with a value/)
  })
})
