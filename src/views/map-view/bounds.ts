/** The rectangle that stations fill. */
import { median } from '../../places/crs'
import type { Station } from '../../places/station'
import type { StationPlaces } from './station-marks'

/** West, south, east, north of stations on the map, degrees. */
export function boundsOf({
  longitudes,
  latitudes,
}: StationPlaces): [number, number, number, number] {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity]
  for (let i = 0; i < longitudes.length; i++) {
    west = Math.min(west, longitudes[i])
    east = Math.max(east, longitudes[i])
    south = Math.min(south, latitudes[i])
    north = Math.max(north, latitudes[i])
  }
  return [west, south, east, north]
}

/** The median easting and northing, working units; 0, 0 without stations. */
export function medianPlace(stations: readonly Station[]): readonly [x: number, y: number] {
  if (stations.length === 0) return [0, 0]
  return [
    median(stations.map(({ position }) => position.easting)),
    median(stations.map(({ position }) => position.northing)),
  ]
}
