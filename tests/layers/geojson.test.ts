/** GeoJSON against RFC 7946 and GDAL's vector reader. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { contoursGeojson } from '../../src/layers/contours-geojson'
import {
  boundingBox,
  featureCollection,
  lineFeature,
  pointFeature,
  polygonFeature,
  type FeatureText,
  type LonLat,
} from '../../src/layers/geojson'
import { openCrs } from '../../src/places/crs'
import type { Contour } from '../../src/surfaces/contours'
import { hasGdal, inFolder, output, put } from './outside'
import { rfc7946Faults } from './rfc7946'

const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes)
const collection = (...features: (FeatureText | null)[]): string =>
  text(featureCollection(features.filter((feature) => feature !== null)))
interface Read {
  readonly bbox?: number[]
  readonly features: {
    readonly geometry: { readonly type: string; readonly coordinates: unknown } | null
    readonly properties: Readonly<Record<string, unknown>>
  }[]
}
const read = (json: string): Read => JSON.parse(json) as Read

describe('RFC 7946', () => {
  test('a point at seven decimals, a null geometry, null properties, a bbox', () => {
    const json = collection(
      pointFeature([-69.123456789, -24.2], [['mica', 2205.5]]),
      pointFeature(null, [['mica', null]]),
    )
    expect(rfc7946Faults(json)).toEqual([])
    expect(read(json)).toEqual({
      type: 'FeatureCollection',
      bbox: [-69.1234568, -24.2, -69.1234568, -24.2],
      features: [
        {
          type: 'Feature',
          geometry: { type: 'Point', coordinates: [-69.1234568, -24.2] },
          properties: { mica: 2205.5 },
        },
        { type: 'Feature', geometry: null, properties: { mica: null } },
      ],
    })
  })

  test('an empty collection has no bbox', () => {
    expect(rfc7946Faults(collection())).toEqual([])
    expect(read(collection()).bbox).toBeUndefined()
  })

  test('a polygon turns by the right-hand rule, its hole the other way, whichever way it came', () => {
    const square = (size: number): LonLat[] => [
      [-size, -size],
      [-size, size],
      [size, size],
      [size, -size],
    ]
    for (const outer of [square(2), square(2).reverse()]) {
      for (const inner of [square(1), square(1).reverse()]) {
        expect(rfc7946Faults(collection(polygonFeature([outer, inner], [])))).toEqual([])
      }
    }
    expect(() =>
      polygonFeature(
        [
          [
            [0, 0],
            [1, 1],
            [0, 0],
          ],
        ],
        [],
      ),
    ).toThrow(/three different corners/)
  })

  test('a line across the antimeridian is cut where it crosses (the text’s own example)', () => {
    // RFC 7946 section 3.1.9.
    const json = collection(
      lineFeature(
        [
          [170, 45],
          [-170, 45],
        ],
        [],
      ),
    )
    expect(rfc7946Faults(json)).toEqual([])
    expect(read(json).features[0].geometry).toEqual({
      type: 'MultiLineString',
      coordinates: [
        [
          [170, 45],
          [180, 45],
        ],
        [
          [-180, 45],
          [-170, 45],
        ],
      ],
    })
    expect(read(json).bbox).toEqual([170, 45, -170, 45])
  })

  test('a box across the antimeridian has its west above its east (Fiji, section 5.2)', () => {
    expect(
      boundingBox([
        [177, -20],
        [-178, -16],
        [179, -18],
      ]),
    ).toEqual([177, -20, -178, -16])
    expect(
      boundingBox([
        [-69, -24],
        [-68, -23],
      ]),
    ).toEqual([-69, -24, -68, -23])
  })

  test('any line passes, or is left out when it has no length', () => {
    const place = fc.tuple(
      fc.double({ min: -180, max: 180, noNaN: true }),
      fc.double({ min: -90, max: 90, noNaN: true }),
    )
    fc.assert(
      fc.property(fc.array(place, { maxLength: 30 }), (line) => {
        const feature = lineFeature(line, [['level', 1]])
        if (feature !== null) expect(rfc7946Faults(collection(feature))).toEqual([])
      }),
      { seed: 2 },
    )
    expect(
      lineFeature(
        [
          [1, 1],
          [1, 1 + 1e-9],
        ],
        [],
      ),
    ).toBeNull()
  })

  test('names of any kind stay in their order', () => {
    const json = collection(
      pointFeature(
        [0, 0],
        [
          ['b', 1],
          ['2200', 2],
          ['__proto__', 3],
          ['a"', 'x\n'],
        ],
      ),
    )
    expect(json).toContain('"b":1,"2200":2,"__proto__":3,"a\\"":"x\\n"')
    expect(rfc7946Faults(json)).toEqual([])
  })

  test('what is no place is refused, not written', () => {
    expect(() => pointFeature([NaN, 0], [])).toThrow(/no longitude or latitude/)
    expect(() => pointFeature([412_300, 0], [])).toThrow(/no longitude or latitude/)
  })

  test('the reading of the standard sees faults', () => {
    const faults = (change: (root: Record<string, unknown>) => void): number => {
      const root = JSON.parse(collection(pointFeature([1, 2], []))) as Record<string, unknown>
      change(root)
      return rfc7946Faults(JSON.stringify(root)).length
    }
    expect(faults(() => {})).toBe(0)
    expect(faults((root) => (root.crs = {}))).toBe(1)
    expect(faults((root) => (root.bbox = [3, 3, 4, 4]))).toBe(1)
    expect(
      faults((root) => (root.features = [{ type: 'Feature', geometry: null }])),
    ).toBeGreaterThan(0)
  })
})

describe('contours', () => {
  const crs = openCrs('EPSG:32719')
  const line = (level: number, x: number[], y: number[], closed: boolean): Contour => ({
    level,
    x: Float64Array.from(x),
    y: Float64Array.from(y),
    closed,
  })
  const [west, north] = [412_300, 7_301_200]
  const contours = [
    line(2205, [west, west + 20], [north, north + 10], false),
    line(2210.1 + 0.2, [west, west + 20, west + 10, west], [north, north, north + 20, north], true),
  ]

  test('are lines on WGS 84 with level and unit; a closed one ends where it began', () => {
    const json = text(contoursGeojson('mica', 'nm', contours, crs) ?? new Uint8Array())
    expect(rfc7946Faults(json)).toEqual([])
    const { features } = read(json)
    expect(features.map(({ properties }) => properties)).toEqual([
      { surface: 'mica', level: 2205, unit: 'nm' },
      { surface: 'mica', level: 2210.3, unit: 'nm' },
    ])
    const ring = features[1].geometry?.coordinates as number[][]
    expect(ring.length).toBe(4)
    expect(ring[3]).toEqual(ring[0])
  })

  test('a local grid has none', () => {
    expect(contoursGeojson('mica', 'nm', contours, openCrs('local:m'))).toBeNull()
  })

  test.skipIf(!hasGdal)(
    'lie where GDAL puts them (skipped where gdal-bin is not installed)',
    () => {
      inFolder((folder) => {
        const bytes = contoursGeojson('mica', 'nm', contours, crs) ?? new Uint8Array()
        const file = put(folder, 'mica.contours.geojson', bytes)
        const back = `${folder}/utm.csv`
        output('ogr2ogr', [
          ...['-f', 'CSV', back, file, '-t_srs', 'EPSG:32719', '-lco', 'GEOMETRY=AS_WKT'],
        ])
        const summary = output('ogrinfo', ['-so', '-al', file])
        expect(summary).toContain('Geometry: Line String')
        expect(summary).toContain('Feature Count: 2')
        expect(summary).toContain('ID["EPSG",4326]')
        expect(summary).toMatch(/level: Real/)
        const wkt = output('ogrinfo', ['-al', '-q', back])
        const numbers = [...wkt.matchAll(/(\d{6}\.\d+) (\d{7}\.\d+)/g)].map(([, x, y]) => [+x, +y])
        expect(numbers.length).toBeGreaterThanOrEqual(6)
        numbers.slice(0, 2).forEach(([x, y], i) => {
          expect(Math.abs(x - contours[0].x[i])).toBeLessThan(0.02)
          expect(Math.abs(y - contours[0].y[i])).toBeLessThan(0.02)
        })
      })
    },
  )
})

test('a ring of centimetres far from the equator is turned as the right-hand rule asks', () => {
  const [west, south, step] = [-169.1234567, -64.7654321, 1e-7]
  const at = (east: number, north: number): LonLat => [
    Number((west + east * step).toFixed(7)),
    Number((south + north * step).toFixed(7)),
  ]
  for (let shift = 0; shift < 40; shift++) {
    const ring = [at(shift, 0), at(shift + 1, shift), at(shift, shift + 1)]
    const { json } = polygonFeature([ring], [])
    const { geometry } = JSON.parse(json) as Read['features'][number]
    const [[a, b, c]] = geometry?.coordinates as [number, number][][]
    expect((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])).toBeGreaterThan(0)
  }
})
