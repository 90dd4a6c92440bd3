/** Numbers as the screen shows them: with unit, and with their error where they have one. */
import type { Measured, Missing } from '../indices/rule'
import type { Testing } from '../surfaces/model'
import { inTwoDigits } from '../surfaces/two-digits'

/**
 * A number with as many decimals as its error carries: the error is given to one digit, two
 * where it begins with 1, and the value to the same place (common practice).
 *
 * @returns such as `2208.4 ± 0.3 nm`; `—` where there is no value
 */
export function withError({ value, error }: Measured, unit = ''): string {
  if (value === null) return '—'
  const tail = unit ? `\u202f${unit}` : ''
  if (error === null || !(error > 0)) return `${plain(value)}${tail}`
  const decimals = errorDecimals(error)
  return `${fixed(value, decimals)} ± ${fixed(error, decimals)}${tail}`
}

/** Why there is no value, as the screen says it; the tables keep the short codes. */
const WHY_MISSING: Readonly<Record<Missing, string>> = {
  'condition false': 'condition not met',
  'minimum at edge': 'no minimum in its range',
  'gap in channels': 'channels missing there',
  'no mathematical answer': 'no mathematical answer',
  'not identified': 'scan not identified',
  'no such cell': 'no such cell in a table',
  'text, not a number': 'text, not a number',
  'no scan': 'no scan that counts',
}

/** A value with its unit and error, or why there is none. */
export function valueOrWhy(measured: Measured, unit = ''): string {
  if (measured.value !== null) return withError(measured, unit)
  return measured.missing ? WHY_MISSING[measured.missing] : '—'
}

/** A number to four significant digits without an exponent where that can be avoided. */
export function plain(value: number): string {
  if (!Number.isFinite(value)) return '—'
  if (value === 0) return '0'
  const magnitude = Math.floor(Math.log10(Math.abs(value)))
  if (magnitude > 9 || magnitude < -5) return value.toExponential(2).replace('-', '−')
  return fixed(value, Math.max(0, 3 - magnitude))
}

/** A number with fixed decimals and a true minus sign. */
export function fixed(value: number, decimals: number): string {
  const text = value.toFixed(Math.min(Math.max(decimals, 0), 12))
  return (Number(text) === 0 ? text.replace('-', '') : text).replace('-', '−')
}

/** A figure that is itself not known better, such as an error. */
export function twoDigits(value: number, unit = ''): string {
  const digits = inTwoDigits(value).replaceAll('-', '−')
  return unit ? `${digits}\u202f${unit}` : digits
}

/** A share or probability in percent. */
export function percent(part: number): string {
  return `${Math.round(100 * part)}\u202f%`
}

/** Part of the stations inside their 90 % interval, with its error where one is known. */
export function partInside({
  coverage90: part,
  coverage90Error: error,
}: Pick<Testing, 'coverage90' | 'coverage90Error'>): string {
  if (part === null || part === undefined) return '—'
  if (!error) return percent(part)
  return `${Math.round(100 * part)} ± ${percent(Math.max(0.01, error))}`
}

function errorDecimals(error: number): number {
  const magnitude = Math.floor(Math.log10(error))
  const leading = error / 10 ** magnitude
  return Math.max(0, -magnitude + (leading < 2 ? 1 : 0))
}
