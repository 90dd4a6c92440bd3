/** Whatever stands in a file, placing answers and never throws. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { parseAngle, parsePosition } from '../../src/places/coordinates'
import { placeScans } from '../../src/places/place-scans'

const HEADINGS = ['Sample', 'East', 'North', 'Latitude', 'Longitude', 'MGRS', 'CRS', 'RL', 'Hole']
const MORE = ['From', 'To', 'Depth', 'Azimuth', 'Dip', 'Inclination', 'Datum', 'Zone', '__proto__']

const cell = fc.oneof(
  fc.string({ maxLength: 12 }),
  fc.double({ noNaN: false }).map(String),
  fc.integer({ min: -200, max: 8_000_000 }).map(String),
  fc.constantFrom(
    '',
    '-24.9',
    '69 15 W',
    '19JDN7040',
    'EPSG:32719',
    'WGS84',
    '19S',
    'H1',
    'A_1',
    '0',
  ),
)

const someTable = fc
  .record({
    header: fc.uniqueArray(fc.constantFrom(...HEADINGS, ...MORE), { minLength: 1, maxLength: 9 }),
    rows: fc.array(fc.array(cell, { maxLength: 10 }), { maxLength: 6 }),
  })
  .map(({ header, rows }) => ({ file: 't.csv', header, rows, lines: rows.map((_, i) => i + 2) }))

const someScan = fc.record({
  name: cell,
  file: fc.constantFrom('a.txt', 'b/c.txt'),
  metadata: fc.dictionary(fc.constantFrom(...HEADINGS, ...MORE, 'time', 'sample'), cell),
})

test('any table and any header', () => {
  fc.assert(
    fc.property(
      fc.array(someTable, { maxLength: 3 }),
      fc.array(someScan, { maxLength: 6 }),
      fc.constantFrom('auto', 'EPSG:32719', 'local:m'),
      (tables, scans, crs) => {
        const placement = placeScans({ scans, tables, tracks: [], rules: [], crs })
        expect(placement.scans.length).toBe(scans.length)
        placement.scans.forEach(({ station, unplaced }, i) => {
          if (station === null) expect(unplaced).toBeTruthy()
          else expect(placement.stations[station].scans).toContain(i)
        })
        for (const { position } of placement.stations) {
          expect(Number.isFinite(position.easting) && Number.isFinite(position.northing)).toBe(true)
        }
      },
    ),
    { seed: 11, numRuns: 400 },
  )
})

test('any text as a coordinate is a number in range or an error in words', () => {
  fc.assert(
    fc.property(fc.oneof(cell, fc.string({ maxLength: 200 })), (text) => {
      for (const read of [
        () => parseAngle(text, 'latitude'),
        () => parseAngle(text, 'longitude') / 2,
        () => parsePosition(text).latitude,
      ]) {
        const [value, words] = outcome(read)
        if (words === null) expect(Math.abs(value)).toBeLessThanOrEqual(90)
        else expect(words).toMatch(/ .* /)
      }
    }),
    { seed: 12, numRuns: 1000 },
  )
})

/** What a reading gives, or the words that it is refused with. */
function outcome(read: () => number): [value: number, words: string | null] {
  try {
    return [read(), null]
  } catch (error) {
    return [NaN, (error as Error).message]
  }
}
