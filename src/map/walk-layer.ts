/** A planned walk: its way with a casing, its stops numbered in discs, its start and end in words. */
import type { FeatureCollection, LineString, Point } from 'geojson'
import type { ExpressionSpecification, GeoJSONSource, Map } from 'maplibre-gl'
import { addPointWords, removeSource, type InkColours } from './line-layers'
import { MAP_FONT, topOf } from './open-map'

export interface WalkLook extends InkColours {
  /** Of the chosen stop, and of the number on it. */
  readonly accent: string
  readonly onAccent: string
  /** Of the way without its casing, px. */
  readonly width: number
}

/** What a stop's disc carries. */
export interface StopProperties {
  /** Counted from 1. */
  readonly number: number
  readonly chosen: boolean
}

/** What a start or end carries: the word beside it. */
export interface EndProperties {
  readonly label: string
}

/** What is drawn of a walk. */
export interface WalkOnMap {
  readonly way: FeatureCollection<LineString>
  readonly stops: FeatureCollection<Point, StopProperties>
  readonly ends: FeatureCollection<Point, EndProperties>
}

/** Texels a CSS px of a stop's disc, so that its edge stays crisp on fine screens. */
const FINE = 3

/** Of a walk that stands as it was before a change. */
const DIMMED = 0.4

/**
 * Shows a walk under an id, in place of what stood there; null takes it away.
 *
 * @param isOld whether it stands as it was before a change: then it is dimmed
 */
export function setWalk(
  map: Map,
  id: string,
  walk: WalkOnMap | null,
  look: WalkLook,
  isOld: boolean,
): void {
  for (const part of ['way', 'stops', 'ends']) removeSource(map, `${id} ${part}`)
  if (!walk) return
  const opacity = isOld ? DIMMED : 1
  addWay(map, `${id} way`, walk.way, look, opacity)
  addEnds(map, `${id} ends`, walk.ends, look)
  addStops(map, `${id} stops`, walk.stops, look, opacity)
}

/** Shows the stops of a walk that stands already, another of them chosen; the old ones stay until then. */
export function setStops(map: Map, id: string, stops: WalkOnMap['stops']): void {
  void map.getSource<GeoJSONSource>(`${id} stops`)?.setData(stops)
}

/**
 * The stop whose disc lies at a point of the screen, counted from 0; null where none does.
 *
 * @param slack how far beside a disc still counts, px
 */
export function stopAt(
  map: Map,
  id: string,
  { x, y }: { readonly x: number; readonly y: number },
  slack: number,
): number | null {
  const layer = `${id} stops discs`
  if (!map.getLayer(layer)) return null
  const [found] = map.queryRenderedFeatures(
    [
      [x - slack, y - slack],
      [x + slack, y + slack],
    ],
    { layers: [layer] },
  )
  const number: unknown = found?.properties.number
  return typeof number === 'number' ? number - 1 : null
}

function addWay(
  map: Map,
  id: string,
  data: FeatureCollection<LineString>,
  { ink, paper, width }: WalkLook,
  opacity: number,
): void {
  map.addSource(id, { type: 'geojson', data })
  for (const [part, colour, wide] of [
    ['casing', paper, 2.4 * width],
    ['line', ink, width],
  ] as const) {
    map.addLayer(
      {
        id: `${id} ${part}`,
        type: 'line',
        source: id,
        layout: { 'line-join': 'round', 'line-cap': 'round' },
        paint: { 'line-color': colour, 'line-width': wide, 'line-opacity': opacity },
      },
      topOf('walk'),
    )
  }
}

function addEnds(
  map: Map,
  id: string,
  data: FeatureCollection<Point, EndProperties>,
  look: WalkLook,
): void {
  map.addSource(id, { type: 'geojson', data })
  map.addLayer(
    {
      id: `${id} marks`,
      type: 'circle',
      source: id,
      paint: {
        'circle-radius': 2.2 * look.width,
        'circle-color': look.ink,
        'circle-stroke-color': look.paper,
        'circle-stroke-width': look.width,
      },
    },
    topOf('walk'),
  )
  addPointWords(map, `${id} words`, id, look, {
    'text-offset': [0, 0.9],
    'text-anchor': 'top',
    'text-allow-overlap': true,
  })
}

/** The disc of a stop and what keeps words off it. */
function addStops(
  map: Map,
  id: string,
  data: FeatureCollection<Point, StopProperties>,
  look: WalkLook,
  opacity: number,
): void {
  const { ink, accent, onAccent, text } = look
  for (const chosen of [false, true]) {
    const image = imageOf(id, chosen)
    if (map.hasImage(image)) map.removeImage(image)
    map.addImage(image, discPicture(look, chosen), { pixelRatio: FINE })
  }
  const picture: ExpressionSpecification = [
    'case',
    ['get', 'chosen'],
    imageOf(id, true),
    imageOf(id, false),
  ]
  map.addSource(id, { type: 'geojson', data })
  map.addLayer(
    {
      id: `${id} discs`,
      type: 'symbol',
      source: id,
      layout: {
        'icon-image': picture,
        'icon-allow-overlap': true,
        'icon-ignore-placement': true,
        'text-field': ['to-string', ['get', 'number']],
        'text-font': [MAP_FONT],
        'text-size': text,
        'text-allow-overlap': true,
        'text-ignore-placement': true,
        // Disc by disc, each with its number; the first stop above those after it.
        'symbol-sort-key': ['case', ['get', 'chosen'], 1, ['-', 0, ['get', 'number']]],
      },
      paint: {
        'text-color': ['case', ['get', 'chosen'], onAccent, ink],
        'text-halo-color': ['case', ['get', 'chosen'], accent, look.paper],
        'text-halo-width': 1,
        'text-opacity': opacity,
        'icon-opacity': opacity,
      },
    },
    topOf('walk'),
  )
  // Words are placed before the walk below them: an unseen disc among them keeps its room.
  map.addLayer(
    {
      id: `${id} kept clear`,
      type: 'symbol',
      source: id,
      layout: { 'icon-image': picture, 'icon-allow-overlap': true, 'icon-padding': 0 },
      paint: { 'icon-opacity': 0 },
    },
    topOf('labels'),
  )
}

function imageOf(id: string, chosen: boolean): string {
  return chosen ? `${id} chosen` : `${id} plain`
}

function discPicture({ ink, paper, accent, text, width }: WalkLook, chosen: boolean): ImageData {
  const edge = 0.6 * width
  const radius = 0.86 * text
  const side = 2 * Math.ceil(radius + edge) * FINE
  const canvas = new OffscreenCanvas(side, side)
  const context = canvas.getContext('2d')
  if (!context) throw new Error('This browser gives no canvas to draw stops on.')
  context.setTransform(FINE, 0, 0, FINE, side / 2, side / 2)
  context.beginPath()
  context.arc(0, 0, radius, 0, 2 * Math.PI)
  context.fillStyle = chosen ? accent : paper
  context.fill()
  context.strokeStyle = ink
  context.lineWidth = edge
  context.stroke()
  return context.getImageData(0, 0, side, side)
}
