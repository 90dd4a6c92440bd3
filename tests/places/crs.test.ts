import { execFileSync } from 'node:child_process'
import { beforeAll, describe, expect, test, vi } from 'vitest'
import { chooseCrs, loadEpsgTable, openCrs } from '../../src/places/crs'
import { utmEpsg, utmZone } from '../../src/places/utm'
import { installed } from './installed'

test('a code that needs the register says so before it is loaded', async () => {
  // Another test may have loaded it into the modules that all share.
  vi.resetModules()
  const { needsEpsgTable, openCrs } = await import('../../src/places/crs')
  expect(needsEpsgTable('EPSG:27700')).toBe(true)
  expect(needsEpsgTable('EPSG:32719')).toBe(false)
  expect(openCrs('EPSG:32719').name).toBe('WGS 84 / UTM zone 19S')
  expect(() => openCrs('EPSG:27700')).toThrow(/register, which is not loaded/)
})

describe('with the register', () => {
  beforeAll(loadEpsgTable)

  test.each([
    // code, longitude, latitude, easting, northing: `cs2cs -d 3 EPSG:4326 CODE` of PROJ 9.1.1
    // with the proj4 text of src/places/epsg.json where a datum is shifted.
    ['EPSG:32719', -69.504494883, -27.121563607, 450000, 7000000],
    ['EPSG:32632', 4, 60, 221288.77, 6661953.041],
    ['EPSG:32750', 117.4, -22.9, 541022.979, 7467494.416],
    ['EPSG:27700', -3.2, 55.95, 325160.297, 673646.563],
    ['EPSG:5042', 30, -85, 2277728.696, 2481040.212],
    ['EPSG:2048', 19.5, -33, -46726.851, 3652859.088],
  ])('%s agrees with PROJ', (code, longitude, latitude, easting, northing) => {
    const crs = openCrs(code)
    const there = crs.fromGeographic(longitude, latitude)
    expect(there?.[0]).toBeCloseTo(easting, 2)
    expect(there?.[1]).toBeCloseTo(northing, 2)
    const back = crs.toGeographic(easting, northing)
    expect(back?.[0]).toBeCloseTo(longitude, 7)
    expect(back?.[1]).toBeCloseTo(latitude, 7)
  })

  test('units and shifts are stated', () => {
    expect(openCrs('EPSG:2225')).toMatchObject({ unit: 'us-ft', metresPerUnit: 1200 / 3937 })
    expect(openCrs('EPSG:27700').datumShift).toBe('applied')
    expect(openCrs('EPSG:32719').datumShift).toBe('none needed')
    expect(openCrs('EPSG:4200').kind).toBe('geographic')
    expect(openCrs('EPSG:2048').reversedAxes).toBe(true)
  })

  test('unknown codes are refused in words', () => {
    expect(() => openCrs('EPSG:99999')).toThrow(/EPSG:99999 is no projected or geographic/)
    expect(() => openCrs('UTM 19S')).toThrow(/write EPSG and its number/)
    expect(() => openCrs('local:cubit')).toThrow(/local:m, local:km or local:ft/)
    expect(() => chooseCrs('EPSG:4326', [])).toThrow(/in degrees/)
    expect(() => chooseCrs('EPSG:2048', [])).toThrow(/west or south/)
    expect(() => chooseCrs('auto', [])).toThrow(/no position/)
  })

  test('a local grid has no longitude or latitude', () => {
    const crs = openCrs('local:km')
    expect(crs).toMatchObject({ unit: 'km', metresPerUnit: 1000, kind: 'local' })
    expect(crs.toGeographic(1, 2)).toBeNull()
    expect(crs.fromGeographic(1, 2)).toBeNull()
  })

  test.skipIf(!installed('cs2cs'))(
    'one code in sixty of the register agrees with PROJ',
    async () => {
      const loaded: { default: unknown } = await import('../../src/places/epsg.json')
      const table = loaded.default as Record<string, [string, string]>
      // EPSG_STEP=1 compares the whole register, which takes a minute or two.
      const step = Number(process.env.EPSG_STEP ?? 60)
      const codes = Object.keys(table).filter((_, i) => i % step === 0)
      const far: string[] = []
      for (const code of codes) {
        const crs = openCrs(`EPSG:${code}`)
        if (crs.kind === 'geographic') continue
        const [name, definition] = table[code]
        const middle = middleOf(definition)
        if (middle === null) continue
        const out = execFileSync(
          'cs2cs',
          ['-f', '%.4f', '+proj=longlat', '+datum=WGS84', '+to', ...definition.split(' ')],
          { input: `${middle[0]} ${middle[1]}\n`, encoding: 'utf8' },
        )
        const [easting, northing] = out.trim().split(/\s+/).map(Number)
        if (!Number.isFinite(easting)) continue
        const own = crs.fromGeographic(middle[0], middle[1])
        const miss = own === null ? Infinity : Math.hypot(own[0] - easting, own[1] - northing)
        if (miss * crs.metresPerUnit > 0.05) far.push(`${code} ${name}: ${miss}`)
      }
      expect(far).toEqual([])
    },
    600_000,
  )
})

