/** `NAME.contours.geojson`: a surface's contour lines on WGS 84. */
import type { WorkingCrs } from '../places/crs'
import { rounded } from './decimals'
import { featureCollection, lineFeature, type FeatureText, type LonLat } from './geojson'

/** A contour line in working coordinates. */
export interface ContourLine {
  readonly level: number
  /** x and y in turn. */
  readonly line: Float64Array
  /** Whether it comes back to where it began; its first position need not be repeated. */
  readonly closed: boolean
}

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
  contours: readonly ContourLine[],
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
function places({ line, closed }: ContourLine, crs: WorkingCrs): LonLat[] {
  const found: LonLat[] = []
  for (let i = 0; i + 1 < line.length; i += 2) {
    const place = crs.toGeographic(line[i], line[i + 1])
    if (place !== null) found.push(place)
  }
  if (closed && found.length > 0) found.push(found[0])
  return found
}
