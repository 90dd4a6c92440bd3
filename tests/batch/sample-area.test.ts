/**
 * The sample area through the command line: every file of the contract
 * (design, "File contracts"), read back by GDAL and Python, the same bytes from any number of
 * workers, and the floors against the truth. The floors hold for the invented area; they are no
 * evidence of how the program does on rock.
 */
import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { validateStyleMin, type StyleSpecification } from '@maplibre/maplibre-gl-style-spec'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { hasGdal, hasPython, output, python } from '../layers/outside'
import { rfc7946Faults } from '../layers/rfc7946'
import { scoreMica, scoreMinerals } from '../sample-area/score'
import { Layers, runMap, Scratch, type Ran } from './command'

const RECIPE = JSON.parse(readFileSync('sample-area/recipe.json', 'utf8')) as {
  crs: string
  indices: { name: string }[]
  surfaces: { name: string; cell: number; method: string }[]
}
const WORDS = [
  ...['--scans', 'sample-area/scans', '--places', 'sample-area/places'],
  ...['--recipe', 'sample-area/recipe.json'],
]
/** From `hole` on both tables have the same columns, in the contract's order. */
const SHARED =
  'support, hole, depth, longitude, latitude, easting, northing, elevation, crs, placed_by, place_error, check, check_reasons, noise, mineral, group, share, fit, doubt, class'

const scratch = new Scratch()
const out = new Layers(scratch.path('out'))
const alone = new Layers(scratch.path('alone'))
const ran: Ran[] = []

beforeAll(() => {
  ran.push(runMap(...WORDS, '--threads', '2', '--out', out.folder))
  ran.push(runMap(...WORDS, '--threads', '1', '--out', alone.folder))
})
afterAll(() => scratch.remove())

test('it ends with 0 and no complaint', () => {
  for (const { code, complained } of ran) expect([code, complained]).toEqual([0, ''])
})

test('another run, with one worker instead of two, gives the same bytes', () => {
  expect(alone.names).toEqual(out.names)
  for (const name of out.names) {
    const same = readFileSync(out.path(name)).equals(readFileSync(alone.path(name)))
    expect(same, name).toBe(true)
  }
})

test('every file of the contract is there', () => {
  const tables = ['scans.csv', 'minerals.csv', 'stations.csv', 'problems.csv']
  const surfaces = RECIPE.surfaces.flatMap(({ name }) => [
    `${name}.tif`,
    `${name}.contours.geojson`,
    `${name}.bands.geojson`,
  ])
  const styles = [
    'stations.sld',
    'map-style.json',
    ...RECIPE.surfaces.map(({ name }) => `${name}.sld`),
  ]
  const others = ['stations.geojson', 'stations.gpx', 'report.json']
  for (const name of [...tables, ...others, ...styles, ...surfaces]) {
    expect(out.names).toContain(name)
  }
  const report = JSON.parse(out.text('report.json')) as { files: { file: string }[] }
  expect(report.files.map(({ file }) => file).sort()).toEqual([...out.names].sort())
})

test('the map style passes the specification’s validator, and its files lie beside it', () => {
  const style = JSON.parse(out.text('map-style.json')) as StyleSpecification
  expect(validateStyleMin(style)).toEqual([])
  const data = Object.values(style.sources).map((source) => ('data' in source ? source.data : ''))
  expect(data.length).toBeGreaterThan(RECIPE.surfaces.length)
  for (const file of data) expect(out.names).toContain(decodeURIComponent(String(file)))
})

test.skipIf(!hasGdal)('GDAL reads a waypoint a station (skipped without gdal-bin)', () => {
  const told = output('ogrinfo', ['-ro', '-so', out.path('stations.gpx'), 'waypoints'])
  const { features } = JSON.parse(out.text('stations.geojson')) as { features: unknown[] }
  expect(features.length).toBeGreaterThan(100)
  expect(told).toContain(`Feature Count: ${features.length}`)
})

