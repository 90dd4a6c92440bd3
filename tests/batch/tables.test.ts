/** The command line without scans, on a grid tied to nothing, and with a system that nobody stated. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { hasGdal, output } from '../layers/outside'
import { Layers, runMap, Scratch, type Ran } from './command'

const scratch = new Scratch()
afterAll(() => scratch.remove())

/** 25 samples every 200 units, copper rising to the north-east. */
function samples(west: number, south: number): string {
  const rows = Array.from({ length: 25 }, (_, i) => {
    const [column, row] = [i % 5, Math.floor(i / 5)]
    const copper = 100 + 40 * column + 25 * row + (i % 3)
    return `P${i},${west + 200 * column},${south + 200 * row},outcrop,${copper}`
  })
  return ['SampleID,Easting,Northing,Support,Cu_ppm', ...rows].join('\n') + '\n'
}

const copper = { name: 'copper', formula: 'column("Cu_ppm")', unit: 'ppm' }
const surface = { name: 'copper', value: 'copper', method: 'kriging', cell: 40, reach: 250 }
const recipe = (more: object) => ({ recipe: 1, indices: [copper], surfaces: [surface], ...more })

describe('tables alone', () => {
  const out = new Layers(scratch.path('alone'))
  let ran: Ran

  beforeAll(() => {
    const places = [{ file: 'samples.csv', crs: 'EPSG:32719' }]
    ran = runMap(
      ...['--places', scratch.put('alone-in/samples.csv', samples(470_000, 7_245_000))],
      ...['--recipe', scratch.json('alone.json', recipe({ places })), '--out', out.folder],
    )
  })

  test('are mapped without --scans', () => {
    expect([ran.code, ran.complained]).toEqual([0, ''])
    expect(out.rows('stations.csv')).toHaveLength(25)
    expect(out.rows('scans.csv')).toEqual([])
    expect(out.text('scans.csv')).toMatch(/^scan,file,station,.*,class,copper,copper error\r\n$/)
    expect(out.row('stations.csv', 'station', 'P7')).toMatchObject({
      scans: '0',
      easting: '470400.00',
      northing: '7245200.00',
      crs: 'EPSG:32719',
      placed_by: 'table',
      check: '',
      mineral: '',
      copper: '206.000',
    })
    expect(out.rows('problems.csv')).toEqual([])
  })

  test('give a surface', () => {
    expect(out.report.surfaces[0]).toMatchObject({ failure: null, stations: 25 })
    expect(out.names).toContain('copper.tif')
  })
})

describe('a projected table whose system nobody stated', () => {
  const out = new Layers(scratch.path('unstated'))
  let ran: Ran

  beforeAll(() => {
    const places = scratch.put('unstated-in/samples.csv', samples(470_000, 7_245_000))
    const words = ['--recipe', scratch.json('unstated.json', recipe({}))]
    ran = runMap('--places', places, ...words, '--out', out.folder)
  })

  test('is refused once, in words, and nothing is guessed', () => {
    const [problem, ...others] = out.rows('problems.csv')
    expect(others).toEqual([])
    expect(problem).toMatchObject({ file: 'samples.csv', line: '' })
    expect(problem.problem).toMatch(/coordinate system.*Easting.*Northing/)
    expect(problem.done).toMatch(/not used.*EPSG/)
    expect(out.rows('stations.csv')).toEqual([])
    expect(out.report.notes.join()).toContain('samples.csv was not used')
    expect(ran.code).toBe(0)
  })

  test('its columns may be named all the same', () => {
    expect(ran.complained).toBe('')
    expect(out.report.surfaces[0].failure).toMatch(/needs at least 5|0 stations|has 0/)
  })
})

describe('a rule for a table with a system that does not exist', () => {
  test('is a problem of that table and stops nothing', () => {
    const out = new Layers(scratch.path('unknown'))
    const places = [{ file: 'samples.csv', crs: 'EPSG:999999' }]
    const ran = runMap(
      ...['--places', scratch.put('unknown-in/samples.csv', samples(470_000, 7_245_000))],
      ...['--recipe', scratch.json('unknown.json', recipe({ places })), '--out', out.folder],
    )
    expect(ran.code).toBe(0)
    const [problem] = out.rows('problems.csv')
    expect(problem.file).toBe('samples.csv')
    expect(problem.problem).toContain('EPSG:999999')
  })
})

describe('a grid tied to nothing', () => {
  const out = new Layers(scratch.path('local'))
  let ran: Ran

  beforeAll(() => {
    ran = runMap(
      ...['--places', scratch.put('local-in/samples.csv', samples(1000, 2000))],
      ...['--recipe', scratch.json('local.json', recipe({ crs: 'local:m' })), '--out', out.folder],
    )
  })

  test('has no longitude and latitude, no GeoJSON, and the report says so', () => {
    expect([ran.code, ran.complained]).toEqual([0, ''])
    for (const { longitude, latitude, crs, easting } of out.rows('stations.csv')) {
      expect([longitude, latitude, crs]).toEqual(['', '', 'local:m'])
      expect(easting).not.toBe('')
    }
    expect(out.names.filter((name) => name.endsWith('.geojson'))).toEqual([])
    expect(out.report.crs).toMatchObject({ code: 'local:m', geojson: false })
    expect(out.report.crs.note).toMatch(/no longitude, latitude or GeoJSON/)
    expect(out.report.surfaces[0].files).toEqual(['copper.tif'])
  })

  test.skipIf(!hasGdal)(
    'has a raster that GDAL reads without a system, on the grid’s cells',
    () => {
      const info = JSON.parse(output('gdalinfo', ['-json', out.path('copper.tif')])) as {
        geoTransform: number[]
        coordinateSystem?: { wkt: string }
      }
      expect(info.coordinateSystem?.wkt ?? '').not.toMatch(/EPSG|PROJCRS|GEOGCRS/)
      const [west, cell, , north, , down] = info.geoTransform
      expect([cell, down, west % 40, north % 40]).toEqual([40, -40, 0, 0])
    },
  )
})
