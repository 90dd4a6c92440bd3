import { describe, expect, test } from 'vitest'
import { contours, levelsEvery, niceLevels, type Contour } from '../../src/surfaces/contours'
import type { Grid } from '../../src/surfaces/model'
import { scatter } from './scatter'

const GRID: Grid = { west: 0, north: 100, cell: 1, columns: 100, rows: 100 }

function field(f: (x: number, y: number) => number): Float64Array {
  return Float64Array.from({ length: 10_000 }, (_, i) =>
    f((i % 100) + 0.5, 100 - (Math.floor(i / 100) + 0.5)),
  )
}

/** Twice the signed area inside a closed line; positive where it runs anticlockwise. */
function twiceArea({ x, y }: Contour): number {
  let sum = 0
  for (let i = 0; i + 1 < x.length; i++) sum += x[i] * y[i + 1] - x[i + 1] * y[i]
  return sum
}

describe('contours', () => {
  test('a cone gives one closed circle a level, anticlockwise about the high ground', () => {
    const values = field((x, y) => -Math.hypot(x - 50, y - 50))
    const lines = contours(GRID, values, [-30, -20, -10])
    expect(lines.map((line) => line.level)).toEqual([-30, -20, -10])
    for (const line of lines) {
      expect(line.closed).toBe(true)
      expect(line.x[0]).toBe(line.x[line.x.length - 1])
      expect(twiceArea(line) / 2 / (Math.PI * line.level ** 2)).toBeCloseTo(1, 2)
      line.x.forEach((x, i) =>
        expect(Math.hypot(x - 50, line.y[i] - 50)).toBeCloseTo(-line.level, 1),
      )
    }
  })

  test('a plane gives one open line whose value is the level everywhere', () => {
    const values = field((x, y) => 2 * x + y)
    const [line, ...others] = contours(GRID, values, [120.25])
    expect(others).toEqual([])
    expect(line.closed).toBe(false)
    line.x.forEach((x, i) => expect(2 * x + line.y[i]).toBeCloseTo(120.25, 9))
  })

  test('lines end at gaps', () => {
    const values = field((x, y) => (x > 45 && x < 55 && y > 50 ? NaN : -Math.hypot(x - 50, y - 50)))
    const lines = contours(GRID, values, [-20])
    expect(lines).toHaveLength(1)
    expect(lines[0].closed).toBe(false)
    lines[0].x.forEach((x, i) => expect(x > 46 && x < 54 && lines[0].y[i] > 51).toBe(false))
  })

  test('rough ground: every line is closed, ends at the edge, and passes through the level once', () => {
    const { value } = scatter(10_000, 1, 5)
    const lines = contours(GRID, value, [0.4])
    for (const line of lines) {
      const last = line.x.length - 1
      const atEdge = (i: number) =>
        [line.x[i], line.y[i]].some((c) => Math.abs(c - 0.5) < 1e-9 || Math.abs(c - 99.5) < 1e-9)
      expect(line.closed || (atEdge(0) && atEdge(last))).toBe(true)
      for (let i = 1; i <= last; i++)
        expect(Math.hypot(line.x[i] - line.x[i - 1], line.y[i] - line.y[i - 1])).toBeLessThan(1.5)
    }
  })

  test('nodes exactly on the level break nothing', () => {
    const values = field((x, y) => Math.round((x + y) / 10))
    for (const line of contours(GRID, values, [10])) expect(line.x.length).toBeGreaterThan(1)
  })
})

test('nice levels are round and inside', () => {
  expect(niceLevels(2191.3, 2216.2, 10)).toEqual([
    2192.5, 2195, 2197.5, 2200, 2202.5, 2205, 2207.5, 2210, 2212.5, 2215,
  ])
  expect(niceLevels(0, 1, 10)).toEqual([0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9])
  expect(niceLevels(3, 3)).toEqual([])
})

test.each([
  [1e20, 1e20 + 49_152],
  [1, 1 + Number.EPSILON],
  [5e-324, 1e-323],
  [-Number.MAX_VALUE, Number.MAX_VALUE],
  [0, Infinity],
  [NaN, 1],
])('a range from %d to %d has no levels, and that is seen at once', (min, max) => {
  expect(niceLevels(min, max)).toEqual([])
})

test('levels every so many units are its multiples inside, as people write them', () => {
  expect(levelsEvery(-0.25, 0.35, 0.1)).toEqual([-0.2, -0.1, 0, 0.1, 0.2, 0.3])
  expect(levelsEvery(0, 10, 5)).toEqual([5])
  expect(levelsEvery(0, 200, 1)).toHaveLength(199)
  expect(levelsEvery(0, 201, 1)).toBeNull()
  expect(levelsEvery(0, Number.MAX_VALUE, 1)).toBeNull()
  expect(levelsEvery(1e20, 1e20 + 1e5, 1e4)).toEqual([])
  expect(() => levelsEvery(0, 1, 0)).toThrow(/above 0/)
})
