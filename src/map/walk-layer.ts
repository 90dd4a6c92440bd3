/** A planned walk: its way with a casing, its stops numbered in discs, its start and end in words. */
import type { FeatureCollection, LineString, Point } from 'geojson'
import type { ExpressionSpecification, Map } from 'maplibre-gl'
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

function addStops(
  map: Map,
  id: string,
  data: FeatureCollection<Point, StopProperties>,
  { ink, paper, accent, onAccent, text, width }: WalkLook,
  opacity: number,
): void {
  const ifChosen = (chosen: string, other: string): ExpressionSpecification => [
    'case',
    ['get', 'chosen'],
    chosen,
    other,
  ]
  map.addSource(id, { type: 'geojson', data })
  map.addLayer(
    {
      id: `${id} discs`,
      type: 'circle',
      source: id,
      layout: { 'circle-sort-key': ['case', ['get', 'chosen'], 1, 0] },
      paint: {
        'circle-radius': 0.86 * text,
        'circle-color': ifChosen(accent, paper),
        'circle-opacity': opacity,
        'circle-stroke-color': ink,
        'circle-stroke-width': 0.6 * width,
        'circle-stroke-opacity': opacity,
      },
    },
    topOf('walk'),
  )
  map.addLayer(
    {
      id: `${id} numbers`,
      type: 'symbol',
      source: id,
      layout: {
        'text-field': ['to-string', ['get', 'number']],
        'text-font': [MAP_FONT],
        'text-size': text,
        'text-allow-overlap': true,
        'text-ignore-placement': true,
        'symbol-sort-key': ['case', ['get', 'chosen'], 1, 0],
      },
      paint: {
        'text-color': ifChosen(onAccent, ink),
        'text-halo-color': ifChosen(accent, paper),
        'text-halo-width': 1.2,
        'text-opacity': opacity,
      },
    },
    topOf('walk'),
  )
}
