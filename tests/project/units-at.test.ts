/** What the outlines say of a place. */
import type { FeatureCollection } from 'geojson'
import { expect, test } from 'vitest'
import { unitsAt } from '../../src/project/units-at'

function square(name: string, from: number, to: number) {
  const ring = [
    [from, from],
    [to, from],
    [to, to],
    [from, to],
    [from, from],
  ]
  return {
    type: 'Feature' as const,
    properties: { name },
    geometry: { type: 'Polygon' as const, coordinates: [ring] },
  }
}

const outlines: FeatureCollection = {
  type: 'FeatureCollection',
  features: [
    square('andesite', 0, 10),
    square('gravel', 4, 6),
    {
      type: 'Feature',
      properties: { name: 'fault' },
      geometry: {
        type: 'LineString',
        coordinates: [
          [0, 0],
          [10, 10],
        ],
      },
    },
  ],
}

test('a place lies in the areas around it, cover before what it covers, and in no line', () => {
  expect(unitsAt(outlines, 1, 1)).toEqual(['andesite'])
  expect(unitsAt(outlines, 5, 5)).toEqual(['gravel', 'andesite'])
  expect(unitsAt(outlines, 11, 5)).toEqual([])
})
