/**
 * Names beside stations, in the app's own typeface. A name that would lie on another, or on a
 * symbol, is left out until there is room: each symbol is stood for by an unseen picture, for the
 * map knows nothing of what the station layer draws.
 */
import type { FeatureCollection, GeoJsonProperties } from 'geojson'
import type { Map } from 'maplibre-gl'
import type { InkColours } from './line-layers'
import { removeSource } from './line-layers'
import { MAP_FONT, topOf } from './open-map'

/** A name and where it belongs, degrees. */
export interface PlacedName {
  readonly name: string
  readonly longitude: number
  readonly latitude: number
  /** The lowest is placed first, and so left out last. */
  readonly rank: number
}

/** Where symbols stand, degrees. */
export interface Symbols {
  readonly longitudes: ArrayLike<number>
  readonly latitudes: ArrayLike<number>
}

/**
 * Writes names on the map, or takes them away.
 *
 * @param symbols all of them, with a name or without
 * @param reach how far a symbol reaches from its middle, CSS px: names keep clear of it
 */
export function setNames(
  map: Map,
  id: string,
  names: readonly PlacedName[],
  symbols: Symbols,
  ink: InkColours,
  reach: number,
): void {
  const obstacles = `${id} kept clear`
  for (const source of [id, obstacles]) removeSource(map, source)
  if (map.hasImage(obstacles)) map.removeImage(obstacles)
  if (names.length === 0) return
  map.addSource(id, {
    type: 'geojson',
    data: collected(names, ({ name, rank }) => ({ name, rank })),
  })
  map.addLayer(
    {
      id,
      type: 'symbol',
      source: id,
      layout: {
        'text-field': ['get', 'name'],
        'text-font': [MAP_FONT],
        'text-size': ink.text,
        'text-variable-anchor': ['left', 'right', 'top', 'bottom'],
        'text-radial-offset': (reach + 2) / ink.text,
        'text-justify': 'auto',
        'text-padding': 1,
        'symbol-sort-key': ['get', 'rank'],
      },
      paint: {
        'text-color': ink.ink,
        'text-halo-color': ink.paper,
        'text-halo-width': 1.6,
      },
    },
    topOf('labels'),
  )
  const side = Math.max(1, Math.round(1.5 * reach))
  map.addImage(obstacles, { width: side, height: side, data: new Uint8Array(4 * side * side) })
  map.addSource(obstacles, { type: 'geojson', data: collected(placesOf(symbols), () => ({})) })
  // The uppermost layer is placed first.
  map.addLayer(
    {
      id: obstacles,
      type: 'symbol',
      source: obstacles,
      layout: { 'icon-image': obstacles, 'icon-allow-overlap': true, 'icon-padding': 0 },
    },
    topOf('labels'),
  )
}

function placesOf({ longitudes, latitudes }: Symbols): Place[] {
  return Array.from(longitudes, (longitude, i) => ({ longitude, latitude: latitudes[i] }))
}

type Place = Pick<PlacedName, 'longitude' | 'latitude'>

function collected<T extends Place>(
  places: readonly T[],
  properties: (place: T) => GeoJsonProperties,
): FeatureCollection {
  return {
    type: 'FeatureCollection',
    features: places.map((place) => ({
      type: 'Feature',
      geometry: { type: 'Point', coordinates: [place.longitude, place.latitude] },
      properties: properties(place),
    })),
  }
}
