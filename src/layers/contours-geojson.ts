/** `NAME.contours.geojson`: a surface's contour lines on WGS 84. */
import type { WorkingCrs } from '../places/crs'
import type { Contour } from '../surfaces/contours'
import { rounded } from './decimals'
import { featureCollection, lineFeature, type FeatureText, type LonLat } from './geojson'

/** Decimals of a level: enough to tell levels apart that no step of a surface would. */
const LEVEL_DECIMALS = 9

/**
 * The file's bytes: a LineString a contour with `surface`, `level` and `unit`.
 *
 * @returns null for a local grid, which has no longitude and latitude.
 */
export function contoursGeojson(
  surface: string,
  unit: string,
  contours: readonly Contour[],
  crs: WorkingCrs,
): Uint8Array | null {
  if (crs.kind === 'local') return null
  const features = contours
    .map((contour) =>
      lineFeature(places(contour, crs), [
        ['surface', surface],
        ['level', rounded(contour.level, LEVEL_DECIMALS)],
        ['unit', unit],
      ]),
    )
    .filter((feature): feature is FeatureText => feature !== null)
  return featureCollection(features)
}

/** Positions beyond the projection's reach are left out. */
function places({ x, y }: Contour, crs: WorkingCrs): LonLat[] {
  const found: LonLat[] = []
  for (let i = 0; i < x.length; i++) {
    const place = crs.toGeographic(x[i], y[i])
    if (place !== null) found.push(place)
  }
  return found
}
