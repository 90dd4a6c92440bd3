import { describe, expect, test } from 'vitest'
import { planSurface } from '../../src/surfaces/compute'
import { computeRows, computeSurface, computeTile } from '../../src/surfaces/compute-tile'
import { gridFor, suggestCell } from '../../src/surfaces/grid'
import type { Points, SurfaceRule } from '../../src/surfaces/model'
import { naturalNeighbourAt } from '../../src/surfaces/natural-neighbour'
import { applyMask, suggestReach, withinReach } from '../../src/surfaces/reach'
import { assemble, tilesOf, wholeRows } from '../../src/surfaces/tiles'
import { scatter } from './scatter'

const MODEL = { nugget: 0.1, structures: [{ model: 'spherical' as const, sill: 1, range: 400 }] }
const KRIGING: SurfaceRule = { name: 'mica', value: 'mica', method: 'kriging' }

describe('a plan', () => {
  test('resolves its defaults, survives cloning, and computes the same in any tiles', () => {
    const points = scatter(200, 1000)
    const plan = planSurface({ ...KRIGING, cell: 10 }, points)
    expect(Math.abs(plan.grid.west % 10)).toBe(0)
    expect(plan.neighbours).toBe(64)
    expect(plan.testing?.rmse).toBeLessThan(plan.testing?.meanRmse ?? 0)
    const whole = computeSurface(plan)
    const copy = structuredClone(plan)
    const cut = Math.floor(plan.grid.rows / 3)
    const tiles = [computeRows(copy, [cut, plan.grid.rows]), computeRows(copy, [0, cut])]
    expect(assemble(copy, tiles)).toEqual(whole)
    const inside = withinReach(
      points,
      plan.grid,
      wholeRows(plan.grid, 0, plan.grid.rows),
      plan.reach,
    )
    whole.estimate.forEach((value, node) => expect(Number.isNaN(value)).toBe(inside[node] === 0))
  })

  test('is cut into parts of rows where nodes are dear, which join to the same', () => {
    const barriers = Float64Array.of(0, 480, 700, 520, 700, 520, 1000, 300)
    const rule = { ...KRIGING, cell: 5, octants: 2, variogram: MODEL }
    const plan = planSurface(rule, scatter(90, 1000), { boundaries: { within: null, barriers } })
    const tiles = tilesOf(plan)
    expect(tiles.some(({ left }) => left > 0)).toBe(true)
    const { rows } = plan.grid
    const joined = assemble(plan, tiles.map((part) => computeTile(plan, part)).reverse())
    expect(joined).toEqual(assemble(plan, [computeRows(plan, [0, rows])]))
  })

  test('with a minimum count is drawn where so many stations are within reach, and nowhere else', () => {
    const points = scatter(80, 1000)
    const rule: SurfaceRule = { ...KRIGING, cell: 20, reach: 150, variogram: MODEL }
    const all = computeSurface(planSurface(rule, points))
    const some = computeSurface(planSurface({ ...rule, stations_at_least: 4 }, points))
    const { grid } = some
    let blank = 0
    some.estimate.forEach((value, node) => {
      const x = grid.west + (Math.floor(node % grid.columns) + 0.5) * grid.cell
      const y = grid.north - (Math.floor(node / grid.columns) + 0.5) * grid.cell
      const near = points.x.reduce(
        (count, px, i) => count + (Math.hypot(px - x, points.y[i] - y) <= 150 ? 1 : 0),
        0,
      )
      if (near < 4) blank++
      expect(value, `${x} ${y}`).toBe(near < 4 ? NaN : all.estimate[node])
    })
    expect(blank).toBeGreaterThan(0)
    expect(blank).toBeLessThan(some.estimate.length)
  })

  test('of natural neighbours ends at the hull, is tested, and keeps to no lines', () => {
    const points = scatter(80, 1000)
    const rule: SurfaceRule = { name: 'n', value: 'v', method: 'natural-neighbour', cell: 10 }
    const plan = planSurface(rule, points)
    const { estimate, variance } = computeSurface(plan)
    expect(variance).toBeNull()
    const { grid, reach } = plan
    const inReach = withinReach(points, grid, wholeRows(grid, 0, grid.rows), reach)
    const [x, y] = [Float64Array.of(500), Float64Array.of(500)]
    const at = Math.floor((grid.north - 500) / 10) * grid.columns + (500 - grid.west) / 10
    const node = { x: x.map((v) => v + 5), y: y.map((v) => v - 5) }
    expect(estimate[at]).toBe(naturalNeighbourAt(points, node)[0])
    const drawn = estimate.filter((value) => !Number.isNaN(value)).length
    expect(drawn).toBeLessThan(inReach.reduce((a, b) => a + b, 0))
    expect(plan.testing?.rmse).toBeLessThan(0.5 * (plan.testing?.meanRmse ?? 0))
    // Those of the hull have no prediction.
    expect(plan.testing?.count).toBeLessThan(80)
    expect(plan.blocked?.count).toBeLessThan(80)
    expect(() => planSurface({ ...rule, octants: 2 }, points)).toThrow('no barriers and octants')
    const line = { ...points, y: points.x }
    expect(() => planSurface(rule, line)).toThrow('lie on a line')
  })

  test('tiles that do not join are refused', () => {
    const plan = planSurface({ ...KRIGING, cell: 50 }, scatter(30, 1000))
    expect(() => assemble(plan, [computeRows(plan, [1, plan.grid.rows])])).toThrow('Row 0')
    expect(() => assemble(plan, [computeRows(plan, [0, 2])])).toThrow('Row 2')
  })

  test('refuses what cannot be mapped, in words', () => {
    const points = scatter(30, 1000)
    const few = scatter(4, 1000)
    const flat = { ...points, value: new Float64Array(30).fill(2) }
    const gap = { ...points, value: points.value.map((v, i) => (i === 3 ? NaN : v)) }
    const lost = { ...points, x: points.x.map((v, i) => (i === 3 ? NaN : v)) }
    expect(() => planSurface(KRIGING, few)).toThrow(
      '"mica" has 4 stations with a value and needs at least 5',
    )
    expect(() => planSurface(KRIGING, flat)).toThrow('same value')
    expect(() => planSurface(KRIGING, gap)).toThrow('1 of 30 stations of "mica" have no value')
    expect(() => planSurface(KRIGING, lost)).toThrow('have no place')
    expect(() => planSurface({ ...KRIGING, cell: 0.01 }, points)).toThrow('at most 4000')
    const indicator: SurfaceRule = {
      name: 'alunite',
      class: 'alunite',
      method: 'class-probability',
    }
    const hard = (p: Points) => ({ ...p, value: p.value.map((v) => (v > 0.5 ? 1 : 0)) })
    expect(() => planSurface(indicator, hard(scatter(19, 1000)))).toThrow('at least 20 stations')
    expect(() => planSurface(indicator, points)).toThrow('between 0 and 1')
    const plan = planSurface({ ...indicator, cell: 25 }, hard(scatter(60, 1000)))
    const { estimate } = computeSurface(plan)
    for (const value of estimate) if (!Number.isNaN(value)) expect(value).toBeGreaterThanOrEqual(0)
    for (const value of estimate) if (!Number.isNaN(value)) expect(value).toBeLessThanOrEqual(1)
  })

  test('a handful of stations still gives a surface', () => {
    const plan = planSurface(KRIGING, scatter(5, 1000))
    expect(computeSurface(plan).estimate.some((value) => Number.isFinite(value))).toBe(true)
  })

  test('inverse distance has no variance', () => {
    const plan = planSurface(
      { ...KRIGING, method: 'inverse-distance', cell: 25 },
      scatter(30, 1000),
    )
    const bands = computeSurface(plan)
    expect(bands.variance).toBeNull()
    expect(plan.power).toBe(2)
  })
})

