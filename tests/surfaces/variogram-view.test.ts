/** The variogram in every form that is plotted. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { compareMethods } from '../../src/surfaces/compare'
import { experimentalVariogram, suggestLags } from '../../src/surfaces/experimental'
import type { Points } from '../../src/surfaces/model'
import { variogramView } from '../../src/surfaces/variogram-view'
import { scatter } from './scatter'

test('all pairs are those of the suggested lags', () => {
  const points = scatter(120, 5)
  const view = variogramView(points)
  expect(view.lags).toEqual(experimentalVariogram(points, suggestLags(points)))
})

test('one value far off lifts the plain estimate, and the robust one hardly', () => {
  const points = scatter(200, 5)
  const value = Float64Array.from(points.value)
  const far = Math.max(...value) + 30 * (Math.max(...value) - Math.min(...value))
  value[17] = far
  const [before, after] = [variogramView(points), variogramView({ ...points, value })]
  const middle = (lags: readonly { gamma: number }[]) => lags[lags.length >> 1].gamma
  expect(middle(after.lags)).toBeGreaterThan(10 * middle(before.lags))
  expect(middle(after.robust)).toBeLessThan(2 * middle(before.robust))
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

describe('against gstat, by tests/oracles/variogram-directions.R', () => {
  type Lags = Record<'azimuth' | 'pairs' | 'gamma', number[]>
  const expected = JSON.parse(
    readFileSync(new URL('variogram-directions.json', import.meta.url), 'utf8'),
  ) as Record<'drift' | 'fault', Lags>
  const { x, y, value: plain } = scatter(300, 1000)
  const drift = x.map((east, i) => 1200 + 0.3 * east + 80 * Math.sin(y[i] / 150))
  const points: Points = { x, y, value: plain.map((z, i) => z + 0.02 * drift[i]), drift }

  test.each([
    ['drift', null],
    ['fault', Float64Array.of(500, -100, 500, 1100)],
  ] as const)('directions of what a drift leaves: %s', (name, barriers) => {
    const { directions, fewest } = variogramView(points, 0, barriers)
    const lags = directions.flatMap((each) => each.lags)
    expect(directions.flatMap((each) => each.lags.map(() => each.azimuth))).toEqual(
      expected[name].azimuth,
    )
    expect(lags.map(({ pairs }) => pairs)).toEqual(expected[name].pairs)
    expect(fewest).toBe(Math.min(...expected[name].pairs))
    const off = lags.map(({ gamma }, i) => Math.abs(gamma / expected[name].gamma[i] - 1))
    expect(Math.max(...off)).toBeLessThan(1e-6)
  })

  test('the map and the plain lags hold no pair across the fault either', () => {
    const wall = Float64Array.of(500, -100, 500, 1100)
    const lifted = { ...points, value: points.value.map((z, i) => z + (x[i] > 500 ? 50 : 0)) }
    const highest = (of: Float64Array) => Math.max(...of.filter((gamma) => gamma >= 0))
    const apart = variogramView({ ...lifted, drift: undefined }, 0, wall)
    expect(highest(apart.map.gamma)).toBeLessThan(50)
    expect(highest(variogramView({ ...lifted, drift: undefined }).map.gamma)).toBeGreaterThan(500)
    expect(Math.max(...apart.lags.map(({ gamma }) => gamma))).toBeLessThan(50)
  })
})

test('methods with a drift stand in the comparison, others as they are without it', () => {
  const { x, y, value: rough } = scatter(120, 1000, 3)
  const drift = x.map((east, i) => Math.sin(east / 90) * 30 + Math.cos(y[i] / 70) * 30)
  const points = { x, y, value: rough.map((z, i) => 0.1 * z + drift[i] / 10), drift }
  const table = compareMethods(points)
  expect(table.map(({ name }) => name)).toContain('kriging with trend and drift')
  expect(table[0].name).toMatch(/drift/)
  const of = (name: string) => table.find((each) => each.name === name)
  const plain = compareMethods({ x, y, value: points.value })
  expect(plain.map(({ name }) => name).some((name) => /drift/.test(name))).toBe(false)
  for (const each of plain) expect(of(each.name)).toEqual(each)
  expect(of('kriging with the drift')?.blocked?.rmse).toBeLessThan(
    0.5 * (of('kriging')?.blocked?.rmse ?? 0),
  )
})
