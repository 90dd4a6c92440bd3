/** How old the white reference was when a scan was taken. */
import type { Moment } from '../readers/time'
import type { CheckLimits } from './limits'
import type { Reason } from './verdict'

/** The two times that a scan's file may state. */
export interface ScanTimes {
  readonly time: Moment | null
  readonly whiteReference: Moment | null
}

/** References older than this belong to another day or another clock, s. */
const SAME_DAY = 12 * 3600

/**
 * For each scan the age in seconds of the last white reference known by any scan's file, or the
 * words why it cannot be told.
 */
export function whiteReferenceAges(scans: readonly ScanTimes[]): (number | string)[] {
  const references = scans
    .flatMap(({ whiteReference }) => (whiteReference === null ? [] : [whiteReference.seconds]))
    .sort((a, b) => a - b)
  return scans.map(({ time, whiteReference }) => {
    if (time === null) return 'The age of the white reference: the scan has no time.'
    const own = whiteReference?.seconds ?? -Infinity
    const last = Math.max(own, lastAtOrBefore(references, time.seconds))
    const age = time.seconds - last
    if (age >= 0 && age <= SAME_DAY) return age
    if (whiteReference === null) {
      return 'The age of the white reference: no file tells of one that day.'
    }
    return age < 0
      ? 'The age of the white reference: its time is later than the scan’s.'
      : 'The age of the white reference: it is of another day.'
  })
}

/** The reason that an age gives, if it does. */
export function staleReason(age: number | string, limits: CheckLimits): Reason | null {
  if (typeof age === 'string') return null
  const minutes = age / 60
  if (minutes <= limits.whiteReferenceAge) return null
  const words = `The last white reference was ${minutes.toFixed(0)} minutes old (limit ${limits.whiteReferenceAge}): take a new one and scan again, or compare with the scans before it.`
  return {
    reason: 'stale white reference',
    measure: minutes,
    limit: limits.whiteReferenceAge,
    unit: 'min',
    words,
  }
}

function lastAtOrBefore(sorted: readonly number[], at: number): number {
  let low = 0
  let high = sorted.length
  while (low < high) {
    const middle = (low + high) >>> 1
    if (sorted[middle] <= at) low = middle + 1
    else high = middle
  }
  return low === 0 ? -Infinity : sorted[low - 1]
}
