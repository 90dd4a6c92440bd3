/** Whether the scans' clock fits a track, told by scans whose place is known otherwise. */
import { describe, expect, test } from 'vitest'
import { clockReadings, isOfClock, type ClockWitness } from '../../src/places/clocks'
import { atOnce } from '../../src/spectra/piecework'
import type { Track } from '../../src/readers/input'
import { place, scan, table } from './made'

const LAT = -33.2
const METRE_NORTH = 180 / (Math.PI * 6371008.8)
const METRE_EAST = METRE_NORTH / Math.cos((LAT * Math.PI) / 180)
const START = Date.UTC(2026, 4, 12, 7) / 1000

/** Stops 200 m apart in a line that turns: five minutes at each, four on the way. */
const stops = Array.from({ length: 14 }, (_, i) => ({
  longitude: 21.5 + METRE_EAST * 200 * (i < 7 ? i : 13 - i),
  latitude: LAT + METRE_NORTH * (i < 7 ? 0 : 400),
  arrives: START + 540 * i,
}))

/** The receiver's track along the stops, a fix every 20 s, in two pieces. */
function walk(): Track[] {
  const fixes = stops.slice(0, -1).flatMap((stop, i) => {
    const next = stops[i + 1]
    return Array.from({ length: 27 }, (_, k) => {
      const part = Math.max(0, (20 * k - 300) / 240)
      return [
        stop.arrives + 20 * k,
        stop.longitude + part * (next.longitude - stop.longitude),
        stop.latitude + part * (next.latitude - stop.latitude),
      ]
    })
  })
  const piece = (rows: number[][]): Track => ({
    file: 'walk.gpx',
    name: 'walk',
    times: Float64Array.from(rows, (row) => row[0]),
    longitudes: Float64Array.from(rows, (row) => row[1]),
    latitudes: Float64Array.from(rows, (row) => row[2]),
    elevations: Float64Array.from(rows, () => NaN),
  })
  return [piece(fixes.slice(0, 175)), piece(fixes.slice(175))]
}

/** A scan in the middle of each stop, by a clock that is `ahead` seconds fast. */
function scansAt(ahead: number, shift = 0): ClockWitness[] {
  return stops.slice(0, -1).map(({ longitude, latitude, arrives }) => ({
    times: [arrives + 150 + ahead],
    longitude: longitude + shift * METRE_EAST,
    latitude,
  }))
}

const read = (witnesses: ClockWitness[], offset?: number) =>
  atOnce(
    clockReadings(
      walk(),
      witnesses,
      offset === undefined ? [] : [{ file: 'walk.gpx', clock_offset_s: offset }],
    ),
  )

describe('the clock of the scans against a track', () => {
  // A zone of two hours and a clock 17 minutes slow; one 23 minutes slow; one a zone west.
  test.each([6180, -1380, -5 * 3600 + 40])('finds a clock that is %i s ahead', (ahead) => {
    const [reading] = read(scansAt(ahead))
    expect(reading).toMatchObject({ file: 'walk.gpx', witnesses: 13 })
    expect(reading.near).toBeLessThan(5)
    const { better } = reading
    if (!better) throw new Error('no offset was found')
    expect(better.near).toBe(13)
    expect(better.away).toBeLessThan(5)
    // Anyone standing still for five minutes leaves some play: the truth lies in the range.
    expect(better.from).toBeLessThanOrEqual(-ahead)
    expect(better.to).toBeGreaterThanOrEqual(-ahead)
    expect(better.to - better.from).toBeLessThanOrEqual(420)
    expect(Math.abs(better.offset + ahead)).toBeLessThanOrEqual(30)
  })

  test('a clock that fits is left alone, and so is one whose offset is set', () => {
    expect(read(scansAt(0))).toEqual([{ file: 'walk.gpx', witnesses: 13, near: 13, better: null }])
    expect(read(scansAt(6180), -6180)[0]).toMatchObject({ near: 13, better: null })
  })

  test('places that are nowhere on the track name no offset', () => {
    expect(read(scansAt(0, 5000))[0]).toMatchObject({ near: 0, better: null })
  })

  test('fewer than five spots, or scans of another week, tell nothing', () => {
    expect(read(scansAt(6180).slice(0, 4))).toEqual([])
    expect(read(scansAt(7 * 86_400))).toEqual([])
    expect(
      read(scansAt(6180).map((each) => ({ ...each, ...scansAt(0)[0], times: each.times }))),
    ).toEqual([])
  })
})

test('placing warns of a clock that would put scans at the wrong spots', () => {
  const times = scansAt(6180).map(({ times }) => new Date(times[0] * 1000).toISOString())
  const input = {
    scans: times.map((time, i) => scan(`S${i}`, { time })),
    tables: [
      table(
        'samples.csv',
        'sample,longitude,latitude',
        // The last three scans are left to the track.
        ...stops.slice(0, 10).map(({ longitude, latitude }, i) => `S${i},${longitude},${latitude}`),
      ),
    ],
    tracks: walk(),
  }
  const wrong = place(input)
  expect(wrong.problems.filter(isOfClock)).toMatchObject([
    {
      file: 'walk.gpx',
      problem: expect.stringContaining('of 10 scans that something else places'),
      done: expect.stringContaining('clock_offset_s'),
    },
  ])
  const right = place({ ...input, rules: [{ file: 'walk.gpx', clock_offset_s: -6180 }] })
  expect(right.problems.filter(isOfClock)).toEqual([])
  expect(right.clocks).toMatchObject([{ near: 10, better: null }])
})
