/** Styles and waypoints, read by parsers that did not write them. */
import {
  createExpression,
  latest,
  validateStyleMin,
  type StylePropertySpecification,
  type StyleSpecification,
} from '@maplibre/maplibre-gl-style-spec'
import { describe, expect, test } from 'vitest'
import { exportLayers } from '../../src/layers/export-all'
import { stationsGpx } from '../../src/layers/gpx'
import { classSymbols, codeColours, rampStops } from '../../src/layers/legend'
import { mapStyle } from '../../src/layers/map-style'
import { classesSld, stationsSld, surfaceSld } from '../../src/layers/sld'
import { rampColour } from '../../src/colour/ramps'
import { colourText } from '../../src/colour/rgb'
import { SYMBOLS, type ClassRule } from '../../src/classes/rule'
import { hasGdal, hasPython, inFolder, output, put, python } from './outside'
import { prospect } from './prospect'
import { walkIn } from './walk'

const CLASSES: ClassRule[] = SYMBOLS.map((symbol, i) => ({
  name: `class <${i}> & "more"`,
  when: 'true',
  colour: `#0072B${i.toString(16).toUpperCase()}`,
  symbol,
}))
const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes)

/** Elements as [name, attributes, text, children] by Python's expat. */
type Element = [string, Record<string, string>, string, Element[]]
const READ_XML = `import json, sys, xml.etree.ElementTree as E
def tell(e): return [e.tag, dict(e.attrib), (e.text or '').strip(), [tell(c) for c in e]]
print(json.dumps(tell(E.parse(sys.argv[1]).getroot())))`
const xml = (bytes: Uint8Array): Element =>
  inFolder((folder) => python(READ_XML, put(folder, 'x.xml', bytes)) as Element)
const SLD = '{http://www.opengis.net/sld}'
const SE = '{http://www.opengis.net/se}'
const OGC = '{http://www.opengis.net/ogc}'

/** Every element below one, itself included. */
function all(element: Element): Element[] {
  return [element, ...element[3].flatMap(all)]
}
const named = (root: Element, name: string): Element[] => all(root).filter(([n]) => n === name)

/**
 * Children in the order that the schemas of SLD 1.1 and SE 1.1 ask for (OGC 05-078r4, 05-077r4;
 * the parts used here, from memory).
 */
const ORDER: Readonly<Record<string, readonly string[]>> = {
  [`${SLD}StyledLayerDescriptor`]: [`${SLD}NamedLayer`],
  [`${SLD}NamedLayer`]: [`${SE}Name`, `${SLD}UserStyle`],
  [`${SLD}UserStyle`]: [`${SE}Name`, `${SE}FeatureTypeStyle`],
  [`${SE}Rule`]: [`${SE}Name`, `${OGC}Filter`, `${SE}PointSymbolizer`, `${SE}RasterSymbolizer`],
  [`${SE}Graphic`]: [`${SE}Mark`, `${SE}Size`, `${SE}Rotation`, `${SE}Displacement`],
  [`${SE}Displacement`]: [`${SE}DisplacementX`, `${SE}DisplacementY`],
  [`${SE}Mark`]: [`${SE}WellKnownName`, `${SE}Fill`, `${SE}Stroke`],
  [`${SE}RasterSymbolizer`]: [`${SE}ChannelSelection`, `${SE}ColorMap`],
  [`${SE}Interpolate`]: [`${SE}LookupValue`, `${SE}InterpolationPoint`],
}

function outOfOrder(root: Element): string[] {
  return all(root).flatMap(([name, , , children]) => {
    const order = ORDER[name]
    if (order === undefined) return []
    const places = children.map(([child]) => order.indexOf(child))
    const wrong = places.some((place, i) => place < 0 || (i > 0 && place < places[i - 1]))
    return wrong ? [name] : []
  })
}

