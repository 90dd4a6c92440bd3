/** GeoTIFF read back by GDAL, which did not write it. */
import { fromArrayBuffer } from 'geotiff'
import { beforeAll, describe, expect, test } from 'vitest'
import { geotiff, type GeotiffBand } from '../../src/layers/geotiff'
import { halved, NODATA } from '../../src/layers/raster-tiles'
import { loadEpsgTable, openCrs } from '../../src/places/crs'
import type { Grid } from '../../src/surfaces/model'
import { firstDifference } from './difference'
import { asWritten, discOfPositions, gridOf } from './grid'
import { bandByGdal, hasGdal, inFolder, output, put } from './outside'

interface GdalBand {
  readonly type: string
  readonly block: [number, number]
  readonly noDataValue: number
  readonly description?: string
  readonly unit?: string
  readonly overviews?: { readonly size: [number, number] }[]
  readonly metadata: Readonly<Record<string, Readonly<Record<string, string>>>>
}
interface GdalInfo {
  readonly size: [number, number]
  readonly geoTransform: number[]
  readonly coordinateSystem?: { readonly wkt: string }
  readonly metadata: Readonly<Record<string, Readonly<Record<string, string>>>>
  readonly bands: GdalBand[]
}

const info = (tif: string): GdalInfo => JSON.parse(output('gdalinfo', ['-json', tif])) as GdalInfo
const epsgOf = (tif: string): string => output('gdalsrsinfo', ['-o', 'epsg', tif]).trim()

function bandsOf(grid: Grid): GeotiffBand[] {
  const estimate = discOfPositions(grid)
  const variance = estimate.map((value) => value - 2190)
  return [
    { values: estimate, description: 'white mica position', unit: 'nm' },
    { values: variance, description: 'kriging variance', unit: 'nm²' },
    { values: variance.map(Math.sqrt), description: 'standard error <of "it"> & more', unit: 'nm' },
  ]
}

beforeAll(loadEpsgTable)