/** A point near the projection's own middle. */
function middleOf(definition: string): [number, number] | null {
  const read = (key: string) =>
    Number(new RegExp(`\\+${key}=(-?[\\d.]+)`).exec(definition)?.[1] ?? NaN)
  const pm = /\+pm=/.test(definition)
  if (pm) return null
  const zone = read('zone')
  const longitude = Number.isNaN(zone)
    ? Number.isNaN(read('lon_0'))
      ? read('lonc')
      : read('lon_0')
    : 6 * zone - 183
  const origin = read('lat_0')
  const latitude = /\+south/.test(definition) ? -30 : Math.abs(origin) > 1 ? origin : 30
  return Number.isNaN(longitude)
    ? null
    : [longitude + 0.7, Math.max(-88, Math.min(88, latitude + 0.4))]
}

describe('UTM zones', () => {
  test.each([
    [4, 60, 32], // 32V, the Norway exception
    [15, 78, 33], // 33X, Svalbard
    [2.99, 60, 31],
    [4, 55.99, 31],
    [4, 64, 31],
    [8.9, 75, 31],
    [9, 75, 33],
    [20.9, 75, 33],
    [21, 75, 35],
    [33, 75, 37],
    [42, 75, 38],
    [-180, 0, 1],
    [180, 0, 1],
    [179.999, 0, 60],
    [-69.5, -27.1, 19],
  ])('%d, %d lies in zone %d', (longitude, latitude, zone) => {
    expect(utmZone(longitude, latitude)?.zone).toBe(zone)
  })

  test('the polar limits', () => {
    // One unit in the last place west of the antimeridian: adding 180 rounds it up to 360.
    expect(utmZone(180 - 2 ** -45, 0)?.zone).toBe(60)
    expect(utmZone(0, 84)).not.toBeNull()
    expect(utmZone(0, 84.1)).toBeNull()
    expect(utmZone(0, -80)).not.toBeNull()
    expect(utmZone(0, -80.1)).toBeNull()
    expect(utmEpsg({ zone: 19, south: true })).toBe(32719)
  })

  test('auto takes the median station, across the antimeridian too', () => {
    expect(
      chooseCrs('auto', [
        [-69, -27],
        [-69.1, -27],
        [10, 50],
      ]),
    ).toBe('EPSG:32719')
    expect(
      chooseCrs('auto', [
        [179.9, -17],
        [-179.9, -17],
        [-179.8, -17],
      ]),
    ).toBe('EPSG:32701')
    expect(chooseCrs('auto', [[0, -85]])).toBe('EPSG:5042')
    expect(chooseCrs('auto', [[0, 85]])).toBe('EPSG:5041')
  })
})
