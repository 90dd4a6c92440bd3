/** What a surface misses its stations by: a disc a station, its area the size, its filling the sign. */
import type { FeatureCollection, Point } from 'geojson'
import type { Map } from 'maplibre-gl'
import { addPointWords, removeSource, type InkColours } from './line-layers'
import { topOf } from './open-map'

/** What each feature carries. */
export interface ResidualProperties {
  /** 0 to 1: the size over the largest. */
  readonly size: number
  readonly positive: boolean
  /** Written beside it; empty for none. */
  readonly label: string
}

/** Largest disc, px. */
const MOST_RADIUS = 16

/** Shows residuals under an id, in place of what stood there; null takes them away. */
export function setResiduals(
  map: Map,
  id: string,
  data: FeatureCollection<Point, ResidualProperties> | null,
  ink: InkColours,
): void {
  removeSource(map, id)
  if (!data) return
  map.addSource(id, { type: 'geojson', data })
  map.addLayer(
    {
      id: `${id} discs`,
      type: 'circle',
      source: id,
      paint: {
        'circle-radius': ['max', 2.5, ['*', MOST_RADIUS, ['sqrt', ['get', 'size']]]],
        'circle-color': ['case', ['get', 'positive'], ink.ink, ink.paper],
        'circle-stroke-color': ['case', ['get', 'positive'], ink.paper, ink.ink],
        'circle-stroke-width': 2,
      },
    },
    topOf('labels'),
  )
  addPointWords(map, `${id} words`, id, ink, {
    'text-offset': [0, 1.4],
    'text-anchor': 'top',
    'text-optional': true,
  })
}
