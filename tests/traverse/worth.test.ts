/** What a station is worth: against kriging anew with it, and what must always hold. */
import { expect, test } from 'vitest'
import type { SurfaceBands, Variogram } from '../../src/surfaces/model'
import { areaNodes, bestCandidates, possibleSpots } from '../../src/traverse/candidates'
import { chooseRoute } from '../../src/traverse/choose-route'
import {
  errorsAt,
  fallBy,
  krigingErrors,
  withStationAt,
  type Spots,
} from '../../src/traverse/worth'
import { uniform } from '../spectra/chance'

const VARIOGRAM: Variogram = {
  nugget: 0.3,
  structures: [
    { model: 'spherical', sill: 1, range: 40 },
    { model: 'exponential', sill: 0.6, range: 90 },
  ],
  azimuth: 30,
  ratio: 0.6,
}

function spots(count: number, seed: number): Spots {
  const chance = uniform(seed)
  const draw = () => Float64Array.from({ length: count }, () => 100 * chance())
  return { x: draw(), y: draw() }
}

function and(a: Spots, x: number, y: number): Spots {
  return { x: Float64Array.of(...a.x, x), y: Float64Array.of(...a.y, y) }
}

const STATIONS = spots(30, 11)
const NODES = spots(25, 12)
const CANDIDATES = spots(8, 13)
const BASE = { variogram: VARIOGRAM, nodes: NODES, candidates: CANDIDATES }
const ERRORS = krigingErrors({ ...BASE, stations: STATIONS })

test('a station added by the formula leaves what kriging anew with it leaves', () => {
  let stations = STATIONS
  let errors = ERRORS
  for (const candidate of [3, 0, 6]) {
    const before = errors.nodes.reduce((sum, variance) => sum + variance, 0)
    const fall = fallBy(errors, candidate)
    errors = withStationAt(errors, candidate)
    stations = and(stations, CANDIDATES.x[candidate], CANDIDATES.y[candidate])
    const anew = krigingErrors({ ...BASE, stations })
    errors.nodes.forEach((variance, i) => expect(variance).toBeCloseTo(anew.nodes[i], 10))
    const after = anew.nodes.reduce((sum, variance) => sum + variance, 0)
    expect(fall).toBeCloseTo(before - after, 9)
    expect(fall).toBeGreaterThan(0)
    const others = [1, 2, 4, 5, 7]
    const [left, right] = [errorsAt(errors, others), errorsAt(anew, others)]
    left.cross.forEach((value, i) => expect(value).toBeCloseTo(right.cross[i], 10))
    left.among.forEach((value, i) => expect(value).toBeCloseTo(right.among[i], 10))
  }
})

/** Ordinary kriging's variance from its equations with a Lagrange multiplier, by elimination. */
function variancePlain(stations: Spots, x: number, y: number): number {
  const n = stations.x.length
  const cov = (dx: number, dy: number) => {
    const sin = Math.sin(Math.PI / 6)
    const cos = Math.cos(Math.PI / 6)
    const h = Math.hypot(sin * dx + cos * dy, (cos * dx - sin * dy) / 0.6)
    const s = Math.min(1, h / 40)
    return 1 - 1.5 * s + 0.5 * s ** 3 + 0.6 * Math.exp((-3 * h) / 90)
  }
  const rows = Array.from({ length: n + 1 }, (_, i) =>
    Array.from({ length: n + 2 }, (_, j) => {
      if (i === n) return j === n ? 0 : 1
      if (j === n) return 1
      if (j === n + 1) return cov(stations.x[i] - x, stations.y[i] - y)
      const shared = cov(stations.x[i] - stations.x[j], stations.y[i] - stations.y[j])
      return i === j ? 1.9 : shared
    }),
  )
  for (let k = 0; k <= n; k++) {
    const best = rows
      .slice(k)
      .reduce((at, row, i) => (Math.abs(row[k]) > Math.abs(rows[at][k]) ? k + i : at), k)
    ;[rows[k], rows[best]] = [rows[best], rows[k]]
    for (let i = 0; i <= n; i++) {
      if (i === k) continue
      const factor = rows[i][k] / rows[k][k]
      for (let j = k; j <= n + 1; j++) rows[i][j] -= factor * rows[k][j]
    }
  }
  let variance = 1.9
  for (let i = 0; i < n; i++) {
    variance -= (rows[i][n + 1] / rows[i][i]) * cov(stations.x[i] - x, stations.y[i] - y)
  }
  return variance - rows[n][n + 1] / rows[n][n]
}

test('variances are those of the kriging equations (Isaaks and Srivastava 1989, chapter 12)', () => {
  ERRORS.nodes.forEach((variance, i) =>
    expect(variance).toBeCloseTo(variancePlain(STATIONS, NODES.x[i], NODES.y[i]), 9),
  )
})

test('a place brings nothing more once it is a station, nor a station what it already tells', () => {
  const once = withStationAt(ERRORS, 2)
  expect(fallBy(once, 2)).toBe(0)
  expect(withStationAt(once, 2).nodes).toEqual(once.nodes)
  expect(() => krigingErrors({ ...BASE, stations: spots(0, 1) })).toThrow(RangeError)
})

