/** Structural symbols at their stations, turned to true north, which is up on this map. */
import type { FeatureCollection, Point } from 'geojson'
import type { Map } from 'maplibre-gl'
import { addPointWords, removeSource, type InkColours } from './line-layers'
import { topOf } from './open-map'
import {
  FILLED_SYMBOLS,
  STRUCTURE_SYMBOLS,
  SYMBOL_HALF,
  SYMBOL_PATHS,
  type StructureSymbol,
} from './structure-symbols'

/** What each feature carries. */
export interface StructureProperties {
  readonly symbol: StructureSymbol
  /** Degrees clockwise by which the symbol is turned. */
  readonly turn: number
  /** Dip or plunge in words; empty where the symbol says it. */
  readonly label: string
  /** Where the label stands from the station, in heights of the type: to the right, and down. */
  readonly offset: readonly [east: number, south: number]
}

/** Texels a unit of an outline, so that lines stay crisp on fine screens. */
const FINE = 3

/**
 * Shows structures under an id, in place of what stood there; none takes them away.
 *
 * @param size CSS px a unit of a symbol's outline
 */
export function setStructures(
  map: Map,
  id: string,
  data: FeatureCollection<Point, StructureProperties>,
  ink: InkColours,
  size: number,
): void {
  removeSource(map, id)
  for (const symbol of STRUCTURE_SYMBOLS) {
    if (map.hasImage(`${id} ${symbol}`)) map.removeImage(`${id} ${symbol}`)
  }
  if (data.features.length === 0) return
  for (const symbol of new Set(data.features.map(({ properties }) => properties.symbol))) {
    map.addImage(`${id} ${symbol}`, symbolPicture(symbol, ink), { pixelRatio: FINE })
  }
  map.addSource(id, { type: 'geojson', data })
  map.addLayer(
    {
      id: `${id} symbols`,
      type: 'symbol',
      source: id,
      layout: {
        'icon-image': ['concat', `${id} `, ['get', 'symbol']],
        'icon-size': size,
        'icon-rotate': ['get', 'turn'],
        'icon-rotation-alignment': 'map',
        'icon-allow-overlap': true,
        'icon-ignore-placement': true,
      },
    },
    topOf('structures'),
  )
  addPointWords(map, `${id} angles`, id, ink, {
    'text-offset': ['array', 'number', 2, ['get', 'offset']],
    'text-allow-overlap': true,
    'text-ignore-placement': true,
  })
}

function symbolPicture(symbol: StructureSymbol, { ink, paper }: InkColours): ImageData {
  const side = 2 * SYMBOL_HALF * FINE
  const canvas = new OffscreenCanvas(side, side)
  const context = canvas.getContext('2d')
  if (!context) throw new Error('This browser gives no canvas to draw symbols on.')
  context.setTransform(FINE, 0, 0, FINE, side / 2, side / 2)
  context.lineJoin = 'round'
  const outline = new Path2D(SYMBOL_PATHS[symbol])
  context.strokeStyle = paper
  context.lineWidth = 5.5
  context.stroke(outline)
  context.strokeStyle = ink
  context.lineWidth = 2
  context.stroke(outline)
  context.fillStyle = ink
  if (FILLED_SYMBOLS.has(symbol)) context.fill(outline)
  return context.getImageData(0, 0, side, side)
}