describe.skipIf(!hasPython)('tables as Python’s csv module reads them (skipped without it)', () => {
  const indices = RECIPE.indices.flatMap(({ name }) => [name, `${name} error`])
  const headers: Readonly<Record<string, readonly string[]>> = {
    'scans.csv': ['scan', 'file', 'station', 'target', ...SHARED.split(', '), ...indices],
    'stations.csv': ['station', 'scans', 'file', 'target', ...SHARED.split(', '), ...indices],
    'minerals.csv': ['scan', 'rank', 'mineral', 'group', 'share', 'fit'],
    'problems.csv': ['file', 'line', 'problem', 'done'],
  }
  const read = `import csv, json, sys
with open(sys.argv[1], encoding='utf-8', newline='') as f:
    rows = list(csv.reader(f, strict=True))
print(json.dumps([rows[0], len(rows) - 1, sorted(set(map(len, rows)))]))`

  for (const [name, columns] of Object.entries(headers)) {
    test(`${name}: the columns in their order, every row as long as the header`, () => {
      const [header, rows, widths] = python(read, out.path(name)) as [string[], number, number[]]
      expect(header).toEqual(columns)
      expect(rows).toBeGreaterThan(0)
      expect(widths).toEqual([columns.length])
    })
  }

  test('UTF-8 without a mark, CRLF, and no number with a decimal comma', () => {
    for (const name of Object.keys(headers)) {
      const text = out.text(name)
      expect(text.charCodeAt(0)).not.toBe(0xfeff)
      expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
      expect(text.endsWith('\r\n')).toBe(true)
    }
  })
})

test('ranks begin at 1 and shares fall; ‘nothing diagnostic’ stands alone', () => {
  let last = { scan: '', rank: 0, share: 1 }
  for (const { scan, rank, mineral, share } of out.rows('minerals.csv')) {
    const next = scan === last.scan && Number(rank) > 1
    expect(Number(rank)).toBe(next ? last.rank + 1 : 1)
    if (next) expect(Number(share)).toBeLessThanOrEqual(last.share)
    if (mineral === 'nothing diagnostic') expect([rank, share]).toEqual(['1', ''])
    else expect(Number(share)).toBeLessThanOrEqual(1)
    last = { scan, rank: Number(rank), share: Number(share) }
  }
})

test('report.json holds its members, and the SHA-256 of every input', () => {
  const { report } = out
  for (const unit of ['easting', 'elevation', 'share', 'noise']) {
    expect(report.units[unit], unit).toMatch(/./)
  }
  expect(report.versions[0].name).toBe('Aureole')
  expect(report.files.map(({ file }) => file).sort()).toEqual(out.names)
  expect(report.left_out.unplaced.map(({ scan }) => scan)).toEqual(['C99_1', 'C99_2', 'C99_3'])
  for (const { name, files, model, leave_one_out, grid } of report.surfaces) {
    expect(files).toEqual([`${name}.tif`, `${name}.contours.geojson`, `${name}.bands.geojson`])
    expect(leave_one_out?.rmse).toBeGreaterThan(0)
    expect(grid?.crs).toBe(RECIPE.crs)
    if (name !== 'copper') expect(model).toMatchObject({ nugget: expect.any(Number) as number })
  }
  for (const { file, kind, sha256 } of report.inputs) {
    const folder = kind === 'scans' ? 'sample-area/scans' : 'sample-area/places'
    const path = kind === 'recipe' ? 'sample-area/recipe.json' : join(folder, file)
    const digest = createHash('sha256').update(readFileSync(path)).digest('hex')
    expect(sha256, file).toBe(digest)
  }
})

interface GdalInfo {
  readonly size: readonly [number, number]
  readonly geoTransform: readonly number[]
  readonly coordinateSystem: { readonly wkt: string }
  readonly bands: readonly { readonly type: string; readonly noDataValue: number }[]
}

