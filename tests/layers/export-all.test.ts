/** Every file of the contract (design, "File contracts"), read back by Python and GDAL. */
import { describe, expect, test } from 'vitest'
import { zipLayers } from '../../src/layers/bundle'
import { LIST_SEPARATOR } from '../../src/layers/columns'
import { exportLayers, planLayers } from '../../src/layers/export-all'
import { describeInput } from '../../src/layers/report'
import { firstDifference } from './difference'
import { asWritten } from './grid'
import { bandByGdal, hasGdal, hasPython, inFolder, output, put, python } from './outside'
import { prospect } from './prospect'
import { rfc7946Faults } from './rfc7946'

const text = (bytes: Uint8Array | undefined): string => new TextDecoder().decode(bytes)

/** The contract's own words, from the design. */
const SCANS =
  'scan, file, station, target, support, hole, depth, longitude, latitude, easting, northing, elevation, crs, placed_by, place_error, check, check_reasons, noise, mineral, group, share, fit, doubt, class'
const INDICES = [
  'white mica position',
  'white mica position error',
  'copper',
  'copper error',
] as const

const READ_CSV = `import csv, json, sys
with open(sys.argv[1], encoding='utf-8', newline='') as f:
    print(json.dumps(list(csv.DictReader(f, strict=True))))`
type Row = Record<string, string>
const rowsOf = (bytes: Uint8Array | undefined): Row[] =>
  inFolder((folder) => python(READ_CSV, put(folder, 'x.csv', bytes ?? new Uint8Array())) as Row[])

const files = exportLayers(prospect())

test('one file for each name, clashes told apart, none for a surface that failed', () => {
  expect([...files.keys()]).toEqual([
    'scans.csv',
    'minerals.csv',
    'stations.csv',
    'stations.geojson',
    'mica_ Al_OH.tif',
    'mica_ Al_OH.contours.geojson',
    'mica_ Al_OH.bands.geojson',
    'MICA_ Al_OH 2.tif',
    'MICA_ Al_OH 2.contours.geojson',
    'MICA_ Al_OH 2.bands.geojson',
    'problems.csv',
    'report.json',
  ])
})

const geometryOf = (name: string) =>
  name === 'stations.geojson'
    ? 'Point'
    : name.endsWith('.bands.geojson')
      ? 'Polygon'
      : 'Line String'

test('a surface called stations does not write its style over that of the stations', () => {
  const input = prospect()
  const [first] = input.surfaces
  const surfaces = [{ ...first, rule: { ...first.rule, name: 'Stations' } }]
  const legend = { classes: [] }
  const names = planLayers({ ...input, surfaces, legend }).map(({ file }) => file.toLowerCase())
  expect(names).toContain('stations.sld')
  expect(names).toContain('stations 2.sld')
  expect(new Set(names).size).toBe(names.length)
})

