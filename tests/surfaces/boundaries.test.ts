/** Limits and faults: against GDAL's rasters, Turf's geometry and gstat's kriging. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { booleanIntersects, lineString } from '@turf/turf'
import { describe, expect, test } from 'vitest'
import { keepWithin, type Polygon } from '../../src/surfaces/boundaries'
import { NeighbourChooser, placedBlock } from '../../src/surfaces/chosen-neighbours'
import { ChosenEstimator } from '../../src/surfaces/chosen-rows'
import { planSurface } from '../../src/surfaces/compute'
import { computeRows, computeSurface } from '../../src/surfaces/compute-tile'
import { krigeAt } from '../../src/surfaces/kriging'
import type { Grid, SurfaceRule, Variogram } from '../../src/surfaces/model'
import { Sight } from '../../src/surfaces/sight'
import { leaveBlocksOut, leaveOneOut } from '../../src/surfaces/testing'
import { scatter, seeded } from './scatter'
import { largestDifference } from './shared-data'

const fixtures = JSON.parse(
  readFileSync(new URL('gstat-fixtures.json', import.meta.url), 'utf8'),
) as Record<string, { estimate: number[]; variance: number[] }>
const TARGETS = {
  x: Float64Array.of(100, 333, 512, 760, 905, 40),
  y: Float64Array.of(120, 700, 505, 260, 880, 960),
}
const MODEL: Variogram = {
  nugget: 0.05,
  structures: [{ model: 'spherical', sill: 0.8, range: 450 }],
}
const POINTS = scatter(60, 1000)
const WALL = Float64Array.of(500, -10, 500, 1010)
const ALONE = { barriers: null, sectors: null, neighbours: null }
const hasGdal = spawnSync('gdal_rasterize', ['--version']).status === 0
if (!hasGdal) console.warn('Skipped: gdal-bin is not installed, so limits go unchecked by GDAL.')

/** A star with a hole, corners at random distances from a centre. */
function star(random: () => number, cx: number, cy: number, size: number): Polygon {
  const ring = (part: number) =>
    Float64Array.from({ length: 22 }, (_, i) => {
      const angle = (2 * Math.PI * Math.floor(i / 2)) / 11
      const radius = part * size * (0.55 + 0.45 * random())
      return i % 2 === 0 ? cx + radius * Math.cos(angle) : cy + radius * Math.sin(angle)
    })
  return [ring(1), ring(0.4)]
}

function rasterizedByGdal(polygons: readonly Polygon[], grid: Grid): Uint8Array {
  const folder = mkdtempSync(join(tmpdir(), 'limits-'))
  try {
    const pairs = (ring: Float64Array) =>
      [...Array.from({ length: ring.length / 2 }, (_, i) => i), 0].map((i) => [
        ring[2 * i],
        ring[2 * i + 1],
      ])
    const features = polygons.map((polygon) => ({
      type: 'Feature',
      properties: {},
      geometry: { type: 'Polygon', coordinates: polygon.map(pairs) },
    }))
    const json = join(folder, 'limits.geojson')
    writeFileSync(json, JSON.stringify({ type: 'FeatureCollection', features }))
    const { west, north, cell, columns, rows } = grid
    const raw = join(folder, 'limits.raw')
    const extent = [west, north - rows * cell, west + columns * cell, north].map(String)
    const args = ['-q', '-of', 'ENVI', '-ot', 'Byte', '-init', '0', '-burn', '1', '-te', ...extent]
    const size = ['-ts', String(columns), String(rows)]
    const run = spawnSync('gdal_rasterize', [...args, ...size, json, raw], { encoding: 'utf8' })
    if (run.status !== 0) throw new Error(run.stderr)
    return new Uint8Array(readFileSync(raw))
  } finally {
    rmSync(folder, { recursive: true })
  }
}

describe('polygons', () => {
  test.skipIf(!hasGdal)('hold the nodes that GDAL burns, holes and overlaps too', () => {
    const random = seeded(5)
    const polygons = [star(random, 40, 50, 38), star(random, 95, 40, 30), star(random, 70, 60, 25)]
    const grid: Grid = { west: -3, north: 103, cell: 1.5, columns: 90, rows: 70 }
    const wanted = new Uint8Array(grid.columns * grid.rows).fill(1)
    keepWithin(polygons, grid, [0, 30], wanted.subarray(0, 30 * grid.columns))
    keepWithin(polygons, grid, [30, grid.rows], wanted.subarray(30 * grid.columns))
    const expected = rasterizedByGdal(polygons, grid)
    expect(expected.reduce((a, b) => a + b, 0)).toBeGreaterThan(1000)
    let different = 0
    wanted.forEach((each, i) => (different += each === expected[i] ? 0 : 1))
    expect(different).toBe(0)
  })

  test('take nothing back that was not wanted', () => {
    const grid: Grid = { west: 0, north: 4, cell: 1, columns: 4, rows: 4 }
    const wanted = new Uint8Array(16)
    keepWithin([[Float64Array.of(0, 0, 4, 0, 4, 4, 0, 4)]], grid, [0, 4], wanted)
    expect(wanted).toEqual(new Uint8Array(16))
  })
})

