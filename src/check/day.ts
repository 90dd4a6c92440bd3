/** What the course of a day says of its scans: drift against the panel, and warming up. */
import type { CheckLimits } from './limits'
import type { DetectorStep } from './steps'
import type { Reason } from './verdict'

/** A scan in the course of its day. */
export interface DayScan {
  /** Seconds; null where no time is known. */
  readonly seconds: number | null
  /** Seconds since the last white reference; null where that cannot be told. */
  readonly age: number | null
  /** Median reflectance where the scan is of the white panel, else null. */
  readonly panel: number | null
}

/** A pause longer than this begins another day, s. */
const PAUSE = 3 * 3600
/** Panel scans sooner after their reference than this say nothing of drift, s. */
const SOONEST = 120

/**
 * How far each scan has drifted, as a fraction, from the scans of the panel that share its white
 * reference: a panel that reads 1 after its reference and 0.94 an hour later has drifted by
 * −6 % an hour, taken as even in between (common practice). Null where no such scan is known.
 */
export function driftsOf(scans: readonly DayScan[]): (number | null)[] {
  const rates = new Map<number, { seconds: number; rate: number }[]>()
  for (const { seconds, age, panel } of scans) {
    if (seconds === null || age === null || panel === null || age < SOONEST) continue
    const reference = Math.round(seconds - age)
    const known = rates.get(reference) ?? []
    known.push({ seconds, rate: (panel - 1) / age })
    rates.set(reference, known)
  }
  return scans.map(({ seconds, age, panel }) => {
    if (seconds === null || age === null || panel !== null) return null
    const known = rates.get(Math.round(seconds - age))
    if (!known) return null
    // The first panel scan after this one tells it best, else the last before.
    const sorted = [...known].sort((a, b) => a.seconds - b.seconds)
    const best = sorted.find((panelScan) => panelScan.seconds >= seconds) ?? sorted.at(-1)
    return best ? best.rate * age : null
  })
}

/** The reason that drift gives, if it does. */
export function driftReason(drift: number | null, limits: CheckLimits): Reason | null {
  if (drift === null || Math.abs(drift) < limits.drift) return null
  const words = `By a scan of the panel the instrument had drifted by ${(100 * drift).toFixed(1)} % since its white reference: take references more often; brightness and depths here are off by that much.`
  return { reason: 'drift', measure: drift, limit: limits.drift, unit: '', words }
}

/** A pause longer than this is a night, s: work past midnight stays one day. */
const NIGHT = 5 * 3600

/** The day that each scan was taken on, counted from 0; null where no time is known. */
export function daysOf(seconds: readonly (number | null)[]): (number | null)[] {
  const times = seconds.filter((time) => time !== null).sort((a, b) => a - b)
  const begins = times.filter((time, i) => i === 0 || time - times[i - 1] > NIGHT)
  return seconds.map((time) =>
    time === null ? null : begins.findLastIndex((begin) => begin <= time),
  )
}

/** Seconds since the first scan of the day for each scan; null where no time is known. */
export function sinceDayBegan(scans: readonly DayScan[]): (number | null)[] {
  const times = scans
    .flatMap(({ seconds }) => (seconds === null ? [] : [seconds]))
    .sort((a, b) => a - b)
  const begins = times.filter((time, i) => i === 0 || time - times[i - 1] > PAUSE)
  return scans.map(({ seconds }) => {
    if (seconds === null) return null
    const begin = begins.findLast((time) => time <= seconds)
    return begin === undefined ? null : seconds - begin
  })
}

/** Steps must be this many of their errors to tell of warming up. */
const CERTAIN = 3

/**
 * The reason that warming up gives: early in the day, and steps at the joins of half the limit
 * or more, for the detectors warm at different rates.
 */
export function warmUpReason(
  since: number | null,
  steps: readonly (DetectorStep | null)[],
  limits: CheckLimits,
): Reason | null {
  if (since === null || since / 60 >= limits.warmUp) return null
  const least = limits.detectorStep / 2
  const isStepped = steps.some(
    (step) =>
      step !== null && Math.abs(step.size) >= Math.max(least, CERTAIN * Math.abs(step.error)),
  )
  if (!isStepped) return null
  const minutes = since / 60
  const words = `Taken ${minutes.toFixed(0)} minutes after the day’s first scan, with steps at the detector joins: the instrument was warming up; scan again.`
  return { reason: 'warm-up', measure: minutes, limit: limits.warmUp, unit: 'min', words }
}
