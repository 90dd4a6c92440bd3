/** Outlines: whatever stands in a GeoJSON file, nothing that is not RFC 7946 reaches the map. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readOutlines } from '../../src/project/outlines'
import { unitsAt } from '../../src/project/units-at'

const fileOf = (json: unknown) => ({
  path: 'ground/units.geojson',
  bytes: new TextEncoder().encode(typeof json === 'string' ? json : JSON.stringify(json)),
})
const square = [
  [
    [0, 0],
    [2, 0],
    [2, 2],
    [0, 2],
    [0, 0],
  ],
]
const feature = (geometry: unknown) => ({ type: 'Feature', properties: { name: 'a' }, geometry })
const collection = (...features: unknown[]) => ({ type: 'FeatureCollection', features })

test('features of every type come through', () => {
  const geometries = [
    { type: 'Point', coordinates: [1, 2, 3] },
    {
      type: 'MultiLineString',
      coordinates: [
        [
          [0, 0],
          [1, 1],
        ],
      ],
    },
    { type: 'Polygon', coordinates: square },
    { type: 'GeometryCollection', geometries: [{ type: 'Point', coordinates: [1, 2] }] },
    null,
  ]
  const { features } = readOutlines(fileOf(collection(...geometries.map(feature))))
  expect(features.map(({ geometry }) => geometry)).toEqual(geometries)
  expect(unitsAt(readOutlines(fileOf(feature(geometries[2]))), 1, 1)).toEqual(['a'])
})

const deep = (levels: number): unknown =>
  levels === 0
    ? { type: 'Point', coordinates: [0, 0] }
    : { type: 'GeometryCollection', geometries: [deep(levels - 1)] }

test.each<[what: string, json: unknown, why: RegExp]>([
  ['no JSON', '{"type":"Feature"', /is no JSON/],
  ['another object', { type: 'Topology' }, /neither a Feature .* but ‘Topology’/],
  ['a list', [1], /something without a type/],
  ['features that are none', collection(null), /a feature 1 that is none/],
  ['a geometry of another type', collection(feature({ type: '__proto__' })), /does not know/],
  ['a polygon of numbers', feature({ type: 'Polygon', coordinates: [0, 0] }), /no proper coord/],
  ['words for numbers', feature({ type: 'Point', coordinates: ['a', 'b'] }), /no proper coord/],
  ['no coordinates', feature({ type: 'Polygon' }), /no proper coordinates for a Polygon/],
  [
    'geometries that are no list',
    feature({ type: 'GeometryCollection', geometries: 3 }),
    /not know/,
  ],
  ['collections nested deep', feature(deep(9)), /nests more than 8 collections/],
  [
    'brackets nested deep',
    `{"type":"Feature","geometry":{"type":"Point","coordinates":${'['.repeat(1e6)}${']'.repeat(1e6)}}}`,
    /no proper/,
  ],
  [
    'too many features',
    collection(...Array.from({ length: 50_001 }, () => feature(null))),
    /50001 features/,
  ],
])('refuses %s, naming file, fault and what to do', (_, json, why) => {
  const reading = () => readOutlines(fileOf(json))
  expect(reading).toThrow(why)
  expect(reading).toThrow(/^ground\/units\.geojson .*; (save the layer again|simplify)/)
})

test('any JSON is refused in words, or asking what lies at a place answers', () => {
  const coordinates = fc.letrec((tie) => ({
    any: fc.oneof(
      { maxDepth: 4 },
      fc.double(),
      fc.constant(null),
      fc.array(tie('any'), { maxLength: 4 }),
    ),
  })).any
  const types = ['Point', 'Polygon', 'MultiPolygon', 'LineString', 'GeometryCollection', 'X']
  const geometry = fc.record({
    type: fc.constantFrom(...types),
    coordinates: fc.oneof(
      coordinates,
      fc.constantFrom<unknown>(square, [square], [], [[]], [[[]]]),
    ),
  })
  fc.assert(
    fc.property(fc.array(geometry, { maxLength: 4 }), (geometries) => {
      try {
        unitsAt(readOutlines(fileOf(collection(...geometries.map(feature)))), 1, 1)
      } catch (error) {
        expect((error as Error).message).toMatch(/^ground\/units\.geojson has a feature \d+ that/)
      }
    }),
    { seed: 13, numRuns: 2000 },
  )
})