describe('sight', () => {
  test('is what Turf says of crossing lines', () => {
    const random = seeded(11)
    const barriers = Float64Array.from({ length: 40 }, random)
    const [x, y] = [
      Float64Array.from({ length: 40 }, random),
      Float64Array.from({ length: 40 }, random),
    ]
    const sight = new Sight(x, y, barriers)
    sight.face({ west: 0.2, east: 0.7, south: 0.3, north: 0.6 })
    let cut = 0
    for (let n = 0; n < 200; n++) {
      const [px, py] = [0.2 + 0.5 * random(), 0.3 + 0.3 * random()]
      const station = n % 40
      const step = lineString([
        [px, py],
        [x[station], y[station]],
      ])
      const crosses = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9].some((k) => {
        const [ax, ay, bx, by] = barriers.subarray(4 * k, 4 * k + 4)
        return booleanIntersects(
          step,
          lineString([
            [ax, ay],
            [bx, by],
          ]),
        )
      })
      if (crosses) cut++
      expect(sight.sees(px, py, station)).toBe(!crosses)
    }
    expect(cut).toBeGreaterThan(50)
    expect(cut).toBeLessThan(200)
  })

  test('nothing slips through where two pieces of a line meet', () => {
    const sight = new Sight(
      Float64Array.of(1),
      Float64Array.of(0),
      Float64Array.of(0, -1, 0, 0, 0, 0, 0, 1),
    )
    sight.face({ west: -1, east: -1, south: 0, north: 0 })
    expect(sight.sees(-1, 0, 0)).toBe(false)
  })
})

/** The stations that a place alone in its block is given. */
function chosenAt(chooser: NeighbourChooser, x: number, y: number): number[] {
  const block = placedBlock(1)
  for (const column of [block.x, block.u]) column[0] = x
  for (const column of [block.y, block.v]) column[0] = y
  block.count = 1
  const chosen: number[] = []
  chooser.visit(block, { least: 1, reach: Infinity }, (sets) => {
    const members = new Int32Array(sets.candidateCount)
    const count = sets.setCount > 0 ? sets.membersOf(0, members) : 0
    chosen.push(...Array.from(members.subarray(0, count), (c) => sets.candidates[c]))
  })
  return chosen
}