describe.skipIf(!hasGdal)('rasters as gdalinfo reads them (skipped without GDAL)', () => {
  for (const { name, cell, method } of RECIPE.surfaces) {
    test(`${name}: EPSG, origin, cell, nodata and bands`, () => {
      const info = JSON.parse(output('gdalinfo', ['-json', out.path(`${name}.tif`)])) as GdalInfo
      const [west, dx, rowSkew, north, columnSkew, dy] = info.geoTransform
      const grid = out.report.surfaces.find((surface) => surface.name === name)?.grid
      expect(info.coordinateSystem.wkt).toMatch(/ID\["EPSG",32719\]\]$/)
      expect([dx, dy, rowSkew, columnSkew]).toEqual([cell, -cell, 0, 0])
      expect([west % cell, north % cell]).toEqual([0, 0])
      expect([west, north]).toEqual([grid?.west, grid?.north])
      expect(info.size).toEqual([grid?.columns, grid?.rows])
      const bands = method === 'inverse-distance' ? 1 : 3
      expect(info.bands).toHaveLength(bands)
      for (const band of info.bands) {
        expect([band.type, band.noDataValue]).toEqual(['Float32', -9999])
      }
    })
  }

  test.skipIf(!hasPython)(
    'the standard error is the root of the variance, blank where it is',
    () => {
      const compare = `import json, sys
from osgeo import gdal
import math, struct
gdal.UseExceptions()
d = gdal.Open(sys.argv[1])
n = d.RasterXSize * d.RasterYSize
b = [struct.unpack('%df' % n, d.GetRasterBand(i).ReadRaster(buf_type=gdal.GDT_Float32)) for i in (1, 2, 3)]
worst = 0; blank = 0; drawn = 0
for z, v, s in zip(*b):
    if z == -9999:
        blank += 1
        assert v == -9999 and s == -9999
    else:
        drawn += 1
        worst = max(worst, abs(s - math.sqrt(v)) / max(s, 1e-9))
print(json.dumps([worst, blank, drawn]))`
      const [worst, blank, drawn] = python(compare, out.path('mica.tif')) as number[]
      expect(worst).toBeLessThan(1e-6)
      expect(Math.min(blank, drawn)).toBeGreaterThan(100)
    },
  )
})

describe('GeoJSON', () => {
  const names = [
    'stations.geojson',
    ...RECIPE.surfaces.map(({ name }) => `${name}.contours.geojson`),
    ...RECIPE.surfaces.map(({ name }) => `${name}.bands.geojson`),
  ]

  test.each(names)('%s breaks no rule of RFC 7946', (name) => {
    expect(rfc7946Faults(out.text(name))).toEqual([])
  })

  test.skipIf(!hasGdal).each(names)('ogrinfo reads %s whole, on WGS 84', (name) => {
    const info = output('ogrinfo', ['-ro', '-so', '-al', out.path(name)])
    const { features } = JSON.parse(out.text(name)) as { features: unknown[] }
    expect(features.length).toBeGreaterThan(0)
    expect(info).toContain(`Feature Count: ${features.length}\n`)
    expect(info).toContain('GEOGCRS["WGS 84"')
  })

  test.skipIf(!hasGdal)('PROJ puts eastings and northings where longitude and latitude say', () => {
    const rows = out.rows('stations.csv')
    const degrees = rows.map(({ longitude, latitude }) => `${longitude} ${latitude}`).join('\n')
    const path = scratch.put('degrees.txt', degrees)
    const script = `gdaltransform -s_srs EPSG:4326 -t_srs EPSG:32719 -output_xy < '${path}'`
    const lines = output('sh', ['-c', script])
    lines
      .trim()
      .split('\n')
      .forEach((line, i) => {
        const [east, north] = line.split(' ').map(Number)
        const { station, easting, northing } = rows[i]
        const away = Math.hypot(east - Number(easting), north - Number(northing))
        // 7 decimals of a degree are 11 mm, 2 of a metre 5 mm.
        expect(away, station).toBeLessThan(0.03)
      })
  })
})

describe('floors against the truth of the invented area', () => {
  test('at least 90 % of sound scans get the right main mineral', () => {
    const score = scoreMinerals(out.text('scans.csv'))
    expect(score.scans).toBeGreaterThan(360)
    expect(score.accuracy).toBeGreaterThanOrEqual(0.9)
  })

  test('white mica position: RMSE ≤ 3 nm, bias ≤ 1 nm, nothing over the alunite core', async () => {
    const score = await scoreMica(out.path('mica.tif'))
    expect(score.cells).toBeGreaterThan(1000)
    expect(score.rmse).toBeLessThanOrEqual(3)
    expect(Math.abs(score.bias)).toBeLessThanOrEqual(1)
    expect(score.overCore).toBe(0)
  })
})
