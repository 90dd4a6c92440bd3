/** Where a surface is drawn: by its error, and by its stations' hull. */
import { expect, test } from 'vitest'
import { planSurface } from '../../src/surfaces/compute'
import { computeSurface } from '../../src/surfaces/compute-tile'
import { nodeX, nodeY } from '../../src/surfaces/grid'
import type { SurfaceRule } from '../../src/surfaces/model'
import { scatter } from './scatter'

const RULE: SurfaceRule = {
  name: 'mica',
  value: 'mica',
  method: 'kriging',
  cell: 20,
  variogram: { nugget: 0, structures: [{ model: 'spherical', sill: 4, range: 400 }] },
}
const points = scatter(40, 1000)

test('by error: what is drawn is what the whole surface has under the limit', () => {
  const limited = computeSurface(planSurface({ ...RULE, error_at_most: 1.2 }, points))
  const whole = computeSurface(planSurface({ ...RULE, reach: 1e6 }, points, { grid: limited.grid }))
  let drawn = 0
  limited.estimate.forEach((value, node) => {
    const error = Math.sqrt(whole.variance?.[node] ?? NaN)
    if (Number.isNaN(value)) expect(error).toBeGreaterThan(1.2)
    else {
      drawn++
      expect(error).toBeLessThanOrEqual(1.2)
      expect(value).toBe(whole.estimate[node])
    }
    expect(Number.isNaN(limited.variance?.[node] ?? 0)).toBe(Number.isNaN(value))
  })
  expect(drawn).toBeGreaterThan(500)
  expect(drawn).toBeLessThan(0.9 * limited.estimate.length)
})

test('by error and by distance: both must hold', () => {
  const byError = planSurface({ ...RULE, error_at_most: 1.2 }, points)
  const both = computeSurface(planSurface({ ...RULE, error_at_most: 1.2, reach: 60 }, points))
  const near = computeSurface(planSurface({ ...RULE, reach: 60 }, points))
  const count = (values: Float64Array) => values.filter((each) => !Number.isNaN(each)).length
  expect(byError.reach).toBe(Infinity)
  expect(count(both.estimate)).toBeLessThanOrEqual(count(near.estimate))
  expect(count(both.estimate)).toBeLessThanOrEqual(count(computeSurface(byError).estimate))
})

/** A square with a station in its middle: its hull is the square itself. */
const SQUARE = {
  x: Float64Array.of(100, 300, 300, 100, 200, 220),
  y: Float64Array.of(100, 100, 300, 300, 200, 190),
  value: Float64Array.of(1, 2, 3, 4, 5, 6),
}

test.each([0, 35])('by the hull of a square, %i outside', (hull) => {
  const rule: SurfaceRule = { ...RULE, cell: 10, method: 'inverse-distance', hull }
  const { grid, estimate } = computeSurface(planSurface(rule, SQUARE))
  let drawn = 0
  estimate.forEach((value, node) => {
    const x = nodeX(grid, node % grid.columns)
    const y = nodeY(grid, Math.floor(node / grid.columns))
    const [dx, dy] = [x, y].map((each) => Math.max(100 - each, each - 300, 0))
    expect(Number.isNaN(value)).toBe(Math.hypot(dx, dy) > hull)
    if (!Number.isNaN(value)) drawn++
  })
  // 20 by 20 cells; outside four strips and four quarters of a circle of 35.
  const area = 200 * 200 + 4 * 200 * hull + Math.PI * hull * hull
  expect(Math.abs(drawn * 100 - area) / area).toBeLessThan(0.05)
})

test('stations on one line have a hull without width, and a margin around it', () => {
  const line = {
    x: Float64Array.of(0, 100, 200, 300, 400, 500),
    y: Float64Array.of(0, 100, 200, 300, 400, 500),
    value: Float64Array.of(1, 2, 3, 4, 5, 7),
  }
  const rule: SurfaceRule = { ...RULE, cell: 10, method: 'inverse-distance', hull: 40 }
  const { grid, estimate } = computeSurface(planSurface(rule, line))
  estimate.forEach((value, node) => {
    const x = nodeX(grid, node % grid.columns)
    const y = nodeY(grid, Math.floor(node / grid.columns))
    const along = Math.min(500, Math.max(0, (x + y) / 2))
    expect(Number.isNaN(value)).toBe(Math.hypot(x - along, y - along) > 40)
  })
})
