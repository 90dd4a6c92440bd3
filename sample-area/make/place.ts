/** Where the invented prospect lies, and its two coordinate systems. */
import proj4 from 'proj4'

/** The prospect's name, in words that say it is invented. */
export const AREA_NAME = 'Velarca'
export const STATEMENT =
  'Velarca is an invented prospect: invented scenario, invented data. Every scan, sample, outline and height was made by a script.'

/** WGS 84 / UTM zone 19S. */
export const EPSG = 32719
const UTM = '+proj=utm +zone=19 +south +datum=WGS84 +units=m +no_defs'

/** The mapped rectangle, 4 km by 3 km, metres in EPSG:32719. */
export const AREA = { west: 471000, east: 475000, south: 7244000, north: 7247000 } as const

/** A point on the ground, metres in EPSG:32719. */
export interface GroundPoint {
  readonly x: number
  readonly y: number
}

const toUtm = proj4('+proj=longlat +datum=WGS84 +no_defs', UTM)

/** Longitude and latitude in degrees on WGS 84. */
export function toDegrees(point: GroundPoint): [longitude: number, latitude: number] {
  const [longitude, latitude] = toUtm.inverse([point.x, point.y])
  return [longitude, latitude]
}

/** A GeoJSON position of seven decimals, about a centimetre (RFC 7946 section 11.2). */
export function toPosition(point: GroundPoint): [number, number] {
  const [longitude, latitude] = toDegrees(point)
  return [Number(longitude.toFixed(7)), Number(latitude.toFixed(7))]
}
