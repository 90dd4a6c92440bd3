/** Tiles that are given back in part when time is up. */
import { describe, expect, test } from 'vitest'
import { timedTiles } from '../../src/jobs/timed-tiles'
import { planSurface, type SurfacePlan } from '../../src/surfaces/compute'
import { computeSurface } from '../../src/surfaces/compute-tile'
import type { SurfaceRule } from '../../src/surfaces/model'
import { assemble, cutTile, tilesOf, type Part, type SurfaceTile } from '../../src/surfaces/tiles'
import { scatter } from '../surfaces/scatter'

const POINTS = scatter(150, 1000)
/** A fault with a bend across the middle. */
const FAULT = Float64Array.of(100, 400, 500, 520, 500, 520, 900, 480)

function planOf(rule: Partial<SurfaceRule>, barriers: Float64Array | null): SurfacePlan {
  const full = { name: 's', value: 'v', method: 'kriging' as const, cell: 25, reach: 400, ...rule }
  return planSurface(full, POINTS, { boundaries: { within: null, barriers } })
}

/** All tiles, as a worker with such a clock gives them, and how often it was asked. */
function computed(plan: SurfacePlan, clock: () => number) {
  const waiting: Part[] = tilesOf(plan)
  const tiles: SurfaceTile[] = []
  let asked = 0
  for (let part = waiting.pop(); part; part = waiting.pop()) {
    const done = timedTiles(plan, part, undefined, clock)
    tiles.push(...done.tiles)
    waiting.push(...done.left)
    asked++
  }
  return { tiles, asked }
}

/** A clock on which so many milliseconds pass from one look to the next. */
function ticking(step: number): () => number {
  let now = 0
  return () => (now += step)
}

describe.each([
  ['all stations', {}, null],
  ['octants beside a fault', { octants: 2, neighbours: 12 }, FAULT],
  ['a fault, inverse distance', { method: 'inverse-distance', neighbours: 8 }, FAULT],
  ['scores beside a fault', { transform: 'normal-score', neighbours: 20 }, FAULT],
  ['natural neighbours', { method: 'natural-neighbour' }, null],
] as const)('%s', (_, rule, barriers) => {
  test('the bytes are the same however soon time is up', () => {
    const whole = computeSurface(planOf(rule, barriers))
    const asked = [0, 3, 1000].map((step) => {
      // A new plan each time: what is kept for the next tile belongs to one.
      const plan = planOf(rule, barriers)
      const found = computed(plan, ticking(step))
      expect(assemble(plan, found.tiles)).toEqual(whole)
      return found.asked
    })
    expect(asked[2]).toBeGreaterThan(2 * asked[0])
  })
})

test('a tile is cut into what is computed and what is not, every node once', () => {
  const estimate = Float64Array.from({ length: 20 }, (_, i) => i)
  const tile = { from: 10, to: 14, left: 3, right: 8, estimate, variance: null }
  // Rows of five: all there, two alike with a gap in the middle, and none.
  const missing = Uint8Array.of(1, 1, 0, 1, 1, 1, 2, 2, 1, 0, 0, 2, 2, 1, 1, 2, 2, 2, 2, 2)
  const { tiles, left } = cutTile(tile, missing)
  expect(left).toEqual([
    { from: 11, to: 13, left: 4, right: 6 },
    { from: 13, to: 14, left: 3, right: 8 },
  ])
  expect(tiles.map(({ estimate: values, ...rest }) => ({ ...rest, values: [...values] }))).toEqual([
    { from: 10, to: 11, left: 3, right: 8, variance: null, values: [0, 1, 2, 3, 4] },
    { from: 11, to: 13, left: 3, right: 4, variance: null, values: [5, 10] },
    { from: 11, to: 13, left: 6, right: 8, variance: null, values: [8, 9, 13, 14] },
  ])
})