describe.skipIf(!hasGdal)('as GDAL reads it (skipped where gdal-bin is not installed)', () => {
  test('EPSG, origin, cell, nodata, names, units and every value of every band', () => {
    const grid = gridOf(517, 300)
    const bands = bandsOf(grid)
    inFolder((folder) => {
      const bytes = geotiff({ title: 'mica', grid, crs: openCrs('EPSG:32719'), bands })
      const tif = put(folder, 'mica.tif', bytes)
      const read = info(tif)
      expect(read.size).toEqual([517, 300])
      expect(read.geoTransform).toEqual([412_300, 20, 0, 7_301_260, 0, -20])
      expect(epsgOf(tif)).toBe('EPSG:32719')
      expect(read.metadata['']).toMatchObject({
        AREA_OR_POINT: 'Area',
        TIFFTAG_IMAGEDESCRIPTION: 'mica',
        CRS: 'EPSG:32719, WGS 84 / UTM zone 19S',
      })
      expect(read.metadata['IMAGE_STRUCTURE']).toMatchObject({
        COMPRESSION: 'DEFLATE',
        INTERLEAVE: 'BAND',
      })
      expect(read.bands.map((band) => [band.type, band.block, band.noDataValue])).toEqual(
        bands.map(() => ['Float32', [256, 256], -9999]),
      )
      expect(read.bands.map((band) => [band.description, band.unit])).toEqual(
        bands.map((band) => [band.description, band.unit]),
      )
      bands.forEach((band, i) => {
        expect(firstDifference(bandByGdal(folder, tif, i + 1), asWritten(band.values))).toBeNull()
      })
    })
  })

  test('its statistics are GDAL’s own', () => {
    const grid = gridOf(120, 90)
    inFolder((folder) => {
      const bands = bandsOf(grid)
      const tif = put(
        folder,
        'mica.tif',
        geotiff({ title: 'mica', grid, crs: openCrs('EPSG:32719'), bands }),
      )
      // A copy without ours, for which GDAL computes them.
      const plain = `${folder}/plain.tif`
      output('gdal_translate', ['-q', '-stats', '-co', 'PROFILE=BASELINE', tif, plain])
      const read = JSON.parse(output('gdalinfo', ['-json', '-stats', plain])) as GdalInfo
      info(tif).bands.forEach((band, i) => {
        const theirs = read.bands[i].metadata['']
        for (const name of ['MINIMUM', 'MAXIMUM', 'MEAN', 'STDDEV']) {
          const key = `STATISTICS_${name}`
          expect(Number(band.metadata[''][key])).toBeCloseTo(Number(theirs[key]), 6)
        }
      })
    })
  })

  test.each([
    ['EPSG:27700', 'metre'],
    ['EPSG:28992', 'metre'],
    ['EPSG:2264', 'US survey foot'],
    ['EPSG:4326', 'degree'],
    ['EPSG:5042', 'metre'],
  ])('%s, in %ss', (code, unit) => {
    const grid = { west: 10, north: 20, cell: 0.5, columns: 3, rows: 2 }
    inFolder((folder) => {
      const values = [1, 2, 3, 4, 5, NaN]
      const bands = [{ values, description: 'copper', unit: 'ppm' }]
      const tif = put(folder, 'x.tif', geotiff({ title: 'x', grid, crs: openCrs(code), bands }))
      expect(epsgOf(tif)).toBe(code)
      expect(info(tif).coordinateSystem?.wkt).toContain(`UNIT["${unit}"`)
      expect(firstDifference(bandByGdal(folder, tif, 1), asWritten(values))).toBeNull()
    })
  })

  test('a local grid lies where it should, has no CRS, and says so', () => {
    const grid = { west: -40, north: 100, cell: 5, columns: 4, rows: 3 }
    inFolder((folder) => {
      const bands = [{ values: new Float64Array(12).fill(2.5), description: 'depth', unit: '' }]
      const crs = openCrs('local:m')
      const read = info(put(folder, 'x.tif', geotiff({ title: 'x', grid, crs, bands })))
      expect(read.coordinateSystem?.wkt ?? '').toBe('')
      expect(read.geoTransform).toEqual([-40, 5, 0, 100, 0, -5])
      expect(read.metadata[''].CRS).toBe('local:m, local grid in m, tied to nothing')
    })
  })

  test('what Float32 cannot hold is nodata, and a value that equals nodata is kept beside it', () => {
    const grid = { west: 0, north: 0, cell: 1, columns: 5, rows: 1 }
    inFolder((folder) => {
      const values = [1e300, -Infinity, NaN, -9999, 1e-30]
      const bands = [{ values, description: 'odd', unit: '' }]
      const crs = openCrs('EPSG:32719')
      const tif = put(folder, 'x.tif', geotiff({ title: 'x', grid, crs, bands }))
      const read = bandByGdal(folder, tif, 1)
      expect([...read]).toEqual([-9999, -9999, -9999, -9998.9990234375, Math.fround(1e-30)])
    })
  })

  test.each([
    [1, 1],
    [256, 256],
    [257, 1],
    [1, 513],
  ])('%i x %i cells, with and without a value', (columns, rows) => {
    const grid = gridOf(columns, rows)
    const count = columns * rows
    const bands = [
      { values: Float64Array.from({ length: count }, (_, i) => i / 3), description: 'a', unit: '' },
      { values: new Float64Array(count).fill(NaN), description: 'b', unit: '' },
    ]
    inFolder((folder) => {
      const crs = openCrs('EPSG:32719')
      const tif = put(folder, 'x.tif', geotiff({ title: 'x', grid, crs, bands }))
      expect(info(tif).size).toEqual([columns, rows])
      bands.forEach((band, i) => {
        expect(firstDifference(bandByGdal(folder, tif, i + 1), asWritten(band.values))).toBeNull()
      })
    })
  })

  test('overviews are inside, and a cell is the mean of those with a value', () => {
    const grid = gridOf(1025, 700)
    inFolder((folder) => {
      const values = discOfPositions(grid)
      const bands = [{ values, description: 'position', unit: 'nm' }]
      const crs = openCrs('EPSG:32719')
      const tif = put(folder, 'x.tif', geotiff({ title: 'x', grid, crs, bands }))
      expect(info(tif).bands[0].overviews?.map(({ size }) => size)).toEqual([
        [513, 350],
        [257, 175],
        [129, 88],
      ])
      const whole = { columns: 1025, rows: 700, values: asWritten(values) }
      const half = `${folder}/half.tif`
      output('gdal_translate', ['-q', '-oo', 'OVERVIEW_LEVEL=0', tif, half])
      expect(firstDifference(bandByGdal(folder, half, 1), halved(whole).values)).toBeNull()
    })
  })
})

