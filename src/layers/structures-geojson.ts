/** `structures.geojson`: structural measurements as points, azimuths from true north. */
import type { WorkingCrs } from '../places/crs'
import { rounded } from './decimals'
import { featureCollection, pointFeature, type LonLat, type Property } from './geojson'

/** Compass and protractor read to half a degree at best. */
const ANGLE_DECIMALS = 1

/** A measurement as it leaves; degrees, null where the form has none. */
export interface StructureRow {
  readonly station: string
  readonly hole: string | null
  /** Metres along the hole. */
  readonly depth: number | null
  /** What was measured, such as `vein`. */
  readonly kind: string
  readonly form: 'plane' | 'line' | 'core'
  readonly dip: number | null
  /** Clockwise from true north, as trend. */
  readonly dipDirection: number | null
  readonly trend: number | null
  readonly plunge: number | null
  readonly alpha: number | null
  readonly beta: number | null
  readonly reference: 'bottom' | 'top' | null
  /** Degrees east that were added to what the compass read; 0 where it was set to true north. */
  readonly declination: number | null
  /** Degrees, WGS 84; null where unknown. */
  readonly place: LonLat | null
}

/** Where a plane strikes so that it dips to the right: 90° before its dip direction. */
export function strikeOf(dipDirection: number): number {
  return (dipDirection + 270) % 360
}

/**
 * The file's bytes: a point a measurement, in the order given.
 *
 * @returns null for a local grid, which has no longitude and latitude.
 */
export function structuresGeojson(
  crs: WorkingCrs,
  rows: readonly StructureRow[],
): Uint8Array | null {
  if (crs.kind === 'local') return null
  return featureCollection(rows.map((row) => pointFeature(row.place, properties(row))))
}

function properties(row: StructureRow): Property[] {
  const angle = (value: number | null) => rounded(value, ANGLE_DECIMALS)
  return [
    ['station', row.station],
    ['hole', row.hole],
    ['depth', rounded(row.depth, 3)],
    ['kind', row.kind],
    ['form', row.form],
    ['dip', angle(row.dip)],
    ['dip_direction', angle(row.dipDirection)],
    ['strike', row.dipDirection === null ? null : angle(strikeOf(row.dipDirection))],
    ['trend', angle(row.trend)],
    ['plunge', angle(row.plunge)],
    ['alpha', angle(row.alpha)],
    ['beta', angle(row.beta)],
    ['reference', row.reference],
    ['declination', angle(row.declination)],
  ]
}
