/** Which stations may be repeats on one spot. */
import { expect, test } from 'vitest'
import { alikeStations } from '../../src/places/alike-stations'
import type { Station } from '../../src/places/station'

const at = (name: string, easting: number, more: Partial<Station> = {}): Station => ({
  name,
  support: 'outcrop',
  position: { easting, northing: 0, elevation: null, longitude: 0, latitude: 0, error: 5 },
  placedBy: 'track',
  hole: null,
  from: null,
  to: null,
  columns: {},
  scans: [0],
  ...more,
})
const names = (stations: Station[], near = 6, metres = 1) =>
  alikeStations(stations, near, metres).map((each) => [
    each.name,
    ...each.stations.map((number) => stations[number].name),
  ])

test('names that differ by a counting ending, on one spot', () => {
  const stations = [at('KR09_1', 0), at('KR09_2', 2), at('kr09_3', 5), at('KR10_1', 1)]
  expect(names(stations)).toEqual([['KR09', 'KR09_1', 'KR09_2', 'kr09_3']])
})

test('not those that lie apart, in the unit of the working system', () => {
  const stations = [at('A_1', 0), at('A_2', 10), at('A_3', 12)]
  expect(names(stations)).toEqual([['A', 'A_2', 'A_3']])
  expect(names(stations, 6, 0.3048)).toEqual([['A', 'A_1', 'A_2', 'A_3']])
})

test('not those of a table, of a hole, of another support, unnamed, or without a scan', () => {
  const one = at('A_1', 0)
  expect(names([one, at('A_2', 0, { placedBy: 'table' })])).toEqual([])
  expect(names([one, at('A_2', 0, { hole: 'H1' })])).toEqual([])
  expect(names([one, at('A_2', 0, { support: 'float' })])).toEqual([])
  expect(names([one, at('A_2', 0, { scans: [] })])).toEqual([])
  expect(names([one, at('A_2', 0, { isUnnamed: true })])).toEqual([])
})

test('a station that bears the shared name already takes the others in', () => {
  expect(names([at('A', 0), at('A_2', 1)])).toEqual([['A', 'A', 'A_2']])
})
