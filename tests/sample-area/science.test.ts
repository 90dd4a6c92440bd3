/** The sample area's numbers against what stands outside the script. */
import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { absorptionShares, mixedReflectance } from '../../sample-area/make/absorption'
import { micaMinimum, micaReflectance } from '../../sample-area/make/end-members'
import { distanceIndex, micaPosition } from '../../sample-area/make/geology'
import { NO_ROCK } from '../../sample-area/make/mixture'
import { EPSG, toDegrees } from '../../sample-area/make/place'
import { WAVELENGTHS } from '../../sample-area/make/sampling'
import { SAMPLE_AREA } from './truth'

function installed(program: string): boolean {
  try {
    execFileSync(program, ['--version'], { stdio: 'ignore' })
    return true
  } catch {
    return false
  }
}
const gdal = installed('gdalinfo')
if (!gdal) console.warn('gdal-bin is not installed: its checks of the sample area are skipped.')

test('pure white mica measures the position that the truth says', () => {
  for (let position = 2193.5; position <= 2214; position += 0.5) {
    const found = micaMinimum(WAVELENGTHS, micaReflectance(position, WAVELENGTHS))
    expect(found).toBeCloseTo(position, 1)
  }
})

test('white mica lengthens outward from about 2194 to about 2214 nm', () => {
  const inner = micaPosition({ x: 473420, y: 7245960 })
  const outer = micaPosition({ x: 471250, y: 7245150 })
  expect(distanceIndex({ x: 473420, y: 7245960 })).toBeLessThan(0.8)
  expect(inner).toBeLessThan(2199)
  expect(outer).toBeGreaterThan(2209)
})

test('half and half of two grey powders: r of the mean single-scattering albedo', () => {
  // Hapke 1981: r = (1 − γ)/(1 + γ), γ² = 1 − w. For r 0.2 and 0.6, w = 0.5556 and 0.9375;
  // their mean 0.74653 gives γ 0.50346 and r 0.33026, worked by hand; linear mixing gives 0.4.
  const w = (r: number) => 1 - ((1 - r) / (1 + r)) ** 2
  const gamma = Math.sqrt(1 - (w(0.2) + w(0.6)) / 2)
  expect((1 - gamma) / (1 + gamma)).toBeCloseTo(0.33026, 4)
  const host = mixedReflectance({ ...NO_ROCK, parts: { host: 1 } }, WAVELENGTHS)
  const dark = mixedReflectance({ ...NO_ROCK, parts: { sulfide: 1 } }, WAVELENGTHS)
  const both = mixedReflectance({ ...NO_ROCK, parts: { host: 0.5, sulfide: 0.5 } }, WAVELENGTHS)
  for (const i of [100, 1000, 1850]) {
    const g = Math.sqrt(1 - (w(host[i]) + w(dark[i])) / 2)
    expect(both[i]).toBeCloseTo((1 - g) / (1 + g), 6)
    expect(both[i]).toBeLessThan((host[i] + dark[i]) / 2)
  }
})

test('a pure mineral has all the absorption, a bare rock none', () => {
  const pure = { ...NO_ROCK, parts: { kaolinite: 1 } }
  expect(absorptionShares(pure, WAVELENGTHS)).toEqual([{ ingredient: 'kaolinite', share: 1 }])
  expect(absorptionShares({ ...NO_ROCK, parts: { host: 1 } }, WAVELENGTHS)).toEqual([])
})

test.skipIf(!gdal)('UTM coordinates agree with PROJ to a millimetre', () => {
  const corners = [
    { x: 471000, y: 7244000 },
    { x: 475000, y: 7247000 },
  ]
  const input = corners.map(({ x, y }) => `${x} ${y}`).join('\n')
  const text = execFileSync(
    'gdaltransform',
    ['-s_srs', `EPSG:${EPSG}`, '-t_srs', 'OGC:CRS84', '-output_xy'],
    { input, encoding: 'utf8' },
  )
  text
    .trim()
    .split('\n')
    .forEach((line, i) => {
      const [longitude, latitude] = line.split(' ').map(Number)
      expect(toDegrees(corners[i])[0]).toBeCloseTo(longitude, 8)
      expect(toDegrees(corners[i])[1]).toBeCloseTo(latitude, 8)
    })
})

interface GdalInfo {
  readonly size: readonly number[]
  readonly geoTransform: readonly number[]
  readonly coordinateSystem: { readonly wkt: string }
  readonly bands: readonly { readonly type: string; readonly noDataValue?: number | string }[]
}

test.skipIf(!gdal)('GDAL reads the rasters where they belong', () => {
  const info = (path: string): GdalInfo =>
    JSON.parse(execFileSync('gdalinfo', ['-json', join(SAMPLE_AREA, path)], { encoding: 'utf8' }))
  const terrain = info('ground/terrain.tif')
  expect(terrain.geoTransform).toEqual([470500, 20, 0, 7247500, 0, -20])
  expect(terrain.size).toEqual([250, 200])
  expect(terrain.bands[0].type).toBe('Float32')
  expect(terrain.coordinateSystem.wkt).toContain(`ID["EPSG",${EPSG}]`)
  const mica = info('truth/white-mica.tif')
  expect(mica.geoTransform).toEqual([471000, 20, 0, 7247000, 0, -20])
  expect(mica.bands[0].noDataValue).toBe('NaN')
})

test.skipIf(!gdal)('GDAL reads the outlines and the track', () => {
  const summary = (path: string) =>
    execFileSync('ogrinfo', ['-ro', '-so', '-al', join(SAMPLE_AREA, path)], { encoding: 'utf8' })
  expect(summary('ground/geology.geojson')).toContain('Feature Count: 6')
  expect(summary('ground/track.geojson')).toContain('Geometry: Line String')
})

test('outer rings run anticlockwise and are closed (RFC 7946 section 3.1.6)', () => {
  const { features } = JSON.parse(
    readFileSync(join(SAMPLE_AREA, 'ground/geology.geojson'), 'utf8'),
  ) as GeoJSON.FeatureCollection
  const polygons = features.flatMap(({ geometry }) =>
    geometry.type === 'Polygon' ? [geometry.coordinates] : [],
  )
  expect(polygons.length).toBe(5)
  for (const rings of polygons) {
    rings.forEach((ring, i) => {
      expect(ring[0]).toEqual(ring[ring.length - 1])
      const area = ring
        .slice(1)
        .reduce((sum, [x, y], k) => sum + ring[k][0] * y - x * ring[k][1], 0)
      expect(area > 0).toBe(i === 0)
    })
  }
})
