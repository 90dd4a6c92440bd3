/** Contours of a surface as GeoJSON for the map, each labelled with its value and unit. */
import type { Feature, FeatureCollection, LineString } from 'geojson'
import type { MapFrame } from '../../jobs/map-frame'
import type { SurfaceResult } from '../../project/results'

/** Contour lines in degrees; points off the map are left out. */
export function contourLines(surface: SurfaceResult, frame: MapFrame): FeatureCollection {
  const features = surface.contours.flatMap(({ level, x, y }): Feature<LineString>[] => {
    const coordinates: [number, number][] = []
    for (let i = 0; i < x.length; i++) {
      const degrees = frame.toDegrees(x[i], y[i])
      if (degrees) coordinates.push([degrees[0], degrees[1]])
    }
    if (coordinates.length < 2) return []
    const label = surface.unit ? `${level} ${surface.unit}` : String(level)
    return [
      {
        type: 'Feature',
        properties: { level, label },
        geometry: { type: 'LineString', coordinates },
      },
    ]
  })
  return { type: 'FeatureCollection', features }
}