test('candidates come with shrinking falls that add up to that of all of them', () => {
  const chosen = bestCandidates(ERRORS, 6, (spot) => spot !== 4)
  expect(chosen).toHaveLength(6)
  expect(chosen.map(({ spot }) => spot)).not.toContain(4)
  chosen.slice(1).forEach(({ fall }, i) => expect(fall).toBeLessThanOrEqual(chosen[i].fall))
  const after = chosen.reduce((left, { spot }) => withStationAt(left, spot), ERRORS)
  const mean = (values: Float64Array) => values.reduce((sum, v) => sum + v, 0) / values.length
  const fall = chosen.reduce((sum, each) => sum + each.fall, 0)
  expect(fall).toBeCloseTo(mean(ERRORS.nodes) - mean(after.nodes), 10)
})

function surface(columns: number, rows: number, isDrawn: (node: number) => boolean): SurfaceBands {
  const estimate = Float64Array.from({ length: columns * rows }, (_, node) =>
    isDrawn(node) ? 1 : NaN,
  )
  return { grid: { west: 0, north: 10 * rows, cell: 10, columns, rows }, estimate, variance: null }
}

test('nodes and spots are spread evenly over what is drawn, and no more than are asked', () => {
  const bands = surface(200, 150, (node) => node % 200 < 120)
  const nodes = areaNodes(bands)
  expect(nodes.x.length).toBeGreaterThan(500)
  expect(nodes.x.length).toBeLessThanOrEqual(1200)
  expect(Math.max(...nodes.x)).toBeLessThan(1200)
  const near = possibleSpots(bands, (x) => x < 300)
  expect(near.x.length).toBeGreaterThan(100)
  expect(near.x.length).toBeLessThanOrEqual(260)
  expect(Math.max(...near.x)).toBeLessThan(300)
  expect(possibleSpots(bands, () => false).x).toHaveLength(0)
  expect(areaNodes(surface(3, 1, (node) => node === 0)).x).toEqual(Float64Array.of(5))
})

test('narrow ground is not missed between the lines of a lattice', () => {
  const rows = [surface(3000, 1, () => true), surface(1, 3000, () => true)]
  const strip = surface(2500, 40, (node) => Math.floor(node / 2500) === 20)
  for (const bands of [...rows, strip]) {
    const { x, y } = areaNodes(bands)
    expect(x.length).toBeGreaterThan(500)
    expect(x.length).toBeLessThanOrEqual(1200)
    const apart = Array.from(x.subarray(1), (_, i) => Math.hypot(x[i + 1] - x[i], y[i + 1] - y[i]))
    expect(new Set(apart).size).toBe(1)
  }
  const lone = surface(901, 901, (node) => node === 450 * 901 + 17)
  expect(areaNodes(lone)).toEqual({ x: Float64Array.of(175), y: Float64Array.of(4505) })
})

/** Walking between the candidates, from and to the corner, ten seconds a unit. */
function secondsBetween(): Float64Array {
  const x = [0, ...CANDIDATES.x, 0]
  const y = [0, ...CANDIDATES.y, 0]
  return Float64Array.from(
    x.flatMap((a, i) => x.map((b, j) => 10 * Math.hypot(a - b, y[i] - y[j]))),
  )
}

test('a walk brings what it tells of, and no other stop in its place brings more', () => {
  const input = {
    seconds: secondsBetween(),
    budget: 2200,
    mostStops: Infinity,
    errors: ERRORS,
    wanted: new Array<boolean>(8).fill(false),
  }
  const chosen = chooseRoute(input)
  if (chosen === null) throw new Error('no walk')
  const { route, falls, variance, error } = chosen
  expect(route.cost).toBeLessThanOrEqual(2200)
  const sum = falls.reduce((all, fall) => all + fall, 0)
  expect(sum).toBeCloseTo(variance[0] - variance[1], 10)
  expect(error[1]).toBeLessThan(error[0])
  // Every set of stops that can be walked, in its best order.
  let most = 0
  for (let set = 0; set < 256; set++) {
    const stops = Array.from({ length: 8 }, (_, i) => i).filter((i) => set & (1 << i))
    if (stops.length > 0 && shortest(input.seconds, stops) > 2200) continue
    const left = stops.reduce(withStationAt, ERRORS)
    const fall = ERRORS.nodes.reduce((all, v, i) => all + v - left.nodes[i], 0) / 25
    if (fall > most) most = fall
  }
  expect(variance[0] - variance[1]).toBeGreaterThan(0.97 * most)
})

function shortest(seconds: Float64Array, stops: readonly number[]): number {
  const step = (at: number, left: readonly number[]): number =>
    left.length === 0
      ? seconds[at * 10 + 9]
      : Math.min(
          ...left.map(
            (next) =>
              seconds[at * 10 + next + 1] +
              step(
                next + 1,
                left.filter((other) => other !== next),
              ),
          ),
        )
  return step(0, stops)
}

test('wanted places come first, where there is time', () => {
  const seconds = secondsBetween()
  const dullest =
    ERRORS.nodes &&
    [0, 1, 2, 3, 4, 5, 6, 7].sort((a, b) => fallBy(ERRORS, a) - fallBy(ERRORS, b))[0]
  const wanted = CANDIDATES.x.length === 8 ? Array.from({ length: 8 }, (_, i) => i === dullest) : []
  const input = { seconds, budget: 2400, mostStops: 3, errors: ERRORS, wanted }
  expect(chooseRoute(input)?.route.places).toContain(dullest + 1)
  expect(chooseRoute({ ...input, budget: -1 })).toBeNull()
})