describe.skipIf(!hasPython)('tables as Python reads them (skipped without python3)', () => {
  test('scans.csv has the contract’s columns, then each index and its error', () => {
    const rows = rowsOf(files.get('scans.csv'))
    expect(Object.keys(rows[0])).toEqual([...SCANS.split(', '), ...INDICES])
    expect(rows[0]).toMatchObject({
      scan: 'A1',
      file: 'scans/day 1, morning.txt',
      station: 'A',
      easting: '412500.00',
      northing: '7301000.00',
      elevation: '2405.50',
      crs: 'EPSG:32719',
      place_error: '3.00',
      noise: '0.000420',
      share: '0.612',
      fit: '0.988',
      'white mica position': '2208.12',
      'white mica position error': '0.346',
      copper: '',
      'copper error': '',
    })
    expect(rows[1]).toMatchObject({
      scan: "'=B1",
      station: "'-B",
      check_reasons: ['detector step', 'wet'].join(LIST_SEPARATOR),
      doubt: 'the 1900 feature is broad, "wet" perhaps',
      copper: '4200.500',
    })
    expect(rows[2]).toMatchObject({ station: '', longitude: '', easting: '', crs: '' })
  })

  test('stations.csv has the same, with their number of scans', () => {
    const rows = rowsOf(files.get('stations.csv'))
    const wanted = [
      'station',
      'scans',
      ...SCANS.split(', ').filter((n) => !/^(scan|station)$/.test(n)),
    ]
    expect(Object.keys(rows[0])).toEqual([...wanted, ...INDICES])
    expect(rows.map((row) => row.scans)).toEqual(['1', '1', '0'])
  })

  test('minerals.csv is long, and silence is said', () => {
    expect(rowsOf(files.get('minerals.csv'))).toEqual([
      {
        scan: 'A1',
        rank: '1',
        mineral: 'muscovite',
        group: 'white mica',
        share: '0.612',
        fit: '0.988',
      },
      {
        scan: 'A1',
        rank: '2',
        mineral: 'kaolinite',
        group: 'kaolin',
        share: '0.200',
        fit: '0.700',
      },
      { scan: "'=B1", rank: '1', mineral: 'nothing diagnostic', group: '', share: '', fit: '' },
    ])
  })

  test('problems.csv', () => {
    expect(rowsOf(files.get('problems.csv'))).toEqual([
      { file: 'bad.txt', line: '12', problem: 'Not a number: “x”', done: 'Left out, mend it.' },
      { file: 'empty.txt', line: '', problem: 'The file is empty.', done: 'Left out.' },
    ])
  })

  test('the zip opens, passes its checksums and holds the files as they are', () => {
    const listed = inFolder((folder) =>
      python(
        `import hashlib, json, sys, zipfile
with zipfile.ZipFile(sys.argv[1]) as z:
    assert z.testzip() is None
    print(json.dumps([[i.filename, i.date_time[0], hashlib.sha256(z.read(i)).hexdigest()] for i in z.infolist()]))`,
        put(folder, 'layers.zip', zipLayers(files)),
      ),
    )
    expect(listed).toEqual(
      [...files].map(([name, bytes]) => [name, 1980, describeInput(name, '', bytes, 0).sha256]),
    )
  })
})

describe('GeoJSON', () => {
  const vectors = [...files].filter(([name]) => name.endsWith('.geojson'))

  test.each(vectors)('%s passes RFC 7946', (_, bytes) => {
    expect(rfc7946Faults(text(bytes))).toEqual([])
  })

  test('stations have the table’s columns; text is as it is, numbers are numbers', () => {
    const { features } = JSON.parse(text(files.get('stations.geojson'))) as {
      features: { properties: Record<string, unknown> }[]
    }
    expect(features[1].properties).toMatchObject({
      station: '-B',
      easting: 412860.13,
      'white mica position': null,
      copper: 4200.5,
      group: null,
    })
  })

  test.skipIf(!hasGdal)('ogrinfo reads each (skipped where gdal-bin is not installed)', () => {
    inFolder((folder) => {
      for (const [name, bytes] of vectors) {
        const summary = output('ogrinfo', ['-so', '-al', put(folder, name, bytes)])
        expect(summary).toContain('ID["EPSG",4326]')
        expect(summary).toContain(geometryOf(name))
      }
      const stations = output('ogrinfo', ['-so', '-al', `${folder}/stations.geojson`])
      expect(stations).toContain('Feature Count: 3')
      expect(stations).toMatch(/white mica position: Real/)
    })
  })
})

test.skipIf(!hasGdal)('rasters: estimate, variance and its root (skipped without gdal-bin)', () => {
  const { bands } = prospect().surfaces[0]
  inFolder((folder) => {
    const tif = put(folder, 'a.tif', files.get('mica_ Al_OH.tif') ?? new Uint8Array())
    expect(firstDifference(bandByGdal(folder, tif, 1), asWritten(bands?.estimate ?? []))).toBeNull()
    expect(firstDifference(bandByGdal(folder, tif, 2), asWritten(bands?.variance ?? []))).toBeNull()
    expect(
      firstDifference(
        bandByGdal(folder, tif, 3),
        asWritten((bands?.variance ?? new Float64Array()).map(Math.sqrt)),
      ),
    ).toBeNull()
    const units = output('gdalinfo', [tif]).match(/Unit Type: .*/g)
    expect(units).toEqual(['Unit Type: nm', 'Unit Type: nm²', 'Unit Type: nm'])
    const one = put(folder, 'b.tif', files.get('MICA_ Al_OH 2.tif') ?? new Uint8Array())
    expect(output('gdalinfo', [one]).match(/^Band /gm)?.length).toBe(1)
  })
})

