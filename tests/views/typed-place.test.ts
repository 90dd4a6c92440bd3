/** A typed place; PROJ 9.1's cs2cs gives the easting and northing: EPSG:4326 to EPSG:32719. */
import { expect, test } from 'vitest'
import { openCrs } from '../../src/places/crs'
import { typedPlace } from '../../src/views/places/typed-place'

const utm19s = openCrs('EPSG:32719')

test('degrees, with or without letters, need no working system', () => {
  expect(typedPlace('-24.931 -69.214', null)).toEqual({ latitude: -24.931, longitude: -69.214 })
  expect(typedPlace('24.931 S, 69.214 W', null)).toEqual({ latitude: -24.931, longitude: -69.214 })
})

test.each(['478393.245 7242675.48', '478393,245; 7242675,48', ' 478393.245, 7242675.48 '])(
  'easting and northing %s are those of the working system',
  (text) => {
    const { longitude, latitude } = typedPlace(text, utm19s)
    expect(longitude).toBeCloseTo(-69.214, 7)
    expect(latitude).toBeCloseTo(-24.931, 7)
  },
)

test.each([
  ['478393 7242675', null, /need a working coordinate system/],
  ['478393 7242675', openCrs('local:m'), /need a working coordinate system/],
  ['7242675 90478393', utm19s, /lies outside EPSG:32719/],
  ['-24.931 north', null, /./],
  ['95 20', null, /beyond 90/],
])('%s is refused with what to do', (text, crs, words) => {
  expect(() => typedPlace(text, crs)).toThrow(words)
})