describe.skipIf(!hasPython)('SLD 1.1 (skipped without python3)', () => {
  test('stations: a rule a class with its filter, colour and mark', () => {
    const root = xml(stationsSld(classSymbols(CLASSES)))
    expect(root[0]).toBe(`${SLD}StyledLayerDescriptor`)
    expect(root[1].version).toBe('1.1.0')
    expect(outOfOrder(root)).toEqual([])
    const literals = named(root, `${OGC}Literal`).map(([, , name]) => name)
    expect(literals).toEqual([...CLASSES.map(({ name }) => name), 'unclassified', 'not measurable'])
    const rules = named(root, `${SE}Rule`).slice(0, SYMBOLS.length)
    // Each shape is its own mark, its own turn of one, or its own set of several.
    const looks = rules.map((rule) =>
      named(rule, `${SE}Graphic`)
        .map((graphic) =>
          ['WellKnownName', 'Rotation', 'DisplacementX', 'DisplacementY']
            .map((name) => named(graphic, `${SE}${name}`)[0]?.[2] ?? '')
            .join(' '),
        )
        .join(),
    )
    expect(new Set(looks).size).toBe(SYMBOLS.length)
    // A symbol of several parts lies about its place.
    for (const rule of rules) {
      for (const name of ['DisplacementX', 'DisplacementY']) {
        const moves = named(rule, `${SE}${name}`).map(([, , value]) => Number(value))
        expect(moves.reduce((sum, move) => sum + move, 0)).toBeCloseTo(0, 9)
      }
    }
    const fills = rules.map((rule) => named(rule, `${SE}SvgParameter`)[0])
    expect(fills.map(([, attributes, value]) => [attributes.name, value])).toEqual(
      CLASSES.map(({ colour }) => ['fill', colour]),
    )
  })

  test('a surface: the ramp over its values', () => {
    const stops = rampStops(
      Float64Array.from({ length: 101 }, (_, i) => 2190 + i / 5),
      'viridis',
    )
    const root = xml(surfaceSld('mica <&>', stops))
    expect(outOfOrder(root)).toEqual([])
    const data = named(root, `${SE}Data`).map(([, , value]) => Number(value))
    // Percentiles 2 and 98 of 2190 … 2210 by 0.2.
    expect([data[0], data[10]]).toEqual([2190.4, 2209.6])
    expect(data).toEqual([...data].sort((a, b) => a - b))
    const values = named(root, `${SE}Value`).map(([, , value]) => value)
    expect(values[0]).toBe(colourText(rampColour('viridis', 0)))
    expect(values[10]).toBe(colourText(rampColour('viridis', 1)))
  })
})

describe.skipIf(!hasPython)('a style for classes by number', () => {
  test('has a colour a number, each step half way between two', () => {
    const rules = CLASSES.slice(0, 1)
    const classes = ['none of these', rules[0].name, 'kaolin', 'alunite'].map((name) => ({ name }))
    const colours = codeColours({ classes }, rules)
    expect(colours[1]).toBe(rules[0].colour)
    expect(new Set(colours).size).toBe(4)
    const root = xml(classesSld('likeliest', colours))
    expect(outOfOrder(root)).toEqual([])
    // SE 1.1 (OGC 05-077r4), 11.6.4: a value, then thresholds and values in turn.
    const [categorize] = named(root, `${SE}Categorize`)
    const parts = categorize[3].map(([name, , value]) => [name.replace(SE, ''), value])
    expect(parts[0]).toEqual(['LookupValue', 'Rasterdata'])
    expect(parts.slice(1)).toEqual([
      ['Value', colours[0]],
      ...colours.slice(1).flatMap((colour, at) => [
        ['Threshold', String(at + 0.5)],
        ['Value', colour],
      ]),
    ])
  })
})