describe.skipIf(!hasGdal)('numbers that stand for names', () => {
  test('stay whole in overviews, have no statistics, and their names stand in the metadata', () => {
    const grid = gridOf(700, 600)
    inFolder((folder) => {
      const values = discOfPositions(grid).map((value) => Math.round(value) % 5)
      const bands = [{ values, description: 'number of the class', unit: '', codes: true }]
      const notes = [['CLASS_1', 'mica & “clay” <1>']] as const
      const crs = openCrs('EPSG:32719')
      const tif = put(folder, 'x.tif', geotiff({ title: 'x', grid, crs, bands, notes }))
      const told = info(tif)
      expect(told.metadata['']).toMatchObject({ CLASS_1: 'mica & “clay” <1>' })
      expect(Object.keys(told.bands[0].metadata[''] ?? {})).toEqual([])
      const half = `${folder}/half.tif`
      output('gdal_translate', ['-q', '-oo', 'OVERVIEW_LEVEL=0', tif, half])
      const written = asWritten(values)
      bandByGdal(folder, half, 1).forEach((code, i) => {
        const at = 2 * Math.floor(i / 350) * 700 + 2 * (i % 350)
        const four = [at, at + 1, at + 700, at + 701].map((cell) => written[cell])
        const known = four.filter((cell) => cell !== NODATA)
        const votes = (cell: number) => known.filter((each) => each === cell).length
        if (known.length === 0) expect(code).toBe(NODATA)
        else expect(votes(code)).toBe(Math.max(...known.map(votes)))
      })
    })
  })
})

test('halving leaves nodata out of the mean', () => {
  const values = Float32Array.from([1, 3, NODATA, 5, NODATA, NODATA, NODATA, 7, 9])
  const { columns, rows, values: means } = halved({ columns: 3, rows: 3, values })
  expect([columns, rows]).toEqual([2, 2])
  expect([...means]).toEqual([3, NODATA, 7, 9])
})

test('the general-purpose reader of the app reads it too', async () => {
  const grid = gridOf(300, 260)
  const bands = bandsOf(grid)
  const bytes = geotiff({ title: 'mica', grid, crs: openCrs('EPSG:32719'), bands })
  const file = await fromArrayBuffer(bytes.slice().buffer)
  const image = await file.getImage()
  expect(image.getOrigin().slice(0, 2)).toEqual([412_300, 7_301_260])
  expect(image.getGDALNoData()).toBe(-9999)
  const rasters = await image.readRasters()
  bands.forEach((band, i) =>
    expect(firstDifference(rasters[i] as Float32Array, asWritten(band.values))).toBeNull(),
  )
})

test('the same input gives the same bytes', () => {
  const grid = gridOf(300, 260)
  const write = (): Uint8Array =>
    geotiff({ title: 'mica', grid, crs: openCrs('EPSG:32719'), bands: bandsOf(grid) })
  expect(firstDifference(write(), write())).toBeNull()
})

describe('what cannot be written is refused in words', () => {
  const grid = gridOf(2, 2)
  const bands = [{ values: [1, 2, 3], description: 'copper', unit: 'ppm' }]
  const crs = openCrs('EPSG:32719')

  test('too few values', () => {
    expect(() => geotiff({ title: 'x', grid, crs, bands })).toThrow(/copper: 3 values for 4 cells/)
  })
  test('no cell', () => {
    const empty = { ...grid, rows: 0 }
    expect(() => geotiff({ title: 'x', grid: empty, crs, bands })).toThrow(/no cell/)
  })
  test('far too many cells', () => {
    const huge = { ...grid, columns: 1e6, rows: 1e6 }
    expect(() => geotiff({ title: 'x', grid: huge, crs, bands })).toThrow(/larger cell/)
  })
  test('an EPSG code that no key holds', () => {
    const odd = { ...crs, code: 'EPSG:102100' }
    const four = [{ ...bands[0], values: [1, 2, 3, 4] }]
    expect(() => geotiff({ title: 'x', grid, crs: odd, bands: four })).toThrow(/102100/)
  })
})
