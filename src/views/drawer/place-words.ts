/** A station's coordinates as they are read and copied: with the minus that programs take. */
import type { WorkingCrs } from '../../places/crs'
import type { Position } from '../../places/station'

/** Coordinates in the working CRS, such as `471240.5, 7245616.8 EPSG:32719`. */
export function gridWords({ easting, northing }: Position, crs: WorkingCrs): string {
  const decimals =
    crs.kind === 'geographic' ? 6 : Math.max(1, 1 + Math.round(Math.log10(crs.metresPerUnit)))
  return `${easting.toFixed(decimals)}, ${northing.toFixed(decimals)} ${crs.code}`
}

/**
 * Latitude before longitude, as receivers and maps take them (ISO 6709): `-24.903172, -69.187654`,
 * to 0.1 m; empty for a grid that is tied to nothing.
 */
export function globeWords({ longitude, latitude }: Position): string {
  if (longitude === null || latitude === null) return ''
  return `${latitude.toFixed(6)}, ${longitude.toFixed(6)}`
}

/** How far off the place may be, or that nothing tells. */
export function errorWords({ error }: Position, crs: WorkingCrs): string {
  return error === null ? 'not known' : `± ${error.toFixed(1)} ${crs.unit} (one standard error)`
}
