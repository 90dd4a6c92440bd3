/**
 * How old the white reference was when a scan was taken.
 *
 * A scan of the panel is none: it was divided by the reference that stood then and leaves it as it
 * was. What it read says how that reference held, so that it is told beside an age and beside an
 * age that no file tells.
 */
import type { Moment } from '../readers/time'
import type { SeenPanel } from './day'
import type { CheckLimits } from './limits'
import type { Reason } from './verdict'

/** The two times that a scan's file may state. */
export interface ScanTimes {
  readonly time: Moment | null
  readonly whiteReference: Moment | null
}

/** References older than this belong to another day or another clock, s. */
const SAME_DAY = 12 * 3600

const NONE_THAT_DAY = 'The age of the white reference: no file tells of one that day.'

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
    if (whiteReference === null) return NONE_THAT_DAY
    return age < 0
      ? 'The age of the white reference: its time is later than the scan’s.'
      : 'The age of the white reference: it is of another day.'
  })
}

/** The reason that an age gives, if it does. `panel` is the scan of the panel to tell beside it. */
export function staleReason(
  age: number | string,
  limits: CheckLimits,
  panel: SeenPanel | null = null,
): Reason | null {
  if (typeof age === 'string') return null
  const minutes = age / 60
  if (minutes <= limits.whiteReferenceAge) return null
  const words = `The last white reference was ${minutes.toFixed(0)} minutes old (limit ${limits.whiteReferenceAge}): take a new one and scan again, or compare with the scans before it.${panelWords(panel)}`
  return {
    reason: 'stale white reference',
    measure: minutes,
    limit: limits.whiteReferenceAge,
    unit: 'min',
    words,
  }
}

function panelWords(panel: SeenPanel | null): string {
  if (panel === null) return ''
  const minutes = Math.abs(panel.before / 60).toFixed(0)
  const when = panel.before < 0 ? 'later' : 'earlier'
  return ` A scan of the panel ${minutes} minutes ${when} read ${panel.level.toFixed(3)}: that shows how this reference held, and is no new one.`
}

/** Why an age cannot be told, in words that say so of the panel where that was scanned. */
export function untoldAge(why: string, panel: SeenPanel | null): string {
  if (panel === null || why !== NONE_THAT_DAY) return why
  return `${why.slice(0, -1)}; the panel was scanned, which shows drift and is no new reference.`
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
