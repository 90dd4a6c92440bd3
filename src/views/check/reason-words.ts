/** What a reason measured, and the limit that it was held against. */
import type { Reason } from '../../check/verdict'
import { twoDigits } from '../numbers'

/** Scans that check their day: what they are is no departure, and their limit is for others. */
const NO_DEPARTURE: readonly string[] = ['wavelength standard', 'check rock']

/** Such as `measured 16 min, limit 15 min`; parts of 1 are told in percent. Empty where nothing was measured. */
export function measureWords({ reason, measure, limit, unit }: Reason): string {
  if (!Number.isFinite(measure) || NO_DEPARTURE.includes(reason)) return ''
  // A ratio to noise is the one pure number among the reasons; the others are parts of 1.
  if (unit === '' && reason !== 'noise') {
    return `measured ${figure(100 * measure)}\u202f%, limit ${setting(100 * limit)}\u202f%`
  }
  const own = unit === 'noise' ? 'times the noise' : unit
  const tail = own ? `\u202f${own}` : ''
  return `measured ${figure(measure)}${tail}, limit ${setting(limit)}${tail}`
}

/** Whole from 10 on, two digits below. */
function figure(value: number): string {
  if (Math.abs(value) < 10) return twoDigits(value)
  return value.toFixed(0).replace('-', '−')
}

/** A limit as it was set. */
function setting(value: number): string {
  return String(Number(value.toPrecision(6)))
}
