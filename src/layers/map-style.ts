/**
 * A map style in the open style specification, version 8, that draws `stations.geojson` by class
 * and each surface's contours by level, from files that lie beside it.
 *
 * Shapes need pictures, which a style alone does not carry: classes are told apart by colour here,
 * and by shape too in the SLD.
 */
import type { ClassSymbol, RampStop } from './legend'

/** A surface's contour file and its colours. */
export interface StyledContours {
  readonly surface: string
  readonly file: string
  readonly stops: readonly RampStop[]
}

/** JSON as the specification has it; its validator checks it in the tests. */
type Layer = Readonly<Record<string, unknown>>

const PAPER = '#F7F3EA'
const INK = '#1F1B16'
/** For a class that the legend does not list. */
const OTHER = '#FFFFFF'

/** The bytes of `map-style.json`. */
export function mapStyle(
  symbols: readonly ClassSymbol[],
  contours: readonly StyledContours[],
): Uint8Array {
  const drawn = contours.filter(({ stops }) => stops.length > 0)
  const style = {
    version: 8,
    name: 'Alteration map',
    sources: {
      stations: { type: 'geojson', data: 'stations.geojson' },
      ...Object.fromEntries(
        drawn.map(({ file }) => [file, { type: 'geojson', data: encodeURIComponent(file) }]),
      ),
    },
    layers: [
      { id: 'ground', type: 'background', paint: { 'background-color': PAPER } },
      ...drawn.map(contourLayer),
      stationLayer(symbols),
    ],
  }
  return new TextEncoder().encode(JSON.stringify(style, null, 2) + '\n')
}

function contourLayer({ surface, file, stops }: StyledContours): Layer {
  const colours = stops.flatMap(([value, colour]) => [value, colour])
  return {
    id: `contours of ${surface}`,
    type: 'line',
    source: file,
    paint: {
      'line-color': ['interpolate', ['linear'], ['get', 'level'], ...colours],
      'line-width': 1.5,
    },
  }
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
