/** A surface before all its nodes are known. */
import { describe, expect, test } from 'vitest'
import { coarseSteps, everyNode, everyValue, Picture, TileJoiner } from '../../src/surfaces/coarse'
import { planSurface } from '../../src/surfaces/compute'
import { computeRows, computeTile } from '../../src/surfaces/compute-tile'
import { tilesOf, wholeRows } from '../../src/surfaces/tiles'
import { nodeX, nodeY } from '../../src/surfaces/grid'
import type { Grid } from '../../src/surfaces/model'
import { scatter } from './scatter'

const grid = (columns: number, rows: number): Grid => ({
  west: 1000,
  north: 5000,
  cell: 10,
  columns,
  rows,
})

describe('passes that come first', () => {
  test('a small surface has none, a million nodes every 8th, the largest two', () => {
    expect(coarseSteps(grid(100, 200))).toEqual([])
    expect(coarseSteps(grid(101, 200))).toEqual([4])
    expect(coarseSteps(grid(1000, 1000))).toEqual([8])
    expect(coarseSteps(grid(4000, 4000))).toEqual([32, 8])
  })

  test('their nodes stand on nodes of the surface', () => {
    const fine = grid(103, 57)
    for (const step of [2, 4, 8, 7]) {
      const coarse = everyNode(fine, step)
      expect(coarse.columns).toBe(Math.ceil(103 / step))
      for (let i = 0; i < coarse.columns - 1; i++)
        expect(nodeX(coarse, i)).toBeCloseTo(nodeX(fine, i * step + Math.floor(step / 2)), 9)
      for (let i = 0; i < coarse.rows - 1; i++)
        expect(nodeY(coarse, i)).toBeCloseTo(nodeY(fine, i * step + Math.floor(step / 2)), 9)
    }
  })

  test('and have the values that these come to have', () => {
    const rule = { name: 'r', value: 'v', method: 'kriging' as const, neighbours: 12 }
    const plan = planSurface(rule, scatter(150, 3))
    const all = computeRows(plan, [0, plan.grid.rows]).estimate
    const coarse = everyNode(plan.grid, 4)
    const few = computeRows(plan, [0, coarse.rows - 1], coarse).estimate
    const expected = everyValue(plan.grid, all, 4)
    let compared = 0
    for (let i = 0; i < few.length; i++) {
      if (i % coarse.columns === coarse.columns - 1) continue
      if (Number.isNaN(few[i]) || Number.isNaN(expected[i])) continue
      expect(Math.abs(few[i] - expected[i])).toBeLessThan(1e-9 * Math.abs(expected[i]) + 1e-12)
      compared++
    }
    expect(compared).toBeGreaterThan(100)
  })
})

describe('the picture that is filled', () => {
  const fine = grid(1300, 700)
  const valueOf = (row: number, column: number) => 1000 * row + column
  const tile = (from: number, to: number) => ({
    from,
    to,
    left: 0,
    right: 1300,
    estimate: Float64Array.from({ length: (to - from) * 1300 }, (_, i) =>
      valueOf(from + Math.floor(i / 1300), i % 1300),
    ),
    variance: null,
  })

  test('a coarse node fills what is nearest to it; rows that are done keep their values', () => {
    const picture = new Picture(fine, false)
    expect([picture.step, picture.grid.columns, picture.grid.rows]).toEqual([3, 434, 234])
    picture.take(tile(60, 90))
    const coarse = everyNode(fine, 8)
    const nodes = coarse.columns * coarse.rows
    const estimate = Float64Array.from({ length: nodes }, (_, i) => -i)
    picture.spread({ grid: coarse, estimate, variance: null })
    const bands = picture.bands()
    // Row 20 of the picture is row 61 of the surface, column 10 its column 31.
    expect(bands.estimate[20 * 434 + 10]).toBe(valueOf(61, 31))
    // Row 40, the surface's 121, and column 10 lie in the cell of coarse row 15, column 3.
    expect(bands.estimate[40 * 434 + 10]).toBe(-(15 * coarse.columns + 3))
  })

  test('with all tiles it holds every third node', () => {
    const picture = new Picture(fine, false)
    for (let from = 0; from < 700; from += 64) picture.take(tile(from, Math.min(700, from + 64)))
    expect(picture.bands().estimate).toEqual(everyValue(fine, tile(0, 700).estimate, 3))
  })
})

describe('tiles that arrive', () => {
  const plan = planSurface({ name: 'r', value: 'v', method: 'inverse-distance' }, scatter(80, 1))

  test('join in any order; a missing one and a second one are told of', () => {
    const whole = computeRows(plan, [0, plan.grid.rows])
    const joiner = new TileJoiner('r', plan.grid, false)
    const tiles = [...tilesOf({ ...plan, grid: plan.grid })]
    const halves =
      tiles.length > 1
        ? tiles
        : [wholeRows(plan.grid, 0, 3), wholeRows(plan.grid, 3, plan.grid.rows)]
    const [last, ...others] = [...halves].reverse()
    joiner.add(computeTile(plan, last))
    expect(() => joiner.bands()).toThrow('Row 0 of "r" was not computed.')
    for (const part of others) joiner.add(computeTile(plan, part))
    expect(joiner.bands().estimate).toEqual(whole.estimate)
    expect(() => joiner.add(computeTile(plan, last))).toThrow(/given twice/)
  })
})
