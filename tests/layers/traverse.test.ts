/** The walk's files, read back by Python, GDAL and PROJ, which did not write them. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { exportLayers } from '../../src/layers/export-all'
import { traverseGpx } from '../../src/layers/traverse-gpx'
import { WALK_CAUTION } from '../../src/layers/traverse-layer'
import { openCrs } from '../../src/places/crs'
import { hasGdal, hasPython, inFolder, output, put, python } from './outside'
import { prospect } from './prospect'
import { rfc7946Faults } from './rfc7946'
import { METRES, walkIn } from './walk'

const text = (bytes: Uint8Array | undefined): string => new TextDecoder().decode(bytes)

const CRS = openCrs('EPSG:32719')
const WALK = walkIn(CRS)
const FILES = exportLayers({ ...prospect(), traverse: WALK })
const NAMES = ['traverse.csv', 'traverse.geojson', 'traverse.gpx']
const KINDS = ['start', 'new station', 'visit again', 'visit again', 'end']

interface ReportedWalk {
  readonly files: readonly string[]
  readonly failure: string | null
  readonly note: string
}
function reported(files: ReadonlyMap<string, Uint8Array>): ReportedWalk & Record<string, unknown> {
  const report = JSON.parse(text(files.get('report.json'))) as { traverse: ReportedWalk }
  return report.traverse as ReportedWalk & Record<string, unknown>
}

test('a walk leaves three files, and the report says what it takes and brings', () => {
  expect([...FILES.keys()].filter((name) => name.startsWith('traverse'))).toEqual(NAMES)
  expect(reported(FILES)).toMatchObject({
    surface: 'mica <Al–OH>',
    failure: null,
    files: NAMES,
    note: '',
    rule: WALK.rule,
    stops: 3,
    visited_again: 2,
    leave: '08:00',
    back: '08:45',
    time_min: 45,
    time_at_most_min: 60,
    walk_min: 15,
    ground: 'hill.tif',
    mean_standard_error: 2.5,
    mean_standard_error_after: 2.25,
    unit: 'nm',
    fall: 0.19,
    unreached: [{ station: 'C99', why: 'there is no time for it' }],
    caution: WALK_CAUTION,
  })
  expect([...exportLayers(prospect()).keys()].filter((name) => /traverse/.test(name))).toEqual([])
})

test('every member of the report’s walk, and every column, stands on the page of contracts', () => {
  const page = readFileSync('docs/contracts.md', 'utf8')
  const [, section] = page.split('\n## The planned walk\n')
  const told = new Set(Array.from(section.split('\n## ')[0].matchAll(/`([^`]+)`/g), ([, w]) => w))
  const [header] = text(FILES.get('traverse.csv')).split('\r\n')
  const words = [...Object.keys(reported(FILES)), ...header.split(',')]
  expect(words.filter((word) => !told.has(word))).toEqual([])
})

test('on a local grid the walk is in its table alone, and the report says so', () => {
  const crs = openCrs('local:m')
  const files = exportLayers({ ...prospect('local:m'), traverse: walkIn(crs) })
  expect([...files.keys()].filter((name) => name.startsWith('traverse'))).toEqual(['traverse.csv'])
  expect(reported(files)).toMatchObject({ files: ['traverse.csv'] })
  expect(reported(files).note).toMatch(/CSV alone.*longitude and latitude/)
  const [, start] = text(files.get('traverse.csv')).split('\r\n')
  expect(start).toBe(',start,,,08:00,,,,,,,,,,412500.00,7301000.00,2400.00,local:m')
})

test('a walk that failed leaves no file, and the report says why', () => {
  const traverse = { ...WALK, plan: null, failure: 'There is no time for a stop.' }
  const files = exportLayers({ ...prospect(), traverse })
  expect([...files.keys()].filter((name) => name.startsWith('traverse'))).toEqual([])
  expect(reported(files)).toMatchObject({ files: [], failure: 'There is no time for a stop.' })
})

const READ_CSV = `import csv, json, sys
with open(sys.argv[1], encoding='utf-8', newline='') as f:
    print(json.dumps(list(csv.DictReader(f, strict=True))))`

describe.skipIf(!hasPython)('the table as Python reads it (skipped without python3)', () => {
  test('has a row a place with stated decimals', () => {
    const bytes = FILES.get('traverse.csv') ?? new Uint8Array()
    const rows = inFolder((folder) => python(READ_CSV, put(folder, 'x.csv', bytes))) as Record<
      string,
      string
    >[]
    expect(rows.map(({ kind }) => kind)).toEqual(KINDS)
    expect(rows.map(({ number }) => number)).toEqual(['', '1', '2', '3', ''])
    expect(rows[2]).toMatchObject({
      station: `'=C<07> & "old"`,
      arrive: '08:23',
      leave: '08:28',
      walk_min: '3.0',
      distance_m: '130.0',
      climb_m: '12.3',
      descent_m: '5.7',
      battery: '2',
      battery_change: 'yes',
      fall: '0.06173',
      easting: '412652.50',
      northing: '7301050.00',
      elevation: '2420.00',
      crs: 'EPSG:32719',
    })
    expect(rows.map((row) => row.battery_change)).toEqual(['', 'no', 'yes', 'no', ''])
    rows.forEach(({ longitude, latitude }, i) => {
      const { places = [] } = WALK.plan ?? {}
      expect(Number(longitude)).toBeCloseTo(places[i].longitude ?? NaN, 6)
      expect(Number(latitude)).toBeCloseTo(places[i].latitude ?? NaN, 6)
    })
    expect(text(bytes).replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
  })
})

test('the GeoJSON keeps to RFC 7946, and all its features have the same properties', () => {
  const written = text(FILES.get('traverse.geojson'))
  expect(rfc7946Faults(written)).toEqual([])
  const { features } = JSON.parse(written) as {
    features: { geometry: { type: string } | null; properties: Record<string, unknown> }[]
  }
  expect(features.map(({ properties }) => properties.kind)).toEqual([
    ...KINDS,
    ...METRES.map(() => 'leg'),
  ])
  expect(new Set(features.map(({ properties }) => Object.keys(properties).join())).size).toBe(1)
  const types = features.map(({ geometry }) => geometry?.type ?? null)
  // The third way stays on one node: a line needs two positions.
  expect(types.slice(5)).toEqual(['LineString', 'LineString', null, 'LineString'])
  expect(features[6].properties).toMatchObject({
    number: 2,
    station: '=C<07> & "old"',
    leave: '08:18',
    arrive: '08:23',
    walk_min: 3,
    distance_m: 130,
    fall: null,
  })
})

function hasGdalModule(): boolean {
  try {
    return python('import json; from osgeo import ogr, osr; print(1)') === 1
  } catch {
    return false
  }
}
const canRead = hasPython && hasGdal && hasGdalModule()

/** Of each line of a layer: its length in the plane of a CRS; of each point: its place there. */
const READ_PLANE = `import json, sys
from osgeo import ogr, osr
ogr.UseExceptions(); osr.UseExceptions()
wgs, plane = osr.SpatialReference(), osr.SpatialReference()
wgs.ImportFromEPSG(4326); plane.ImportFromEPSG(32719)
for s in (wgs, plane): s.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
there = osr.CoordinateTransformation(wgs, plane)
source = ogr.Open(sys.argv[1])
found = []
for feature in source.GetLayerByName(sys.argv[2]):
    shape = feature.GetGeometryRef()
    if shape is None: found.append(None); continue
    shape.Transform(there)
    parts = [shape.GetGeometryRef(i) for i in range(shape.GetGeometryCount())] or [shape]
    if shape.GetGeometryName() == 'POINT': found.append([shape.GetX(), shape.GetY()])
    else: found.append([part.Length() for part in parts])
print(json.dumps(found))`
const inPlane = (file: string, layer: string): (number[] | null)[] =>
  inFolder((folder) =>
    python(READ_PLANE, put(folder, file, FILES.get(file) ?? new Uint8Array()), layer),
  ) as (number[] | null)[]

