/** The vehicle track into the prospect. */
import type { FeatureCollection } from 'geojson'
import { AREA_NAME, STATEMENT, toPosition, type GroundPoint } from './place'

const WAY: readonly GroundPoint[] = [
  { x: 471000, y: 7244330 },
  { x: 471340, y: 7244520 },
  { x: 471700, y: 7244620 },
  { x: 472020, y: 7244880 },
  { x: 472180, y: 7245180 },
  { x: 472120, y: 7245470 },
  { x: 472290, y: 7245820 },
  { x: 472640, y: 7246080 },
  { x: 473080, y: 7246060 },
  { x: 473420, y: 7245800 },
  { x: 473460, y: 7245440 },
  { x: 473800, y: 7245180 },
  { x: 474420, y: 7245060 },
  { x: 475000, y: 7245120 },
]

/** The track as GeoJSON (RFC 7946). */
export function vehicleTrack(): FeatureCollection & { name: string; statement: string } {
  return {
    type: 'FeatureCollection',
    name: `${AREA_NAME} vehicle track`,
    statement: STATEMENT,
    features: [
      {
        type: 'Feature',
        properties: { kind: 'track', name: 'vehicle track' },
        geometry: { type: 'LineString', coordinates: WAY.map(toPosition) },
      },
    ],
  }
}
