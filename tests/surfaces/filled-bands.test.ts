/** Filled bands and class areas: they cover the ground once, without gaps. */
import { expect, test } from 'vitest'
import { classAreas, filledBands } from '../../src/surfaces/filled-bands'
import type { Grid } from '../../src/surfaces/model'
import { polygonsOf } from '../../src/surfaces/ring-nesting'
import { ringArea, simpleParts, type Ring } from '../../src/surfaces/rings'
import { scatter } from './scatter'

const GRID: Grid = { west: 0, north: 100, cell: 1, columns: 100, rows: 100 }

function field(f: (x: number, y: number) => number): Float64Array {
  return Float64Array.from({ length: 10_000 }, (_, i) =>
    f((i % 100) + 0.5, 100 - (Math.floor(i / 100) + 0.5)),
  )
}

const areaOf = (rings: readonly Ring[]) => rings.reduce((sum, ring) => sum + ringArea(ring), 0)

test('rings around a cone: the area of each is a circle’s less the one inside it', () => {
  const bands = filledBands(
    GRID,
    field((x, y) => -Math.hypot(x - 50, y - 50)),
    [-30, -20, -10],
  )
  expect(bands.map(({ from, to }) => [from, to])).toEqual([
    [null, -30],
    [-30, -20],
    [-20, -10],
    [-10, null],
  ])
  const areas = bands.map(({ rings }) => areaOf(rings))
  const circles = [99 * 99 - 900 * Math.PI, 500 * Math.PI, 300 * Math.PI, 100 * Math.PI]
  areas.forEach((area, k) => expect(area / circles[k]).toBeCloseTo(1, 2))
  const [outside, ring] = bands.map(({ rings }) => polygonsOf(rings))
  expect(outside.map(({ holes }) => holes.length)).toEqual([1])
  expect(ring.map(({ holes }) => holes.length)).toEqual([1])
  expect(ringArea(ring[0].outer)).toBeGreaterThan(0)
  expect(ringArea(ring[0].holes[0])).toBeLessThan(0)
})

/** Cells whose four nodes have a value. */
function wholeCells(values: Float64Array): number {
  let count = 0
  for (let row = 0; row < 99; row++)
    for (let column = 0; column < 99; column++) {
      const node = 100 * row + column
      const four = [node, node + 1, node + 100, node + 101].map((each) => values[each])
      if (!four.some(Number.isNaN)) count++
    }
  return count
}

test.each<[string, (value: number, i: number) => number]>([
  ['rough ground', (value) => value],
  ['rough ground with holes', (value, i) => (i % 7 === 0 ? NaN : value)],
  ['steps that stand on the levels', (value) => Math.round(value * 10) / 10],
  ['steps with holes', (value, i) => (i % 11 < 2 ? NaN : Math.round(value * 5) / 5)],
])('%s: bands cover every whole cell once', (_, shape) => {
  const values = scatter(10_000, 1, 5).value.map(shape)
  const bands = filledBands(GRID, values, [0.2, 0.4, 0.6, 0.8])
  const total = bands.reduce((sum, { rings }) => sum + areaOf(rings), 0)
  expect(total).toBeCloseTo(wholeCells(values), 6)
  for (const { rings } of bands) expect(areaOf(rings)).toBeGreaterThan(0)
})

test('without levels there is one band; without values none', () => {
  const [band, ...others] = filledBands(
    GRID,
    field(() => 3),
    [],
  )
  expect(others).toEqual([])
  expect(areaOf(band.rings)).toBe(99 * 99)
  expect(band.rings[0].x).toHaveLength(4)
  expect(
    filledBands(
      GRID,
      field(() => NaN),
      [1, 2],
    ),
  ).toEqual([])
})

test('class areas are whole cells, corners that only touch kept apart', () => {
  // 1 on two cells that touch at a corner, 0 around them but for a gap.
  const grid: Grid = { west: 0, north: 40, cell: 10, columns: 4, rows: 4 }
  const codes = Float64Array.of(0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, NaN)
  const areas = classAreas(grid, codes)
  expect(areas.map(({ code, rings }) => [code, areaOf(rings)])).toEqual([
    [0, 1300],
    [1, 200],
  ])
  const ones = polygonsOf(areas[1].rings)
  expect(ones.map(({ outer }) => [outer.x.length, ringArea(outer)])).toEqual([
    [4, 100],
    [4, 100],
  ])
  const [zero, ...others] = polygonsOf(areas[0].rings)
  expect(others).toEqual([])
  expect(zero.holes.map(ringArea)).toEqual([-100, -100])
})

test('what touches in a point alone is not joined: a ground closed in by holes that touch', () => {
  // Four holes around the middle cell touch corner to corner and part it from the rest.
  const grid: Grid = { west: 0, north: 5, cell: 1, columns: 5, rows: 5 }
  const codes = new Float64Array(25)
  for (const hole of [7, 11, 13, 17]) codes[hole] = NaN
  const [{ rings }] = classAreas(grid, codes)
  const polygons = polygonsOf(rings)
  expect(polygons.map(({ outer, holes }) => [ringArea(outer), holes.map(ringArea)])).toEqual([
    [25, [-5]],
    [1, []],
  ])
})

test('rings are cut where they come to a place again', () => {
  const parts = simpleParts([...'abcadea'], String)
  expect(parts.map((part) => part.join(''))).toEqual(['abc', 'ade'])
})

test('every hole of rough ground lies in the smallest ring around it', () => {
  const values = scatter(10_000, 1, 5).value
  for (const { rings } of filledBands(GRID, values, [0.3, 0.7])) {
    const polygons = polygonsOf(rings)
    const counted = polygons.reduce((sum, { holes }) => sum + 1 + holes.length, 0)
    expect(counted).toBe(rings.length)
    for (const { outer, holes } of polygons) {
      // What is left of a polygon is above 0, and its holes lie inside its box.
      expect(
        ringArea(outer) + holes.reduce((sum, hole) => sum + ringArea(hole), 0),
      ).toBeGreaterThan(0)
      for (const hole of holes) {
        expect(Math.min(...hole.x)).toBeGreaterThanOrEqual(Math.min(...outer.x))
        expect(Math.max(...hole.y)).toBeLessThanOrEqual(Math.max(...outer.y))
      }
    }
  }
})