// Seven decimals of a degree are 11 mm; a way of a few nodes is off by some of them.
const MOST_OFF = 0.05

describe.skipIf(!canRead)('as GDAL and PROJ read it (skipped without python3-gdal)', () => {
  const expectPlaces = (found: readonly (number[] | null)[]) => {
    const { places = [] } = WALK.plan ?? {}
    expect(found).toHaveLength(places.length)
    places.forEach(({ easting, northing }, i) => {
      const [x, y] = found[i] ?? [NaN, NaN]
      expect(Math.hypot(x - easting, y - northing)).toBeLessThan(MOST_OFF)
    })
  }
  const expectMetres = (lengths: readonly (number | undefined)[]) => {
    expect(lengths).toHaveLength(METRES.length)
    METRES.forEach((metres, i) =>
      expect(Math.abs((lengths[i] ?? 0) - metres)).toBeLessThan(MOST_OFF),
    )
  }

  test('the GeoJSON’s stops lie where planned and its lines are as long as told', () => {
    const found = inPlane('traverse.geojson', 'traverse')
    expectPlaces(found.slice(0, 5))
    expectMetres(found.slice(5).map((lengths) => lengths?.[0]))
  })

  test('the GPX’s route passes the stops and its track is as long as told', () => {
    expectPlaces(inPlane('traverse.gpx', 'route_points'))
    const [lengths] = inPlane('traverse.gpx', 'tracks')
    expectMetres(lengths ?? [])
    const list = inFolder((folder) =>
      output('ogr2ogr', [
        ...['-f', 'GeoJSON', '/vsistdout/'],
        ...[put(folder, 'x.gpx', FILES.get('traverse.gpx') ?? new Uint8Array()), 'route_points'],
      ]),
    )
    const { features } = JSON.parse(list) as {
      features: { properties: Record<string, unknown> }[]
    }
    const names = features.map(({ properties }) => properties.name)
    expect(names).toEqual(['start', '1', '2 =C<07> & "old"', '3 C08', 'end'])
    expect(features[2].properties).toMatchObject({ ele: 2420, type: 'visit again' })
    expect(features[2].properties.desc).toMatch(
      /^08:23–08:28\. Scan =C<07> & "old" again\. Change to battery 2 .*white reference\. Walk there: 3 min, 130 m, 12 m up\.$/,
    )
  })
})

