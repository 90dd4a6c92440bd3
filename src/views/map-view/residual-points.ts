/** Residuals of a surface as GeoJSON for the map. */
import type { Feature, FeatureCollection, Point } from 'geojson'
import type { MapFrame } from '../../jobs/map-frame'
import type { ResidualProperties } from '../../map/residuals'
import type { Station } from '../../places/station'
import type { StationResidual } from '../../project/residuals'
import { fixed } from '../numbers'

/** How many of the largest have their number beside them. */
const LABELLED = 12

/** The residual that is told: with the station's block left out where there are blocks. */
export function toldResidual({ blocked, single }: StationResidual): number {
  return blocked ?? single
}

/** Decimals that show the largest residual to three digits. */
export function residualDecimals(largest: number): number {
  return Math.max(0, 2 - Math.floor(Math.log10(Math.abs(largest) || 1)))
}

/** A residual with its sign. */
export function signed(value: number, decimals: number): string {
  return `${value > 0 ? '+' : ''}${fixed(value, decimals)}`
}

/**
 * A point a spot, the largest residual first, drawn under the smaller ones.
 *
 * @param residuals the farthest off first
 */
export function residualPoints(
  residuals: readonly StationResidual[],
  stations: readonly Station[],
  frame: MapFrame,
): FeatureCollection<Point, ResidualProperties> {
  const largest = residuals.length > 0 ? Math.abs(toldResidual(residuals[0])) : 0
  const decimals = residualDecimals(largest)
  const features = residuals.flatMap((each, i): Feature<Point, ResidualProperties>[] => {
    const position = stations[each.stations[0]]?.position
    const degrees = position && frame.toDegrees(position.easting, position.northing)
    if (!degrees) return []
    const value = toldResidual(each)
    return [
      {
        type: 'Feature',
        properties: {
          size: largest > 0 ? Math.abs(value) / largest : 0,
          positive: value > 0,
          label: i < LABELLED ? signed(value, decimals) : '',
        },
        geometry: { type: 'Point', coordinates: [degrees[0], degrees[1]] },
      },
    ]
  })
  return { type: 'FeatureCollection', features }
}
