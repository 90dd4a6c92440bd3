/** What the outlines say of a place. */
import { booleanPointInPolygon } from '@turf/turf'
import type { Feature, FeatureCollection, MultiPolygon, Polygon } from 'geojson'

/**
 * Names of the areas that a place lies in, those drawn last first: cover before what it covers.
 *
 * @param longitude, latitude degrees, WGS 84
 */
export function unitsAt(
  outlines: FeatureCollection,
  longitude: number,
  latitude: number,
): string[] {
  return outlines.features
    .filter(isArea)
    .filter((area) => booleanPointInPolygon([longitude, latitude], area))
    .flatMap(({ properties }) => {
      const name: unknown = properties?.name
      return typeof name === 'string' && name !== '' ? [name] : []
    })
    .reverse()
}

function isArea(feature: Feature): feature is Feature<Polygon | MultiPolygon> {
  return feature.geometry?.type === 'Polygon' || feature.geometry?.type === 'MultiPolygon'
}
