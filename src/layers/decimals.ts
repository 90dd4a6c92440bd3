/** How many decimals each column is written with. Fixed for a column of a file. */
import type { WorkingCrs } from '../places/crs'

/** Longitude and latitude: 7 decimals are 11 mm at the equator (RFC 7946 section 11.2 asks for 6). */
export const DEGREE_DECIMALS = 7

/** Eastings and northings to a centimetre or finer on the ground: 2 decimals of m and ft, 5 of km. */
export function coordinateDecimals(crs: WorkingCrs): number {
  if (crs.kind === 'geographic') return DEGREE_DECIMALS
  return Math.max(0, 2 + Math.ceil(Math.log10(crs.metresPerUnit)))
}

export const DEPTH_DECIMALS = 3
export const ELEVATION_DECIMALS = 2
/** Reflectance noise, a fraction: field instruments stand between 1e-5 and 1e-2. */
export const NOISE_DECIMALS = 6
/** Share and fit, 0 to 1. */
export const SHARE_DECIMALS = 3

const BY_UNIT: Readonly<Record<string, number>> = {
  nm: 2,
  µm: 5,
  μm: 5,
  '%': 3,
  percent: 3,
  ppm: 3,
  ppb: 3,
  'g/t': 4,
  m: 2,
  km: 5,
  ft: 2,
  '°': 3,
  degree: 3,
  '': 4,
  ratio: 4,
  fraction: 4,
  share: 4,
}
const OTHER_UNIT = 4
const SIGNIFICANT = 4
const MOST = 15

/**
 * Decimals of an index column: by its unit, and more where even its largest value would keep
 * fewer than four significant digits.
 *
 * @param largest the largest magnitude in the column, 0 when it is empty
 */
export function indexDecimals(unit: string, largest: number): number {
  const usual = Object.hasOwn(BY_UNIT, unit) ? BY_UNIT[unit] : OTHER_UNIT
  if (!(largest > 0) || !Number.isFinite(largest)) return usual
  const needed = SIGNIFICANT - 1 - Math.floor(Math.log10(largest))
  return Math.min(MOST, Math.max(usual, needed))
}

/** A number at stated decimals with a point; empty for null and for what is not finite. */
export function fixed(value: number | null, decimals: number): string {
  if (value === null || !Number.isFinite(value)) return ''
  const text = value.toFixed(decimals)
  return Number(text) === 0 && text.startsWith('-') ? text.slice(1) : text
}

/** The same rounding as a JSON number, or null. */
export function rounded(value: number | null, decimals: number): number | null {
  const text = fixed(value, decimals)
  return text === '' ? null : Number(text)
}