describe('ramp stops', () => {
  test('without a value there are none, with one value there is one', () => {
    expect(rampStops([NaN, NaN], 'viridis')).toEqual([])
    expect(rampStops([5, 5, NaN], 'viridis').length).toBe(1)
    // A thousandth of a nm about 2200 nm: stops that round alike would make the style invalid.
    const narrow = rampStops([2200, 2200.001, 2200.002], 'viridis').map(([value]) => value)
    expect(narrow).toEqual([...new Set(narrow)])
  })

  test('of a large raster are those of all its cells, nearly', () => {
    const values = Float64Array.from({ length: 450_000 }, (_, i) => (i * 7919) % 450_000)
    const stops = rampStops(values, 'viridis')
    expect(Math.abs(stops[0][0] - 9_000)).toBeLessThan(900)
    expect(Math.abs(stops[10][0] - 441_000)).toBeLessThan(900)
  })
})

test('a class that takes the name of the rest is drawn once', () => {
  const symbols = classSymbols([{ ...CLASSES[0], name: 'unclassified' }])
  expect(symbols.map((symbol) => symbol.class)).toEqual(['unclassified', 'not measurable'])
  expect(symbols[0].hollow).toBe(false)
})

/** The specification's own word on what a fill's colour is. */
const FILL_COLOUR = latest.paint_fill['fill-color'] as StylePropertySpecification

describe('the map style', () => {
  const stops = rampStops([2190, 2200, 2210], 'viridis')
  const contours = [{ surface: 'mica: 1', file: 'mica_ 1', stops }]
  const likeliest = { surface: 'likeliest', file: 'likeliest', colours: ['#FFFFFF', '#0072B2'] }
  const faults = (bytes: Uint8Array): string[] =>
    validateStyleMin(JSON.parse(text(bytes)) as StyleSpecification).map(({ message }) => message)

  test('passes the specification’s own validator', () => {
    expect(faults(mapStyle(classSymbols(CLASSES), [...contours, likeliest]))).toEqual([])
    expect(faults(mapStyle(classSymbols([]), []))).toEqual([])
  })

  test('draws the walk where there is one, and names no file of one where there is none', () => {
    const legend = { classes: CLASSES }
    const input = { ...prospect(), legend }
    const styleOf = (files: ReadonlyMap<string, Uint8Array>) =>
      files.get('map-style.json') ?? new Uint8Array()
    const walked = exportLayers({ ...input, traverse: walkIn(input.crs) })
    expect(faults(styleOf(walked))).toEqual([])
    const { sources } = JSON.parse(text(styleOf(walked))) as { sources: Record<string, unknown> }
    expect(sources.traverse).toEqual({ type: 'geojson', data: 'traverse.geojson' })
    expect(walked.has('traverse.geojson')).toBe(true)
    expect(text(styleOf(walked))).toContain('"ways of the traverse"')
    expect(text(styleOf(exportLayers(input)))).not.toContain('traverse')
  })

  test('leaves out a surface without values, and the validator sees what is wrong', () => {
    const style = mapStyle(classSymbols(CLASSES), [{ ...contours[0], stops: [] }])
    expect(text(style)).not.toContain('mica')
    const broken = text(style).replace('"circle-radius": 5', '"circle-radius": "wide"')
    expect(faults(new TextEncoder().encode(broken)).length).toBe(1)
  })

  test('shows the first surface, hides the others, and draws each from the files it has', () => {
    const style = JSON.parse(text(mapStyle(classSymbols([]), [...contours, likeliest]))) as {
      sources: Record<string, { data: string }>
      layers: { id: string; source?: string; layout?: { visibility: string } }[]
    }
    expect(Object.entries(style.sources).map(([name, { data }]) => [name, data])).toEqual([
      ['stations', 'stations.geojson'],
      ['mica_ 1.bands.geojson', 'mica_%201.bands.geojson'],
      ['mica_ 1.contours.geojson', 'mica_%201.contours.geojson'],
      ['likeliest.classes.geojson', 'likeliest.classes.geojson'],
    ])
    expect(style.layers.map(({ id, layout }) => [id, layout?.visibility])).toEqual([
      ['ground', undefined],
      ['areas of mica: 1', 'visible'],
      ['contours of mica: 1', 'visible'],
      ['areas of likeliest', 'none'],
      ['stations', undefined],
    ])
  })

  /** The specification's own evaluator stands for a reader. */
  test('colours a band by its middle, an open one by its level', () => {
    const style = JSON.parse(text(mapStyle(classSymbols([]), contours))) as {
      layers: { id: string; paint: Record<string, unknown> }[]
    }
    const colour = style.layers.find(({ id }) => id.startsWith('areas'))?.paint['fill-color']
    const made = createExpression(colour, 'fill-color', FILL_COLOUR)
    if (made.result === 'error') throw new Error(made.value.map(({ message }) => message).join())
    const at = (properties: Record<string, number | null>): number[] => {
      const feature = { type: 'Polygon', properties } as const
      const { r, g, b } = made.value.evaluate({ zoom: 10 }, feature) as Record<string, number>
      return [r, g, b].map((part) => Math.round(255 * part))
    }
    // A stop's own colour is the ramp's.
    const rgb = (hex: string) => [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16))
    const [value, hex] = stops[5]
    expect(at({ from: value - 2, to: value + 2 })).toEqual(rgb(hex))
    expect(at({ from: null, to: value })).toEqual(rgb(hex))
    expect(at({ from: value, to: null })).toEqual(rgb(hex))
  })

  test('colours a station by its class', () => {
    const style = JSON.parse(text(mapStyle(classSymbols(CLASSES), []))) as {
      layers: { id: string; paint: Record<string, unknown[]> }[]
    }
    const match = style.layers.find(({ id }) => id === 'stations')?.paint['circle-color']
    expect(match?.slice(0, 4)).toEqual(['match', ['get', 'class'], CLASSES[0].name, '#0072B0'])
  })
})

