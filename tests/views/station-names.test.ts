/** Names on the map: one a station, one a hole, the selected first. */
import { expect, test } from 'vitest'
import type { Station } from '../../src/places/station'
import { namesOnMap } from '../../src/views/map-view/station-names'

function station(name: string, hole: string | null = null, from: number | null = null): Station {
  return { name, hole, from, to: null } as Station
}

const stations = [
  station('A'),
  station('H 20 m', 'H', 20),
  station('H 5 m', 'H', 5),
  station('nowhere'),
  station('H 40 m', 'H', 40),
]
const places = {
  shown: Int32Array.of(0, 1, 2, 4),
  longitudes: Float64Array.of(10, 11, 12, 14),
  latitudes: Float64Array.of(-1, -2, -3, -5),
}

test('a hole is named once, at its uppermost depth', () => {
  const names = namesOnMap(stations, places, new Set())
  expect(names.map(({ name, longitude, latitude }) => [name, longitude, latitude])).toEqual([
    ['A', 10, -1],
    ['H', 12, -3],
  ])
})

test('a selected depth is told in full, and before the others', () => {
  const names = namesOnMap(stations, places, new Set([4]))
  const first = names.toSorted((a, b) => a.rank - b.rank).map(({ name }) => name)
  expect(first).toEqual(['H 40 m', 'H', 'A'])
})
