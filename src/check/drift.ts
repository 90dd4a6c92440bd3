/** How far the instrument has drifted since its white reference, by the day's scans of the panel. */
import { sinceDayBegan, type DayScan } from './day'
import type { CheckLimits } from './limits'
import type { Reason } from './verdict'

/** Drift since the white reference, fractions of reflectance. */
export interface Drift {
  /** Alike at all wavelengths. */
  readonly even: number
  /** From the wavelengths that drifted most to those that drifted least or the other way. */
  readonly uneven: number
}

/** Panel scans sooner after their reference than this say nothing of drift, s. */
const SOONEST = 120

/** A panel scan of a stretch that begins at nothing: at `since` seconds into it. */
interface Point extends Drift {
  readonly since: number
}

/**
 * How far each scan had drifted; null where no panel scan tells. Panel scans that share a scan's
 * white reference count from it on: a panel that reads 1 after its reference and 0.94 an hour
 * later has drifted by −6 % an hour, taken as even in between (common practice). Where no file
 * tells of a reference that day, the panel's own scans are joined by straight lines from the
 * day's first scan to the last of them; a reference taken between two is not seen.
 */
export function driftsOf(scans: readonly DayScan[]): (Drift | null)[] {
  const begun = sinceDayBegan(scans)
  const places = scans.map(({ seconds, age }, i): { key: string; since: number } | null => {
    const since = begun[i]
    if (seconds === null || since === null) return null
    if (age !== null) return { key: `reference ${Math.round(seconds - age)}`, since: age }
    return { key: `day ${Math.round(seconds - since)}`, since }
  })
  const points = new Map<string, Point[]>()
  scans.forEach(({ panel }, i) => {
    const place = places[i]
    if (panel === null || place === null || place.since < SOONEST) return
    const point = { since: place.since, even: panel.level - 1, uneven: panel.range }
    const known = points.get(place.key)
    if (known) known.push(point)
    else points.set(place.key, [point])
  })
  for (const known of points.values()) known.sort((a, b) => a.since - b.since)
  return scans.map(({ panel, age }, i) => {
    const place = places[i]
    const known = place === null ? undefined : points.get(place.key)
    if (panel !== null || place === null || known === undefined) return null
    return age === null ? between(known, place.since) : alongFirst(known, place.since)
  })
}

/** On the line from the reference to the first panel scan after, else to the last before. */
function alongFirst(points: readonly Point[], since: number): Drift | null {
  const point = points.find((panel) => panel.since >= since) ?? points.at(-1)
  if (!point) return null
  const part = since / point.since
  return { even: point.even * part, uneven: point.uneven * part }
}

/** On the line between the panel scans before and after; null after the last. */
function between(points: readonly Point[], since: number): Drift | null {
  const next = points.findIndex((panel) => panel.since >= since)
  if (next < 0) return null
  const before = next === 0 ? { since: 0, even: 0, uneven: 0 } : points[next - 1]
  const after = points[next]
  const part = (since - before.since) / (after.since - before.since)
  return {
    even: before.even + part * (after.even - before.even),
    uneven: before.uneven + part * (after.uneven - before.uneven),
  }
}

/** The reason that drift gives, if it does: the larger of even and uneven drift. */
export function driftReason(drift: Drift | null, limits: CheckLimits): Reason | null {
  if (drift === null) return null
  const isUneven = drift.uneven > Math.abs(drift.even)
  const measure = isUneven ? drift.uneven : drift.even
  if (Math.abs(measure) < limits.drift) return null
  const percent = `${(100 * measure).toFixed(1)} %`
  const words = isUneven
    ? `By a scan of the panel some wavelengths had drifted by ${percent} against others since the white reference: take references more often; slopes, ratios and steps here are off by that much.`
    : `By a scan of the panel the instrument had drifted by ${percent} since its white reference: take references more often; brightness and slopes here are off by that much.`
  return { reason: 'drift', measure, limit: limits.drift, unit: '', words }
}