test.skipIf(!hasGdal)('GPX waypoints as GDAL reads them (skipped without gdal-bin)', () => {
  const { stations } = prospect()
  const nowhere = { ...stations[0], station: 'nowhere', longitude: null, latitude: null }
  const marked = { ...stations[0], station: 'R&D <2> "new"' }
  inFolder((folder) => {
    const file = put(folder, 'stations.gpx', stationsGpx([...stations, nowhere, marked]))
    const read = JSON.parse(
      output('ogr2ogr', ['-f', 'GeoJSON', '/vsistdout/', file, 'waypoints', '-skipfailures']),
    ) as {
      features: { geometry: { coordinates: number[] }; properties: Record<string, unknown> }[]
    }
    expect(read.features.map(({ properties }) => properties.name)).toEqual([
      'A',
      '-B',
      'assay only',
      marked.station,
    ])
    const { geometry, properties } = read.features[0]
    expect(geometry.coordinates[0]).toBeCloseTo(stations[0].longitude ?? NaN, 6)
    expect(geometry.coordinates[1]).toBeCloseTo(stations[0].latitude ?? NaN, 6)
    expect(properties).toMatchObject({ ele: 2405.5, desc: 'muscovite', type: 'long white mica' })
  })
})

test('with a legend an export has styles and waypoints, named in the report', () => {
  const legend = { classes: CLASSES }
  const files = exportLayers({ ...prospect(), legend })
  const plain = [...exportLayers(prospect()).keys()]
  const more = [...files.keys()].filter((name) => !plain.includes(name))
  expect(more).toEqual([
    'mica_ Al_OH.sld',
    'MICA_ Al_OH 2.sld',
    'stations.sld',
    'map-style.json',
    'stations.gpx',
  ])
  const report = text(files.get('report.json') ?? new Uint8Array())
  for (const name of more) expect(report).toContain(JSON.stringify(name))
  const local = exportLayers({ ...prospect('local:m'), legend })
  expect([...local.keys()].filter((name) => more.includes(name))).toEqual(more.slice(0, 2))
})