/**
 * The order of children in the GPX 1.1 schema (gpx.xsd of namespace http://www.topografix.com/GPX/1/1,
 * its types gpxType, metadataType, rteType, trkType, trksegType and wptType, all sequences). From
 * memory: the schema itself was not at hand.
 */
const WPT =
  'ele time magvar geoidheight name cmt desc src link sym type fix sat hdop vdop pdop ageofdgpsdata dgpsid extensions'
const ORDER: Readonly<Record<string, string>> = {
  gpx: 'metadata wpt rte trk extensions',
  metadata: 'name desc author copyright link time keywords bounds extensions',
  rte: 'name cmt desc src link number type extensions rtept',
  trk: 'name cmt desc src link number type extensions trkseg',
  trkseg: 'trkpt extensions',
  rtept: WPT,
  trkpt: WPT,
}

type Element = [tag: string, attributes: Record<string, string>, text: string, children: Element[]]
const READ_XML = `import json, sys, xml.etree.ElementTree as E
def tell(e): return [e.tag, dict(e.attrib), e.text or '', [tell(c) for c in e]]
print(json.dumps(tell(E.parse(sys.argv[1]).getroot())))`
const xml = (bytes: Uint8Array): Element =>
  inFolder((folder) => python(READ_XML, put(folder, 'x.gpx', bytes)) as Element)

/** What the schema does not allow. */
function gpxFaults([tag, attributes, , children]: Element): string[] {
  const name = tag.replace('{http://www.topografix.com/GPX/1/1}', '')
  if (!(name in ORDER)) return children.length > 0 ? [`${name} has children`] : []
  const order = ORDER[name].split(' ')
  const places = children.map(([child]) =>
    order.indexOf(child.replace('{http://www.topografix.com/GPX/1/1}', '')),
  )
  const faults = places.flatMap((place, i) =>
    place < 0 || place < (places[i - 1] ?? 0) ? [`${name}: ${children[i][0]} out of order`] : [],
  )
  if (/pt$/.test(name)) {
    const [lat, lon] = [Number(attributes.lat), Number(attributes.lon)]
    if (!(lat >= -90 && lat <= 90)) faults.push(`latitude ${attributes.lat}`)
    if (!(lon >= -180 && lon < 180)) faults.push(`longitude ${attributes.lon}`)
  }
  return [...faults, ...children.flatMap(gpxFaults)]
}

describe.skipIf(!hasPython)('the GPX as an XML parser reads it (skipped without python3)', () => {
  test('has its elements in the schema’s order, the caution, a segment a way', () => {
    const root = xml(FILES.get('traverse.gpx') ?? new Uint8Array())
    expect(root[0]).toBe('{http://www.topografix.com/GPX/1/1}gpx')
    expect(root[1]).toMatchObject({ version: '1.1', creator: 'Aureole' })
    expect(gpxFaults(root)).toEqual([])
    const [metadata, route, track] = root[3]
    expect(metadata[3].map(([, , words]) => words)).toEqual([
      'traverse for mica <Al–OH>',
      WALK_CAUTION,
    ])
    expect(route[3].filter(([tag]) => tag.endsWith('rtept'))).toHaveLength(5)
    const segments = track[3].filter(([tag]) => tag.endsWith('trkseg'))
    expect(segments.map(([, , , points]) => points.length)).toEqual([3, 2, 1, 2])
    expect(segments[1][3][1][3]).toEqual([
      ['{http://www.topografix.com/GPX/1/1}ele', {}, '2411.00', []],
    ])
  })

  test('and the order is not one that anything would keep to', () => {
    const root = xml(FILES.get('traverse.gpx') ?? new Uint8Array())
    root[3][1][3].reverse()
    expect(gpxFaults(root)).not.toEqual([])
  })

  test('a place on the antimeridian is written as the schema has it, flat ground without heights', () => {
    const [start] = WALK.plan?.places ?? []
    const place = { ...start, longitude: 180, elevation: null }
    const written = traverseGpx(CRS, 'x', [place]) ?? new Uint8Array()
    expect(gpxFaults(xml(written))).toEqual([])
    expect(text(written)).toContain('lon="-180.0000000"')
    expect(text(written)).not.toContain('<ele>')
  })
})