test('a local grid has rasters and tables without longitude, no GeoJSON, and the report says so', () => {
  const local = exportLayers(prospect('local:ft'))
  expect([...local.keys()].filter((name) => name.endsWith('.geojson'))).toEqual([])
  expect(local.has('mica_ Al_OH.tif')).toBe(true)
  expect(text(local.get('scans.csv'))).toContain(',,,412500.00,7301000.00,2405.50,local:ft,')
  const report = JSON.parse(text(local.get('report.json'))) as { crs: Record<string, unknown> }
  expect(report.crs).toMatchObject({ code: 'local:ft', geojson: false })
  expect(report.crs.note).toMatch(/tied to nothing/)
})

describe('report.json', () => {
  const report = JSON.parse(text(files.get('report.json'))) as Record<string, never>

  test('tells what was read, placed, doubted and left out, and why', () => {
    expect(report.read).toMatchObject({ scans: 3, stations: 3, problems: 2 })
    expect(report.placed).toEqual({ scans: 2, unplaced: 1, by: [{ placed_by: 'table', scans: 2 }] })
    expect(report.checked).toMatchObject({ sound: 1, doubtful: 1, set_aside: 1 })
    expect(report.checked).toMatchObject({
      doubted: [{ scan: '=B1', why: ['detector step', 'wet'] }],
    })
    expect(report.left_out).toMatchObject({
      set_aside: [{ scan: 'C "old"' }],
      unplaced: [{ scan: 'C "old"', why: 'No sample has this name.' }],
    })
    expect(report.indices[0]).toMatchObject({
      name: 'white mica position',
      unit: 'nm',
      scans_measured: 2,
      scans_missing: [{ why: 'condition false', scans: 1 }],
    })
    expect(report.inputs).toEqual(prospect().facts.inputs)
  })

  test('tells each surface’s model, testing, grid and files', () => {
    const [mica, , failed] = report.surfaces as Record<string, unknown>[]
    expect(mica).toMatchObject({
      name: 'mica: Al–OH',
      files: ['mica_ Al_OH.tif', 'mica_ Al_OH.contours.geojson', 'mica_ Al_OH.bands.geojson'],
      grid: { west: 412_300, north: 7_301_260, cell: 20, columns: 60, rows: 40, crs: 'EPSG:32719' },
      model: { nugget: 1 },
      leave_one_out: { stations: 2, rmse: 2.5 },
      unit: 'nm',
      reach: 250,
    })
    // A surface named like a table has none of the table's files.
    expect(failed).toMatchObject({ files: [], grid: null, failure: 'Two stations are too few.' })
    expect((report.files as { file: string }[]).map(({ file }) => file)).toEqual([...files.keys()])
  })
})

test('the same input gives the same bytes, the zip’s too', () => {
  const again = exportLayers(prospect())
  expect([...again]).toEqual([...files])
  expect(zipLayers(again)).toEqual(zipLayers(files))
  expect(zipLayers(Object.fromEntries(again))).toEqual(zipLayers(files))
})

test('an export can be stopped between files, and files be made one at a time', () => {
  const seen: string[] = []
  const stop = (): Map<string, Uint8Array> =>
    exportLayers(prospect(), (file, done, total) => {
      seen.push(`${file} ${done}/${total}`)
      if (done === 2) throw new Error('stopped')
    })
  expect(stop).toThrow('stopped')
  expect(seen).toEqual(['scans.csv 0/12', 'minerals.csv 1/12', 'stations.csv 2/12'])
  const plan = planLayers(prospect())
  expect(plan.map(({ file }) => file)).toEqual([...files.keys()])
  expect(plan[4].write()).toEqual(files.get('mica_ Al_OH.tif'))
})

test('an export of nothing still has its tables, each with a header', () => {
  const nothing = {
    ...prospect(),
    scans: [],
    stations: [],
    minerals: [],
    surfaces: [],
    problems: [],
  }
  const empty = exportLayers({ ...nothing, indices: [] })
  expect(text(empty.get('scans.csv'))).toBe(SCANS.split(', ').join(',') + '\r\n')
  expect(text(empty.get('problems.csv'))).toBe('file,line,problem,done\r\n')
  expect(rfc7946Faults(text(empty.get('stations.geojson')))).toEqual([])
  expect(JSON.parse(text(empty.get('report.json')))).toMatchObject({ read: { scans: 0 } })
})