describe('kriging from chosen stations', () => {
  test('with nothing to choose is kriging', () => {
    const choice = { ...ALONE, neighbours: 24 }
    const found = new ChosenEstimator(POINTS, { method: 'kriging', variogram: MODEL }, choice).at(
      TARGETS,
    )
    const plain = krigeAt(POINTS, MODEL, TARGETS, { neighbours: 24 })
    expect(largestDifference(found.estimate, plain.estimate)).toBeLessThan(1e-12)
    expect(largestDifference(found.variance ?? [], plain.variance)).toBeLessThan(1e-12)
  })

  test('by sectors is gstat’s, which has quadrants in the plane', () => {
    const choice = { ...ALONE, sectors: { count: 4 as const, most: 3 } }
    const found = new ChosenEstimator(POINTS, { method: 'kriging', variogram: MODEL }, choice).at(
      TARGETS,
    )
    expect(largestDifference(found.estimate, fixtures.quadrants.estimate)).toBeLessThan(1e-6)
    expect(largestDifference(found.variance ?? [], fixtures.quadrants.variance)).toBeLessThan(1e-6)
  })

  test('by octants is what looking at every station gives', () => {
    const far = { x: Float64Array.of(-400, 500, 1300), y: Float64Array.of(-300, 500, 900) }
    for (const most of [1, 2, 5]) {
      const places = { x: POINTS.x, y: POINTS.y, u: POINTS.x, v: POINTS.y }
      for (const neighbours of [null, 6]) {
        const sectors = { count: 8 as const, most }
        const chooser = new NeighbourChooser(places, { barriers: WALL, sectors, neighbours })
        far.x.forEach((x, i) => {
          const y = far.y[i]
          const taken = new Map<number, number>()
          const expected = Array.from(POINTS.x, (_, s) => s)
            .filter((s) => x > 500 === POINTS.x[s] > 500 || x === 500)
            .sort(
              (a, b) =>
                Math.hypot(POINTS.x[a] - x, POINTS.y[a] - y) -
                Math.hypot(POINTS.x[b] - x, POINTS.y[b] - y),
            )
            .filter((s) => {
              const turn = Math.atan2(POINTS.y[s] - y, POINTS.x[s] - x) / (2 * Math.PI)
              const octant = Math.floor(8 * (turn + 1)) % 8
              const before = taken.get(octant) ?? 0
              taken.set(octant, before + 1)
              return before < most
            })
            .slice(0, neighbours ?? 60)
          expect(chosenAt(chooser, x, y)).toEqual(expected.sort((a, b) => a - b))
        })
      }
    }
  })

  test('a fault across the ground makes two grounds, as gstat has each alone', () => {
    const choice = { ...ALONE, barriers: WALL }
    const found = new ChosenEstimator(POINTS, { method: 'kriging', variogram: MODEL }, choice).at(
      TARGETS,
    )
    TARGETS.x.forEach((x, i) => {
      const { estimate, variance } = x < 500 ? fixtures.west : fixtures.east
      expect(found.estimate[i]).toBeCloseTo(estimate[i], 6)
      expect(found.variance?.[i]).toBeCloseTo(variance[i], 6)
    })
  })

  test('stations left out are predicted from their own side', () => {
    const method = { method: 'kriging' as const, variogram: MODEL }
    const west = (_: number, i: number) => POINTS.x[i] < 500
    const half = {
      x: POINTS.x.filter(west),
      y: POINTS.y.filter(west),
      value: POINTS.value.filter(west),
    }
    const alone = leaveOneOut(half, method)
    const walled = leaveOneOut(POINTS, { ...method, choice: { ...ALONE, barriers: WALL } })
    expect(largestDifference(walled.predicted.filter(west), alone.predicted)).toBeLessThan(1e-9)
    expect(
      largestDifference(walled.variance?.filter(west) ?? [], alone.variance ?? []),
    ).toBeLessThan(1e-9)
    const blocks = leaveBlocksOut(POINTS, method, 300)
    const chosen = leaveBlocksOut(POINTS, { ...method, choice: ALONE }, 300)
    expect(largestDifference(chosen?.predicted ?? [], blocks?.predicted ?? [])).toBeLessThan(1e-9)
  })
})

describe('a surface with boundaries', () => {
  const rule: SurfaceRule = { name: 's', value: 'v', method: 'kriging', variogram: MODEL, cell: 20 }
  const boundaries = {
    within: [[Float64Array.of(100, 100, 900, 100, 900, 900, 100, 900)]],
    barriers: Float64Array.of(500, 300, 500, 700),
  }

  test('is the same however its rows are cut, and blank outside its limits', () => {
    for (const method of ['kriging', 'inverse-distance'] as const) {
      const plan = planSurface({ ...rule, method, octants: 2 }, POINTS, { boundaries })
      const whole = computeRows(plan, [0, plan.grid.rows])
      for (let row = 0; row < plan.grid.rows; row++) {
        const { estimate } = computeRows(plan, [row, row + 1])
        const start = row * plan.grid.columns
        expect(estimate).toEqual(whole.estimate.subarray(start, start + plan.grid.columns))
      }
      const drawn = whole.estimate.filter((value) => !Number.isNaN(value)).length
      expect(drawn).toBe(40 * 40)
    }
  })

  test('jumps at a fault and nowhere else', () => {
    const split = { ...POINTS, value: POINTS.value.map((z, i) => z + (POINTS.x[i] > 500 ? 10 : 0)) }
    const walls = { within: null, barriers: WALL }
    const { grid, estimate } = computeSurface(planSurface(rule, split, { boundaries: walls }))
    const column = Math.floor((500 - grid.west) / grid.cell)
    for (let row = 10; row < 40; row++) {
      const at = row * grid.columns + column
      expect(estimate[at] - estimate[at - 1]).toBeGreaterThan(7)
      expect(Math.abs(estimate[at + 1] - estimate[at])).toBeLessThan(1)
    }
  })

  test('reaches only as far as from stations on its own side', () => {
    const few = {
      x: Float64Array.of(0, 10, 20, 5, 15),
      y: Float64Array.of(0, 5, 0, 9, 12),
      value: Float64Array.of(1, 2, 3, 4, 5),
    }
    const walls = { within: null, barriers: Float64Array.of(25, -100, 25, 100) }
    const plan = planSurface({ ...rule, cell: 5, reach: 20 }, few, { boundaries: walls })
    const { grid, estimate } = computeSurface(plan)
    const beyond = estimate.filter(
      (_, i) => grid.west + ((i % grid.columns) + 0.5) * grid.cell > 25,
    )
    expect(beyond.length).toBeGreaterThan(10)
    expect([...beyond].every(Number.isNaN)).toBe(true)
  })
})
