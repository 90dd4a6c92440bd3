/** Lines, areas and words on the map: outlines of the ground, contours with their labels. */
import type { Map, SymbolLayerSpecification } from 'maplibre-gl'
import type { FeatureCollection } from 'geojson'
import { MAP_FONT, topOf, type Slot } from './open-map'

/** How lines and words are drawn, from the look's tokens. */
export interface InkColours {
  readonly ink: string
  readonly soft: string
  readonly paper: string
  /** Size of words, px. */
  readonly text: number
}

/**
 * Outlines of the ground: areas with a `colour` property filled faintly, lines by their `kind`
 * (`fault`, `track`, `contact`), each named along its course.
 */
export function setOutlines(
  map: Map,
  id: string,
  data: FeatureCollection | null,
  ink: InkColours,
): void {
  removeSource(map, id)
  if (!data) return
  map.addSource(id, { type: 'geojson', data })
  map.addLayer(
    {
      id: `${id} areas`,
      type: 'fill',
      source: id,
      filter: ['==', ['geometry-type'], 'Polygon'],
      paint: {
        'fill-color': ['coalesce', ['get', 'colour'], ink.soft],
        'fill-opacity': 0.12,
      },
    },
    topOf('outlines'),
  )
  map.addLayer(
    {
      id: `${id} lines`,
      type: 'line',
      source: id,
      layout: { 'line-join': 'round', 'line-cap': 'butt' },
      filter: ['!=', ['get', 'kind'], 'track'],
      paint: {
        'line-color': ink.ink,
        'line-width': ['case', ['==', ['get', 'kind'], 'fault'], 2.2, 0.8],
        'line-opacity': ['case', ['==', ['get', 'kind'], 'fault'], 0.9, 0.55],
      },
    },
    topOf('outlines'),
  )
  map.addLayer(
    {
      id: `${id} tracks`,
      type: 'line',
      source: id,
      filter: ['==', ['get', 'kind'], 'track'],
      paint: { 'line-color': ink.soft, 'line-width': 1.2, 'line-dasharray': [4, 2.5] },
    },
    topOf('outlines'),
  )
  addLabels(map, `${id} names`, id, ['coalesce', ['get', 'label'], ['get', 'name'], ''], ink)
}

/** Contours with their value written along them. */
export function setContours(
  map: Map,
  id: string,
  data: FeatureCollection | null,
  ink: InkColours,
): void {
  removeSource(map, id)
  if (!data) return
  map.addSource(id, { type: 'geojson', data })
  map.addLayer(
    {
      id: `${id} lines`,
      type: 'line',
      source: id,
      paint: { 'line-color': ink.ink, 'line-width': 0.9, 'line-opacity': 0.75 },
    },
    topOf('contours'),
  )
  addLabels(map, `${id} values`, id, ['get', 'label'], ink)
}

/** Shows or hides every layer of a source. */
export function setShown(map: Map, source: string, shown: boolean): void {
  for (const layer of map.getStyle().layers) {
    if ('source' in layer && layer.source === source) {
      map.setLayoutProperty(layer.id, 'visibility', shown ? 'visible' : 'none')
    }
  }
}

/** Takes a source and its layers away. */
export function removeSource(map: Map, source: string): void {
  for (const layer of map.getStyle().layers) {
    if ('source' in layer && layer.source === source) map.removeLayer(layer.id)
  }
  if (map.getSource(source)) map.removeSource(source)
}

function addLabels(
  map: Map,
  id: string,
  source: string,
  text: unknown,
  ink: InkColours,
  slot: Slot = 'labels',
): void {
  const layout = {
    'symbol-placement': 'line' as const,
    'symbol-spacing': 420,
    'text-field': text as never,
    'text-font': [MAP_FONT],
    'text-size': ink.text,
    'text-max-angle': 30,
  }
  map.addLayer({ id, type: 'symbol', source, layout, paint: wordPaint(ink) }, topOf(slot))
}

/**
 * Writes each point's `label`, where it is not empty.
 *
 * @param place how words stand to their points, as MapLibre's layout has it
 */
export function addPointWords(
  map: Map,
  id: string,
  source: string,
  ink: InkColours,
  place: NonNullable<SymbolLayerSpecification['layout']>,
): void {
  map.addLayer(
    {
      id,
      type: 'symbol',
      source,
      filter: ['!=', ['get', 'label'], ''],
      layout: {
        'text-field': ['get', 'label'],
        'text-font': [MAP_FONT],
        'text-size': ink.text,
        ...place,
      },
      paint: wordPaint(ink),
    },
    topOf('labels'),
  )
}

/** Words in ink with a halo of paper. */
export function wordPaint({ ink, paper }: InkColours) {
  return { 'text-color': ink, 'text-halo-color': paper, 'text-halo-width': 1.6 }
}
