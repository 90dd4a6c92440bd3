/** What is said of the working coordinate system. */
import { expect, test } from 'vitest'
import { openCrs } from '../../src/places/crs'
import { crsOrigin, layersCrs } from '../../src/views/crs-words'

test('a grid that is tied to nothing has no zone, and no vectors', () => {
  const feet = openCrs('local:ft')
  expect(crsOrigin('auto', feet)).toContain('own grid')
  expect(crsOrigin('local:ft', feet)).toBe('')
  expect(layersCrs(feet)).toMatch(/local:ft.*no longitude, latitude or GeoJSON/)
})

test('another has both', () => {
  const utm = openCrs('EPSG:32719')
  expect(crsOrigin('auto', utm)).toBe('(the UTM zone of the median station)')
  expect(layersCrs(utm)).toBe('Rasters are in EPSG:32719, vectors in WGS 84.')
})
