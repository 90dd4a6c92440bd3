/**
 * A map style in the open style specification, version 8, that draws `stations.geojson` by class
 * and the surfaces by their areas and contours, from files that lie beside it. The first surface
 * is shown; the others are there to be switched on.
 *
 * Shapes need pictures, which a style alone does not carry: classes are told apart by colour here,
 * and by shape too in the SLD.
 */
import type { ClassSymbol, RampStop } from './legend'

interface Styled {
  readonly surface: string
  /** Its files' name without an extension. */
  readonly file: string
}

/** A surface of values: `FILE.bands.geojson` and `FILE.contours.geojson` by a ramp. */
export interface StyledValues extends Styled {
  readonly stops: readonly RampStop[]
}

/** A surface of the likeliest class: `FILE.classes.geojson` by the number of the class. */
export interface StyledClasses extends Styled {
  readonly colours: readonly string[]
}

/** JSON as the specification has it; its validator checks it in the tests. */
type Layer = Readonly<Record<string, unknown>>

const PAPER = '#F7F3EA'
const INK = '#1F1B16'
/** For a class that the legend does not list. */
const OTHER = '#FFFFFF'

/**
 * The bytes of `map-style.json`.
 *
 * @param hasWalk whether a `traverse.geojson` lies beside it
 */
export function mapStyle(
  symbols: readonly ClassSymbol[],
  surfaces: readonly (StyledValues | StyledClasses)[],
  hasWalk = false,
): Uint8Array {
  const drawn = surfaces.filter((surface) => !('stops' in surface) || surface.stops.length > 0)
  const sources = drawn.flatMap((surface) =>
    filesOf(surface).map((file) => [file, { type: 'geojson', data: encodeURIComponent(file) }]),
  )
  const style = {
    version: 8,
    name: 'Alteration map',
    sources: {
      stations: { type: 'geojson', data: 'stations.geojson' },
      ...(Object.fromEntries(sources) as object),
      ...(hasWalk ? { traverse: { type: 'geojson', data: 'traverse.geojson' } } : {}),
    },
    layers: [
      { id: 'ground', type: 'background', paint: { 'background-color': PAPER } },
      ...drawn.flatMap((surface, at) => surfaceLayers(surface, at === 0)),
      stationLayer(symbols),
      ...(hasWalk ? WALK_LAYERS : []),
    ],
  }
  return new TextEncoder().encode(JSON.stringify(style, null, 2) + '\n')
}

/** Ways as broken lines, stops as rings over the stations; GeoJSON's legs are its lines. */
const WALK_LAYERS: readonly Layer[] = [
  {
    id: 'ways of the traverse',
    type: 'line',
    source: 'traverse',
    filter: ['==', ['get', 'kind'], 'leg'],
    paint: { 'line-color': INK, 'line-width': 2, 'line-dasharray': [2, 1] },
  },
  {
    id: 'stops of the traverse',
    type: 'circle',
    source: 'traverse',
    filter: ['!=', ['get', 'kind'], 'leg'],
    paint: {
      'circle-radius': 8,
      'circle-opacity': 0,
      'circle-stroke-color': INK,
      'circle-stroke-width': 2,
    },
  },
]

function filesOf(surface: StyledValues | StyledClasses): string[] {
  const { file } = surface
  if (!('stops' in surface)) return [`${file}.classes.geojson`]
  return [`${file}.bands.geojson`, `${file}.contours.geojson`]
}

function surfaceLayers(surface: StyledValues | StyledClasses, shown: boolean): Layer[] {
  const { surface: name } = surface
  const [areas, lines] = filesOf(surface)
  const layout = { visibility: shown ? 'visible' : 'none' }
  const fill = (colour: unknown): Layer => ({
    id: `areas of ${name}`,
    type: 'fill',
    source: areas,
    layout,
    paint: { 'fill-color': colour, 'fill-opacity': 0.75 },
  })
  if (!('stops' in surface)) {
    const byCode = surface.colours.flatMap((colour, code) => [code, colour])
    return [fill(['match', ['get', 'code'], ...byCode, OTHER])]
  }
  const contours: Layer = {
    id: `contours of ${name}`,
    type: 'line',
    source: lines,
    layout,
    paint: { 'line-color': INK, 'line-width': 0.75 },
  }
  return [fill(bandColour(surface.stops)), contours]
}

/** The ramp's colour in the middle of a band; an open band has that of its one level. */
function bandColour(stops: readonly RampStop[]): unknown[] {
  const [[lowest]] = stops
  const from = ['coalesce', ['get', 'from'], ['get', 'to'], lowest]
  const to = ['coalesce', ['get', 'to'], ['get', 'from'], lowest]
  const colours = stops.flatMap(([value, colour]) => [value, colour])
  return ['interpolate', ['linear'], ['/', ['+', from, to], 2], ...colours]
}

function stationLayer(symbols: readonly ClassSymbol[]): Layer {
  const byClass = (
    value: (symbol: ClassSymbol) => string | number,
    other: string | number,
  ): unknown[] => ['match', ['get', 'class'], ...symbols.flatMap((s) => [s.class, value(s)]), other]
  return {
    id: 'stations',
    type: 'circle',
    source: 'stations',
    paint: {
      'circle-radius': 5,
      'circle-color': byClass((symbol) => symbol.colour, OTHER),
      'circle-opacity': byClass((symbol) => (symbol.hollow ? 0.25 : 1), 1),
      'circle-stroke-color': INK,
      'circle-stroke-width': 1,
    },
  }
}
