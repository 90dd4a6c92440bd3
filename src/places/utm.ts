/**
 * The zones of the Universal Transverse Mercator grid: six degrees wide, with the exceptions over
 * south-west Norway and Svalbard, between 80° S and 84° N (NGA.SIG.0012, 2014, section 2).
 */

export interface UtmZone {
  readonly zone: number
  readonly south: boolean
}

/**
 * The UTM zone of a position in degrees.
 *
 * @returns null outside 80° S to 84° N, where UTM is not defined.
 */
export function utmZone(longitude: number, latitude: number): UtmZone | null {
  if (!(latitude >= -80 && latitude <= 84)) return null
  const lon = wrapLongitude(longitude)
  const south = latitude < 0
  if (latitude >= 56 && latitude < 64 && lon >= 3 && lon < 12) return { zone: 32, south }
  if (latitude >= 72 && lon >= 0 && lon < 42) {
    const zone = lon < 9 ? 31 : lon < 21 ? 33 : lon < 33 ? 35 : 37
    return { zone, south }
  }
  return { zone: Math.min(60, Math.floor((lon + 180) / 6) + 1), south }
}

/** The EPSG code of WGS 84 / UTM: 32601–32660 north, 32701–32760 south. */
export function utmEpsg({ zone, south }: UtmZone): number {
  return (south ? 32700 : 32600) + zone
}

/** A longitude brought into −180 ≤ λ < 180, degrees. */
export function wrapLongitude(longitude: number): number {
  return longitude >= -180 && longitude < 180
    ? longitude
    : longitude - 360 * Math.floor((longitude + 180) / 360)
}
