/** Coordinates as the drawer shows and copies them. */
import { expect, test } from 'vitest'
import { openCrs } from '../../src/places/crs'
import type { Position } from '../../src/places/station'
import { errorWords, globeWords, gridWords } from '../../src/views/drawer/place-words'

const position: Position = {
  easting: 471240.5,
  northing: 7245616.84,
  elevation: 3129.5,
  longitude: -69.283456789,
  latitude: -24.9,
  error: 3.14,
}

test('both systems with as many decimals as a tenth of a metre needs', () => {
  const utm = openCrs('EPSG:32719')
  expect(gridWords(position, utm)).toBe('471240.5, 7245616.8 EPSG:32719')
  expect(globeWords(position)).toBe('-24.900000, -69.283457')
  expect(errorWords(position, utm)).toBe('± 3.1 m (one standard error)')
  const kilometres = { ...position, easting: 471.2405, northing: 7245.61684 }
  expect(gridWords(kilometres, openCrs('local:km'))).toBe('471.2405, 7245.6168 local:km')
})

test('a grid tied to nothing has no latitude, and an error that nobody knows is none', () => {
  expect(globeWords({ ...position, longitude: null, latitude: null })).toBe('')
  expect(errorWords({ ...position, error: null }, openCrs('local:m'))).toBe('not known')
})
