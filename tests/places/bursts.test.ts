/** Bursts of scans, against SciPy and by their definition. */
import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { findBursts, type Shot } from '../../src/places/bursts'
import { spread, USUAL_GROUPING } from '../../src/places/grouping'
import { placeScans } from '../../src/places/place-scans'
import { taken } from './days'

interface Day {
  readonly seconds: readonly number[]
  readonly east: readonly number[]
  readonly north: readonly number[]
  readonly error: number | null
  /** The first shot of each and the one after its last, one burst after another. */
  readonly bursts: readonly number[]
}

test('as single linkage over times has them, with distances by pdist (SciPy, tests/oracles/bursts.py)', () => {
  const days = JSON.parse(readFileSync('tests/places/bursts.json', 'utf8')) as Day[]
  expect(days).toHaveLength(80)
  for (const { seconds, east, north, error, bursts } of days) {
    const shots = seconds.map((at, i): Shot => {
      return { seconds: at, at: { east: east[i], north: north[i] }, error }
    })
    const found = findBursts(shots, USUAL_GROUPING).bursts.flatMap(({ from, to }) => [from, to])
    expect(found).toEqual(bursts)
  }
})

test('a scan without a place of its own counts by its time alone', () => {
  const at = { east: 0, north: 0 }
  const shots: Shot[] = [0, 40, 80].map((seconds) => ({ seconds, at, error: null }))
  shots[1] = { ...shots[1], at: null }
  expect(findBursts(shots, USUAL_GROUPING).bursts).toEqual([{ from: 0, to: 3, width: 0 }])
})

test('more than thirty scans in a row are no replicates', () => {
  const row = (count: number): Shot[] =>
    Array.from({ length: count }, (_, i) => ({
      seconds: 5 * i,
      at: { east: 0, north: 0 },
      error: null,
    }))
  expect(findBursts(row(30), USUAL_GROUPING).bursts).toHaveLength(1)
  const { bursts, even } = findBursts(row(31), USUAL_GROUPING)
  expect(bursts).toEqual([])
  expect(even.every(Boolean)).toBe(true)
})

describe('any day', () => {
  const shot = fc.record({
    gap: fc.oneof(
      fc.constant(0),
      fc.integer({ min: 1, max: 25 }),
      fc.integer({ min: 1, max: 2000 }),
    ),
    step: fc.tuple(
      fc.double({ min: -9, max: 9, noNaN: true }),
      fc.double({ min: -9, max: 9, noNaN: true }),
    ),
    digits: fc.constantFrom(3, 4),
    sample: fc.constantFrom('', '', '', 'K1', 'K2'),
    accuracy: fc.constantFrom('', '2', '8'),
    serial: fc.constantFrom('', '', '17'),
    isTimed: fc.integer({ min: 0, max: 9 }).map((die) => die > 0),
  })
  const days = fc.array(shot, { minLength: 1, maxLength: 40 }).map((steps) => {
    let [at, east, north] = [0, 0, 0]
    return steps.map(({ gap, step, digits, sample, accuracy, serial, isTimed }, i) => {
      at += gap
      east += step[0]
      north += step[1]
      const said = Object.entries({ sample, accuracy, 'serial number': serial })
      return {
        ...{ at, east, north, sample },
        head: taken({
          name: `AB${String(i).padStart(digits, '0')}`,
          at: isTimed ? at : undefined,
          east,
          north,
          more: Object.fromEntries(said.filter(([, value]) => value !== '')),
        }),
        isTimed,
      }
    })
  })
  const placed = (heads: readonly Parameters<typeof placeScans>[0]['scans'][number][]) =>
    placeScans({ scans: heads, tables: [], tracks: [], rules: [], crs: 'EPSG:32719' })

  test('the files’ order makes no difference', () => {
    fc.assert(
      fc.property(days, fc.infiniteStream(fc.nat()), (day, draws) => {
        const order = day
          .map((each) => ({ each, draw: Number(draws.next().value) }))
          .sort((a, b) => a.draw - b.draw)
          .map(({ each }) => each)
        const named = (list: typeof day) => {
          const { stations, grouping } = placed(list.map(({ head }) => head))
          return [
            stations.map((station) => ({
              ...station,
              scans: station.scans.map((scan) => list[scan].head.name).sort(),
            })),
            grouping,
          ]
        }
        expect(named(order)).toEqual(named(day))
      }),
      { numRuns: 200 },
    )
  })

  test('no station is too wide, none joins samples, and none bridges a long pause but by name', () => {
    fc.assert(
      fc.property(days, (day) => {
        for (const { scans, groupedBy } of placed(day.map(({ head }) => head)).stations) {
          const own = scans.map((scan) => day[scan])
          const widths = own.flatMap((a) =>
            own.map((b) => Math.hypot(a.east - b.east, a.north - b.north)),
          )
          // 2 cm for the map's scale and the digits of a header.
          expect(Math.max(...widths)).toBeLessThanOrEqual(USUAL_GROUPING.widest_m + 0.02)
          expect(new Set(own.map(({ sample }) => sample)).size).toBe(1)
          if (groupedBy === 'name' || own.length < 2) continue
          const times = own.filter(({ isTimed }) => isTimed).map(({ at }) => at)
          times.sort((a, b) => a - b)
          const pauses = times.slice(1).map((time, i) => time - times[i])
          expect(Math.max(0, ...pauses)).toBeLessThanOrEqual(USUAL_GROUPING.pause_s)
        }
      }),
      { numRuns: 300 },
    )
  })

  test('bursts are those runs of the definition that no other one holds', () => {
    const shots = fc.array(
      fc.record({
        gap: fc.integer({ min: 0, max: 70 }),
        east: fc.integer({ min: 0, max: 20 }),
        north: fc.integer({ min: 0, max: 4 }),
      }),
      { maxLength: 14 },
    )
    fc.assert(
      fc.property(shots, (list) => {
        let seconds = 0
        const own = list.map(({ gap, east, north }): Shot => {
          return { seconds: (seconds += gap), at: { east, north }, error: 2 }
        })
        // Two bursts in one are another test's: here the probe is near enough for any of them.
        const grouping = { ...USUAL_GROUPING, near_m: 12 }
        const found = findBursts(own, grouping).bursts.map(({ from, to }) => [from, to])
        expect(found).toEqual(largestRuns(own, spread(2, grouping), grouping.gap_s))
      }),
      { numRuns: 500 },
    )
  })
})

/** All runs that fit, without those that stand inside another one. */
function largestRuns(shots: readonly Shot[], widest: number, longest: number): number[][] {
  const pause = (i: number) =>
    i === 0 || i === shots.length ? Infinity : shots[i].seconds - shots[i - 1].seconds
  const runs: number[][] = []
  for (let from = 0; from < shots.length; from++) {
    for (let to = from + 2; to <= shots.length; to++) {
      const inside = shots.slice(from + 1, to).map((_, i) => pause(from + 1 + i))
      const gap = Math.max(...inside)
      const own = shots.slice(from, to).flatMap(({ at }) => at ?? [])
      const isNear = own.every((a) =>
        own.every((b) => Math.hypot(a.east - b.east, a.north - b.north) <= widest),
      )
      if (gap <= longest && Math.min(pause(from), pause(to)) > 2 * gap && isNear) {
        runs.push([from, to])
      }
    }
  }
  return runs.filter(
    ([from, to]) => !runs.some(([a, b]) => a <= from && b >= to && b - a > to - from),
  )
}
