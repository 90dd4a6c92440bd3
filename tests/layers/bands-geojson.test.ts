/** Filled bands and class areas as GeoJSON, judged by GDAL's geometry engine. */
import { beforeAll, describe, expect, test } from 'vitest'
import { bandLabel, bandsGeojson, classesGeojson } from '../../src/layers/bands-geojson'
import { loadEpsgTable, openCrs } from '../../src/places/crs'
import { discOfPositions, gridOf } from './grid'
import { hasGdal, inFolder, put, python } from './outside'
import { rfc7946Faults } from './rfc7946'

beforeAll(loadEpsgTable)

const CLASSES = [
  { code: 0, name: 'none of these', stations: 1, nodes: 1 },
  { code: 1, name: 'mica', stations: 1, nodes: 1 },
]

/** Each feature's validity, properties, and area in square metres of EPSG:32719. */
const JUDGE = `import json, sys
from osgeo import ogr, osr
ogr.UseExceptions()
layer = ogr.Open(sys.argv[1])
utm = osr.SpatialReference(); utm.ImportFromEPSG(32719)
out = []
for f in layer.GetLayer(0):
    g = f.GetGeometryRef().Clone()
    valid = g.IsValid()
    g.TransformTo(utm)
    out.append([valid, json.loads(f.ExportToJson())['properties'], g.GetArea()])
print(json.dumps(out))`

type Judged = [valid: boolean, properties: Record<string, unknown>, area: number][]
const judged = (bytes: Uint8Array | null): Judged =>
  inFolder((folder) => python(JUDGE, put(folder, 'x.geojson', bytes ?? new Uint8Array())) as Judged)
const text = (bytes: Uint8Array | null) => new TextDecoder().decode(bytes ?? new Uint8Array())
const crs = () => openCrs('EPSG:32719')

test('labels carry the unit and say which end is open', () => {
  expect(bandLabel(2200, 2205, 'nm')).toBe('2200 to 2205 nm')
  expect(bandLabel(null, 0.1 + 0.2, '')).toBe('below 0.3')
  expect(bandLabel(40, null, '%')).toBe('40 % and above')
  expect(bandLabel(null, null, 'nm')).toBe('all')
})

test('a local grid has none', () => {
  const grid = gridOf(20, 20)
  const bands = { grid, estimate: discOfPositions(grid) }
  expect(bandsGeojson('mica', 'nm', bands, [2205], openCrs('local:m'))).toBeNull()
  expect(classesGeojson('mica', bands, CLASSES, openCrs('local:m'))).toBeNull()
})

describe.skipIf(!hasGdal)('as GDAL judges them (skipped where it is not installed)', () => {
  const rough = (grid: ReturnType<typeof gridOf>) =>
    discOfPositions(grid).map((value, i) => value + 4 * Math.sin(12.9898 * i))

  test('bands are valid, follow RFC 7946, and cover the ground once', () => {
    const grid = gridOf(90, 80)
    const estimate = rough(grid)
    const bytes = bandsGeojson('mica', 'nm', { grid, estimate }, [2200, 2205, 2210], crs())
    expect(rfc7946Faults(text(bytes))).toEqual([])
    const features = judged(bytes)
    expect(features.filter(([valid]) => !valid)).toEqual([])
    expect(new Set(features.map(([, { label }]) => label))).toEqual(
      new Set(['below 2200 nm', '2200 to 2205 nm', '2205 to 2210 nm', '2210 nm and above']),
    )
    let cells = 0
    for (let row = 0; row < 79; row++)
      for (let column = 0; column < 89; column++) {
        const node = 90 * row + column
        const four = [node, node + 1, node + 90, node + 91]
        if (!four.some((each) => Number.isNaN(estimate[each]))) cells++
      }
    const area = features.reduce((sum, [, , each]) => sum + each, 0)
    expect(area / (cells * 400)).toBeCloseTo(1, 4)
  })

  test('steps that stand on the levels give valid polygons too', () => {
    const grid = gridOf(90, 80)
    const estimate = rough(grid).map((value) => 5 * Math.round(value / 5))
    const levels = [2195, 2200, 2205, 2210, 2215]
    const features = judged(bandsGeojson('mica', 'nm', { grid, estimate }, levels, crs()))
    expect(features.length).toBeGreaterThan(20)
    expect(features.filter(([valid]) => !valid)).toEqual([])
  })

  test('class areas are valid and as large as their cells', () => {
    const grid = gridOf(90, 80)
    const estimate = rough(grid).map((value) => (Number.isNaN(value) ? NaN : +(value > 2206)))
    const bytes = classesGeojson('likeliest', { grid, estimate }, CLASSES, crs())
    expect(rfc7946Faults(text(bytes))).toEqual([])
    const features = judged(bytes)
    expect(features.filter(([valid]) => !valid)).toEqual([])
    for (const code of [0, 1]) {
      const cells = estimate.filter((each) => each === code).length
      const own = features.filter(([, properties]) => properties.code === code)
      expect(own[0][1].class).toBe(CLASSES[code].name)
      expect(own.reduce((sum, [, , each]) => sum + each, 0) / (cells * 400)).toBeCloseTo(1, 4)
    }
  })
})
