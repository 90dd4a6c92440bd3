import { execFileSync } from 'node:child_process'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { parseAngle, parsePosition } from '../../src/places/coordinates'
import { installed } from './installed'

describe('one angle', () => {
  test('NMEA 0183: 4807.038,N is 48.1173° and 01131.000,E is 11.5167° (the GGA example)', () => {
    expect(parseAngle('4807.038,N', 'latitude')).toBeCloseTo(48.1173, 4)
    expect(parseAngle('01131.000,E', 'longitude')).toBeCloseTo(11.516667, 6)
    expect(parseAngle('0730.5,S', 'latitude')).toBeCloseTo(-7.508333, 6)
  })

  test.each([
    ['-23.5', 'latitude', -23.5],
    ['−23,5', 'latitude', -23.5],
    ['23.5 S', 'latitude', -23.5],
    ['S23.5°', 'latitude', -23.5],
    ['23°30′S', 'latitude', -23.5],
    ['23 30 00 s', 'latitude', -23.5],
    ['23°30\'00"S', 'latitude', -23.5],
    ['23d30m00s S', 'latitude', -23.5],
    ['23 deg 30 min 0 sec N', 'latitude', 23.5],
    ['69º 15´ 36,6" W', 'longitude', -69.2601667],
    ['-69:15:36.6', 'longitude', -69.2601667],
    ['E 138° 35.5', 'longitude', 138.5916667],
  ] as const)('%s', (text, axis, degrees) => {
    expect(parseAngle(text, axis)).toBeCloseTo(degrees, 6)
  })

  test.each([
    ['91', 'latitude', /beyond 90/],
    ['181 E', 'longitude', /beyond 180/],
    ['-23 S', 'latitude', /both a minus sign and a hemisphere/],
    ['69 O', 'longitude', /west in some languages/],
    ['23 S', 'longitude', /columns may be swapped/],
    ['23 60 N', 'latitude', /minutes of 60/],
    ['23 10 61 N', 'latitude', /seconds of 60/],
    ['23.5 30 N', 'latitude', /fraction before its last/],
    ['1 2 3 4', 'latitude', /more than degrees/],
    ['north', 'latitude', /no latitude/],
    ['', 'latitude', /no number/],
    ['12-30', 'latitude', /minus sign inside/],
    ['9'.repeat(500), 'latitude', /too long/],
  ] as const)('%s is refused', (text, axis, words) => {
    expect(() => parseAngle(text, axis)).toThrow(words)
  })
})

describe('a position in one text', () => {
  test.each([
    // ISO 6709:2008 annex H, the standard's own examples (from memory).
    ['+40-075CRSxxxx/', 40, -75],
    ['+40.20361-075.00417/', 40.20361, -75.00417],
    ['+4012-07500/', 40.2, -75],
    ['+401213.1-0750015.1/', 40.2036389, -75.0041944],
    ['48.1173, 11.5167', 48.1173, 11.5167],
    ['48.1173,11.5167', 48.1173, 11.5167],
    ['48,1173; 11,5167', 48.1173, 11.5167],
    ['48.1173 11.5167', 48.1173, 11.5167],
    ['4807.038,N,01131.000,E', 48.1173, 11.516667],
    ['23°30\'00"S 69°15\'36.6"W', -23.5, -69.2601667],
    ['W69.26 S23.5', -23.5, -69.26],
    ['69.26W, 23.5S', -23.5, -69.26],
    ['-23 30 0 -69 15 36.6', -23.5, -69.2601667],
  ])('%s', (text, latitude, longitude) => {
    const position = parsePosition(text)
    expect(position.latitude).toBeCloseTo(latitude, 6)
    expect(position.longitude).toBeCloseTo(longitude, 6)
  })

  test('ISO 6709 carries a height', () => {
    expect(parsePosition('+27.5916+086.5640+8850CRSWGS_84/').elevation).toBe(8850)
  })

  test('MGRS 33UXP04 names a 10 km square and 19KDP1234567890 a metre', () => {
    expect(parsePosition('33UXP04').cell).toBe(10_000)
    expect(parsePosition('19K DP 12345 67890').cell).toBe(1)
    expect(() => parsePosition('19KDP123456789012')).toThrow(/ten digits/)
    expect(() => parsePosition('ZAH0000000000')).toThrow(/80° S to 84° N|80° S and 84° N/)
  })

  // Square DP of zone 19, band K: easting 400 km, northing 7,300 km or a multiple of 2,000 km from it.
  test.skipIf(!installed('cs2cs'))('MGRS agrees with PROJ on the square’s middle', () => {
    const { longitude, latitude } = parsePosition('19KDP1234567890')
    const out = execFileSync('cs2cs', ['-f', '%.3f', 'EPSG:4326', 'EPSG:32719'], {
      input: `${latitude} ${longitude}\n`,
      encoding: 'utf8',
    })
    const [easting, northing] = out.trim().split(/\s+/).map(Number)
    expect(Math.abs(easting - 412345.5)).toBeLessThan(0.6)
    expect(Math.abs((northing % 100_000) - 67890.5)).toBeLessThan(0.6)
  })

  test.each(['', 'here', '48.1', '48.1 11.5 7.0', '91.0, 11.0'])('%s is refused', (text) => {
    expect(() => parsePosition(text)).toThrow()
  })

  test('any position survives being written in degrees, minutes and seconds', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -89.99, max: 89.99, noNaN: true }),
        fc.double({ min: -179.99, max: 179.99, noNaN: true }),
        (latitude, longitude) => {
          const read = parsePosition(`${dms(latitude, 'N', 'S')} ${dms(longitude, 'E', 'W')}`)
          expect(read.latitude).toBeCloseTo(latitude, 7)
          expect(read.longitude).toBeCloseTo(longitude, 7)
        },
      ),
      { seed: 7 },
    )
  })
})

function dms(degrees: number, positive: string, negative: string): string {
  const units = Math.round(Math.abs(degrees) * 3600e4)
  const seconds = (units % 60e4) / 1e4
  const minutes = Math.floor(units / 60e4) % 60
  return `${Math.floor(units / 3600e4)}°${minutes}'${seconds.toFixed(4)}"${degrees < 0 ? negative : positive}`
}
