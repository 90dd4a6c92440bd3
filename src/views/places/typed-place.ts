/** A place that a person types: degrees in any usual form, MGRS, or easting and northing. */
import { parsePosition } from '../../places/coordinates'
import type { WorkingCrs } from '../../places/crs'

/** WGS 84, degrees. */
export interface TypedPlace {
  readonly longitude: number
  readonly latitude: number
}

/**
 * Reads a typed place. Two numbers that cannot be degrees are an easting and a northing in the
 * working system.
 *
 * @param crs the working system; null where none is set yet
 * @throws Error that says what is wrong and what to write
 */
export function typedPlace(text: string, crs: WorkingCrs | null): TypedPlace {
  const pair = /^(-?\d+(?:[.,]\d+)?)[\s;,]+(-?\d+(?:[.,]\d+)?)$/.exec(text.trim())
  const numbers = pair?.slice(1).map((number) => Number(number.replace(',', '.'))) ?? []
  const isGrid = numbers.some((number) => Math.abs(number) > 180)
  if (!isGrid) {
    const { longitude, latitude } = parsePosition(text)
    return { longitude, latitude }
  }
  if (crs === null || crs.kind === 'local')
    throw new Error(
      'Easting and northing need a working coordinate system: set one above, or write degrees',
    )
  const degrees = crs.toGeographic(numbers[0], numbers[1])
  const back = degrees && crs.fromGeographic(...degrees)
  // Far outside its area a projection gives some place that does not lead back.
  if (!degrees || !back || Math.hypot(back[0] - numbers[0], back[1] - numbers[1]) > 1)
    throw new Error(
      `“${text.trim()}” lies outside ${crs.code} ${crs.name}: easting first, then northing`,
    )
  return { longitude: degrees[0], latitude: degrees[1] }
}
