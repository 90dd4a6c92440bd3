/** `traverse.geojson`: a planned walk's places as points and its ways as lines. */
import type { WorkingCrs } from '../places/crs'
import { ELEVATION_DECIMALS, rounded } from './decimals'
import {
  featureCollection,
  lineFeature,
  pointFeature,
  type FeatureText,
  type LonLat,
  type Property,
} from './geojson'
import { changeWord, FALL_DECIMALS, MINUTE_DECIMALS, WAY_DECIMALS } from './traverse-csv'
import { minutesOf, type WalkedWay, type WalkPlace } from './traverse-layer'

/**
 * The file's bytes: the places in order, then the ways in order, all with the same properties; what
 * does not belong to a feature is null. A way within one node of the grid has no geometry.
 *
 * @returns null for a local grid, which has no longitude and latitude.
 */
export function traverseGeojson(crs: WorkingCrs, places: readonly WalkPlace[]): Uint8Array | null {
  if (crs.kind === 'local') return null
  const points = places.map((place) => pointFeature(degreesOf(place), ofPlace(place)))
  const ways = places.flatMap((place, i): FeatureText[] => {
    if (place.way === null) return []
    const properties = ofWay(place, place.way, places[i - 1], i)
    return [lineFeature(wayDegrees(crs, place.way), properties) ?? pointFeature(null, properties)]
  })
  return featureCollection([...points, ...ways])
}

/** A way's nodes on WGS 84; those outside the working CRS are left out. */
export function wayDegrees(crs: WorkingCrs, { x, y }: WalkedWay): LonLat[] {
  return Array.from(x, (east, i) => crs.toGeographic(east, y[i])).filter((place) => place !== null)
}

function degreesOf({ longitude, latitude }: WalkPlace): LonLat | null {
  return longitude === null || latitude === null ? null : [longitude, latitude]
}

function ofPlace(place: WalkPlace): Property[] {
  return [
    ['kind', place.kind],
    ['number', place.number],
    ['station', place.station],
    ['arrive', place.arrive],
    ['leave', place.leave],
    ['walk_min', null],
    ['distance_m', null],
    ['climb_m', null],
    ['descent_m', null],
    ['battery', place.battery],
    ['battery_change', changeWord(place)],
    ['fall', rounded(place.fall, FALL_DECIMALS)],
    ['elevation', rounded(place.elevation, ELEVATION_DECIMALS)],
  ]
}

/** Left when the place before is left, at its end when the next is reached. */
function ofWay(to: WalkPlace, way: WalkedWay, from: WalkPlace, number: number): Property[] {
  return [
    ['kind', 'leg'],
    ['number', number],
    ['station', to.station],
    ['arrive', to.arrive],
    ['leave', from.leave],
    ['walk_min', rounded(minutesOf(way.seconds), MINUTE_DECIMALS)],
    ['distance_m', rounded(way.distance, WAY_DECIMALS)],
    ['climb_m', rounded(way.climb, WAY_DECIMALS)],
    ['descent_m', rounded(way.descent, WAY_DECIMALS)],
    ['battery', null],
    ['battery_change', null],
    ['fall', null],
    ['elevation', null],
  ]
}
