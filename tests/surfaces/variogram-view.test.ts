/** The variogram in every form that is plotted. */
import { expect, test } from 'vitest'
import { experimentalVariogram, suggestLags } from '../../src/surfaces/experimental'
import type { Points } from '../../src/surfaces/model'
import { variogramView } from '../../src/surfaces/variogram-view'
import { scatter } from './scatter'

test('all pairs are those of the suggested lags', () => {
  const points = scatter(120, 5)
  const view = variogramView(points)
  expect(view.lags).toEqual(experimentalVariogram(points, suggestLags(points)))
})

test('directions are supported by many scattered stations, not by a walk', () => {
  const many = variogramView(scatter(300, 7))
  expect(many.supported).toBe(true)
  expect(many.fewest).toBeGreaterThanOrEqual(30)
  expect(many.directions.map(({ azimuth }) => azimuth)).toEqual([0, 45, 90, 135])
  const along = Float64Array.from({ length: 60 }, (_, i) => 50 * i)
  const walk: Points = {
    x: along,
    y: along.map((x) => 3 * Math.sin(x)),
    value: along.map((x) => Math.sin(x / 400)),
  }
  const few = variogramView(walk)
  expect(few.supported).toBe(false)
  expect(few.fewest).toBe(0)
})

test('a field that changes to the north alone is alike along the east, on the map too', () => {
  const points = scatter(400, 11)
  const span = Math.max(...points.y) - Math.min(...points.y)
  const view = variogramView({ ...points, value: points.y.map((y) => Math.sin((9 * y) / span)) })
  const first = (azimuth: number) =>
    view.directions.find((each) => each.azimuth === azimuth)?.lags[1].gamma ?? NaN
  expect(first(90)).toBeLessThan(0.5 * first(0))
  const { half, gamma } = view.map
  const side = 2 * half + 1
  const at = (column: number, row: number) => gamma[(half - row) * side + half + column]
  expect(at(4, 0)).toBeLessThan(0.5 * at(0, 4))
  // A pair counts both ways.
  expect(at(3, 2)).toBe(at(-3, -2))
})

test('a trend is taken off first', () => {
  const points = scatter(200, 2)
  const plane = { ...points, value: points.x.map((x, i) => 3 * x - points.y[i]) }
  expect(Math.max(...variogramView(plane, 1).lags.map(({ gamma }) => gamma))).toBeLessThan(1e-9)
})
