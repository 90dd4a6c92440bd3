/**
 * Everything that can be written of the sample area, read by tests/batch/read-layers.py: GDAL, PROJ
 * and GEOS, and a reader of tables by the grammar of RFC 4180. Nothing of ours reads there.
 */
import { cpSync, readFileSync, writeFileSync } from 'node:fs'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { hasGdal, hasPython, python } from '../layers/outside'
import { Layers, runMap, Scratch, type Ran } from './command'
import { fullDecisions, fullRecipe } from './whole-export'

const scratch = new Scratch()
afterAll(() => scratch.remove())

const READER = readFileSync('tests/batch/read-layers.py', 'utf8')
const GIVEN = ['scans', 'places', 'ground'].map((folder) => `sample-area/${folder}`)

function hasGdalModule(): boolean {
  try {
    return python('import json; from osgeo import gdal, ogr, osr; import numpy; print(1)') === 1
  } catch {
    return false
  }
}

const canRead = hasPython && hasGdal && hasGdalModule()

describe.skipIf(!canRead)('every kind of layer (skipped without python3-gdal and numpy)', () => {
  const out = new Layers(scratch.path('full layers'))
  let ran: Ran

  beforeAll(() => {
    const recipe = scratch.json('a recipe.json', fullRecipe())
    const decisions = scratch.json('decisions.json', fullDecisions())
    const [scans, ...places] = GIVEN
    ran = runMap(
      ...['--scans', scans, '--places', ...places, '--recipe', recipe],
      ...['--decisions', decisions, '--out', out.folder],
    )
  })

  const faults = (folder: string) => python(READER, folder, ...GIVEN)

  test('is written, and all surfaces but the one without stations are drawn', () => {
    expect([ran.code, ran.complained]).toEqual([0, ''])
    const failed = out.report.surfaces.filter(({ failure }) => failure !== null)
    expect(failed.map(({ name }) => name)).toEqual(['without stations'])
    const kinds = new Set(out.names.map((name) => name.replace(/^[^.]*\./, '')))
    expect([...kinds].sort()).toEqual(
      ['csv', 'geojson', 'gpx', 'json', 'sld', 'tif']
        .concat(['bands.geojson', 'classes.geojson', 'contours.geojson'])
        .sort(),
    )
    for (const kind of ['csv', 'geojson', 'gpx']) expect(out.names).toContain(`traverse.${kind}`)
    expect(ran.said).toMatch(/^Traverse: \d+ stops? from 07:30 to .* falls from .* nm\./m)
    expect(out.names).toContain('photos.geojson')
    expect(out.names).toContain('structures.geojson')
  })

  test('nothing is wrong with any of it', () => {
    expect(faults(out.folder)).toEqual([])
  })

  test('and the reader would tell: each of these is seen', () => {
    const folder = scratch.path('damaged')
    cpSync(out.folder, folder, { recursive: true })
    const damages: readonly (readonly [string, string | RegExp, string, RegExp])[] = [
      ['scans.csv', /(0\.000\d\d)\d/, '$1', /noise has/],
      ['problems.csv', '\r\n', '\n', /a bare '\\n'/],
      ['stations.csv', `"'=C26`, '"=C26', /run by a spreadsheet/],
      ['mica.contours.geojson', /"level":\d+/, '"level":2150', /do not lie at their level/],
      ['likeliest.classes.geojson', /"code":\d+/, '"code":99', /another class than the raster/],
      ['report.json', /"sha256": "./, '"sha256": "x', /another digest/],
      ['stations.geojson', '"bbox":[-69.', '"bbox":[-79.', /bbox is/],
      ['stations.gpx', /lat="-24/, 'lat="-25', /stations\.gpx.*stations\.csv has/],
      ['traverse.csv', /(,1,no,0\.\d+,-69\.2)/, ',9$1', /traverse\.csv/],
      ['traverse.geojson', '"distance_m"', '"metres"', /different properties/],
      ['traverse.gpx', /(<trkpt lat="-24\.)9/, '$18', /traverse\.gpx: a way of/],
    ]
    for (const [file, what, instead] of damages) {
      const text = out.text(file)
      expect(text).toMatch(what)
      writeFileSync(`${folder}/${file}`, text.replace(what, instead))
    }
    const told = faults(folder)
    for (const [, , , words] of damages) expect(told).toContainEqual(expect.stringMatching(words))
  })
})