describe('grids', () => {
  test('cover data and reach with edges on multiples of the cell', () => {
    const points = { x: Float64Array.of(1003, 1990), y: Float64Array.of(-55, 40) }
    const grid = gridFor(points, 20, 100)
    expect(grid).toEqual({ west: 900, north: 140, cell: 20, columns: 60, rows: 15 })
  })

  test('cell and reach are suggested from spacing', () => {
    const points = scatter(100, 1000)
    // 100 stations on a square kilometre stand about 100 m apart.
    expect(suggestCell(points)).toBe(10)
    expect(suggestReach(points)).toBeGreaterThan(100)
    expect(suggestReach(points)).toBeLessThan(300)
  })

  test('the reach joins stations along one walk, whose hull has little area', () => {
    const along = Float64Array.from({ length: 10 }, (_, i) => 100 * i)
    // Neighbours stand hypot(100, 10) = 100.5 m apart: twice that, to two digits.
    expect(suggestReach({ x: along, y: along.map((_, i) => 10 * (i % 2)) })).toBe(200)
  })

  test('a mask on another grid blanks by its nearest node', () => {
    const bands = {
      grid: { west: 0, north: 40, cell: 10, columns: 4, rows: 4 },
      estimate: new Float64Array(16).fill(7),
      variance: new Float64Array(16).fill(1),
    }
    const mask = {
      grid: { west: 0, north: 40, cell: 20, columns: 2, rows: 2 },
      estimate: Float64Array.of(0.9, 0.2, NaN, 0.5),
      variance: null,
    }
    const masked = applyMask(bands, mask, { at_least: 0.5 })
    const shown = Array.from(masked.estimate, (v) => (Number.isNaN(v) ? '.' : '#')).join('')
    expect(shown).toBe('##..##....##..##')
    expect(masked.variance?.[2]).toBeNaN()
  })
})
