/** What the course of a day says of its scans: where it began, and warming up. */
import type { CheckLimits } from './limits'
import type { DetectorStep } from './steps'
import type { Reason } from './verdict'

/** A scan of the white panel: what its reference would make 1 throughout. */
export interface PanelReading {
  /** Median reflectance. */
  readonly level: number
  /** Largest less smallest 25-channel mean, over the median: tilt and steps. */
  readonly range: number
}

/** A scan in the course of its day. */
export interface DayScan {
  /** Seconds; null where no time is known. */
  readonly seconds: number | null
  /** Seconds since the last white reference; null where that cannot be told. */
  readonly age: number | null
  /** Where the scan is of the white panel, else null. */
  readonly panel: PanelReading | null
}

/** A pause longer than this begins another day, s. */
const PAUSE = 3 * 3600

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

/** A scan of the panel as seen from another scan of its day. */
export interface SeenPanel {
  /** Seconds from it to the scan; below 0 where it came after. */
  readonly before: number
  readonly level: number
}

/** For each scan the last scan of the panel of its day, else the next one; null where there is none. */
export function panelsSeen(scans: readonly DayScan[]): (SeenPanel | null)[] {
  const days = daysOf(scans.map(({ seconds }) => seconds))
  const ofDay = new Map<number, { readonly at: number; readonly level: number }[]>()
  scans.forEach(({ panel, seconds }, i) => {
    const day = days[i]
    if (panel === null || seconds === null || day === null) return
    const point = { at: seconds, level: panel.level }
    const known = ofDay.get(day)
    if (known) known.push(point)
    else ofDay.set(day, [point])
  })
  for (const points of ofDay.values()) points.sort((a, b) => a.at - b.at)
  return scans.map(({ panel, seconds }, i) => {
    const day = days[i]
    const points = day === null ? undefined : ofDay.get(day)
    if (panel !== null || seconds === null || points === undefined) return null
    const { at, level } = points.findLast((point) => point.at <= seconds) ?? points[0]
    return { before: seconds - at, level }
  })
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
