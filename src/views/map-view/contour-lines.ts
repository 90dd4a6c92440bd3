/** Contours of a surface as GeoJSON for the map, each labelled with its value and unit. */
import type { Feature, FeatureCollection, LineString } from 'geojson'
import type { LinesOnMap } from '../../jobs/lines-on-map'

/** @param unit of the surface; empty for none */
export function contourLines(
  { degrees, lengths, levels }: LinesOnMap,
  unit: string,
): FeatureCollection {
  const features: Feature<LineString>[] = []
  let at = 0
  levels.forEach((level, line) => {
    const coordinates: [number, number][] = []
    for (let i = 0; i < lengths[line]; i++, at += 2)
      coordinates.push([degrees[at], degrees[at + 1]])
    const label = unit ? `${level}\u202f${unit}` : String(level)
    const geometry = { type: 'LineString' as const, coordinates }
    features.push({ type: 'Feature', properties: { level, label }, geometry })
  })
  return { type: 'FeatureCollection', features }
}
