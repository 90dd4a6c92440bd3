/** Laying a walk out where something is odd: one station, twenty thousand, other units, no ground. */
import { describe, expect, test } from 'vitest'
import type { Points, SurfaceBands } from '../../src/surfaces/model'
import { layOut, type LayoutInput } from '../../src/traverse/layout'
import { waysFrom } from '../../src/traverse/walk-grid'
import { toblerSpeed } from '../../src/traverse/walking'
import { uniform } from '../spectra/chance'

function pointsAt(places: readonly (readonly [x: number, y: number])[]): Points {
  return {
    x: Float64Array.from(places, ([x]) => x),
    y: Float64Array.from(places, ([, y]) => y),
    value: Float64Array.from(places, (_, i) => i),
  }
}

/** 600 by 400 m, drawn all over; the usual corner keeps spots off the edges of cells that are walked. */
function bandsOf(
  unit: number,
  origin: readonly [number, number] = [3.3 * unit, 7.1 * unit],
): SurfaceBands {
  const grid = { west: origin[0], north: origin[1] + 400 * unit, cell: 20 * unit }
  const [columns, rows] = [30, 20]
  return {
    grid: { ...grid, columns, rows },
    estimate: new Float64Array(columns * rows),
    variance: null,
  }
}

/** A walk in a unit of so many to a metre. */
function input(unit = 1, more: Partial<LayoutInput> = {}): LayoutInput {
  const start = { x: 103.7 * unit, y: 98.3 * unit }
  return {
    bands: bandsOf(unit),
    variogram: { nugget: 0.1, structures: [{ model: 'spherical', sill: 1, range: 300 * unit }] },
    points: pointsAt([
      [50 * unit, 50 * unit],
      [420 * unit, 310 * unit],
    ]),
    start,
    end: start,
    budget: 3600,
    stopSeconds: 300,
    wanted: [],
    elevations: null,
    avoided: [],
    metresPerUnit: 1 / unit,
    pace: 0.6,
    steepest: 30,
    ...more,
  }
}

const allFinite = (values: Float64Array) => values.every((value) => Number.isFinite(value))

function expectSound(asked: LayoutInput): void {
  const { places, nodes, errors, ground, names } = layOut(asked)
  expect(places.x).toHaveLength(nodes.length)
  expect(names).toHaveLength(nodes.length)
  for (const values of [places.x, places.y, errors.nodes, errors.cross, errors.among])
    expect(allFinite(values)).toBe(true)
  expect(nodes.every((node) => node >= 0 && node < ground.elevation.length)).toBe(true)
  const { seconds } = waysFrom(ground, nodes[0])
  expect(nodes.every((node) => Number.isFinite(seconds[node]))).toBe(true)
}

test('kilometres and feet lay out the walk that metres do', () => {
  const metres = layOut(input())
  for (const unit of [1 / 1000, 1 / 0.3048]) {
    const other = layOut(input(unit))
    expect(other.ground.grid.cell / unit).toBeCloseTo(metres.ground.grid.cell, 9)
    other.places.x.forEach((x, i) => expect(x / unit).toBeCloseTo(metres.places.x[i], 6))
    other.errors.nodes.forEach((v, i) => expect(v).toBeCloseTo(metres.errors.nodes[i], 9))
    // A spot on the edge between two nodes may go to either: a node's width of walking.
    const width = metres.ground.grid.cell / (0.6 * toblerSpeed(0))
    const [a, b] = [metres, other].map((laid) => waysFrom(laid.ground, laid.nodes[0]).seconds)
    metres.nodes.forEach((node, i) =>
      expect(Math.abs(b[other.nodes[i]] - a[node])).toBeLessThan(1.5 * width),
    )
  }
})

describe('sound all the same', () => {
  test('from one station alone', () => {
    expectSound(input(1, { points: pointsAt([[50, 50]]) }))
  })

  test('from twenty thousand, of which the nearest count', () => {
    const chance = uniform(3)
    const places = Array.from({ length: 20_000 }, () => [600 * chance(), 400 * chance()] as const)
    expectSound(input(1, { points: pointsAt(places) }))
  })

  test('where the start is a node of the surface, on its edge, or outside it', () => {
    for (const start of [
      { x: 113.3, y: 117.1 },
      { x: 3.3, y: 7.1 },
      { x: 603.3, y: 407.1 },
      { x: -80, y: 40 },
    ])
      expectSound(input(1, { start, end: start }))
  })

  test('where start and the only spot are one, far from the origin', () => {
    const bands = bandsOf(1, [412_500, 7_301_000])
    bands.estimate.fill(NaN)
    bands.estimate[0] = 1
    const start = { x: 412_510, y: 7_301_390 }
    const points = pointsAt([[412_900, 7_301_100]])
    const asked = input(1, { bands, start, end: start, points })
    expectSound(asked)
    const { nodes, ground } = layOut(asked)
    expect(nodes).toHaveLength(3)
    expect(new Set(nodes).size).toBe(1)
    expect(ground.grid.west).toBeLessThan(start.x)
  })
})

describe('told in words', () => {
  const ground = (isClosed: (x: number, y: number) => boolean): Partial<LayoutInput> => ({
    elevations: ({ west, north, cell, columns, rows }) =>
      Float64Array.from({ length: columns * rows }, (_, node) => {
        const [column, row] = [node % columns, Math.floor(node / columns)]
        return isClosed(west + (column + 0.5) * cell, north - (row + 0.5) * cell) ? NaN : 0
      }),
  })
  const flat = { nugget: 0, structures: [{ model: 'spherical', sill: 0, range: 300 }] } as const
  const one = bandsOf(1)
  one.estimate.fill(NaN)
  one.estimate[0] = 1

  test.each([
    ['a terrain without a value at the start', ground((x) => x < 150), /start lies outside the t/],
    [
      'a chasm all around',
      ground((x, y) => Math.hypot(x - 103.7, y - 98.3) > 9),
      /has a way to it/,
    ],
    ['a variogram without variance', { variogram: flat }, /leaves no variance/],
    [
      'a station on the one spot, without a nugget',
      {
        bands: one,
        points: pointsAt([[13.3, 397.1]]),
        variogram: { ...flat, structures: [{ model: 'spherical', sill: 1, range: 300 }] },
      },
      /leaves no variance|stations on all of them/,
    ],
    ['no time at all', { budget: 100 }, /can be reached/],
    ['a start that is no number', { start: { x: NaN, y: 0 } }, /can be reached/],
  ] satisfies [string, Partial<LayoutInput>, RegExp][])('%s', (_, more, words) => {
    expect(() => layOut(input(1, more))).toThrow(words)
  })
})
