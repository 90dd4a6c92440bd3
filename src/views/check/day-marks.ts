/** A day's marks: which one a press or a key means, and what lies in a stretch of the day. */
import type { TimedScan } from './days'

/** Part of a day, s, both ends included. */
export interface Stretch {
  readonly from: number
  readonly to: number
}

/** Whether a scan was taken within a stretch; one without a time lies in none. */
export function isWithin(seconds: number | null, stretch: Stretch): boolean {
  return seconds !== null && seconds >= stretch.from && seconds <= stretch.to
}

/**
 * The mark that a press means: the nearest in the pressed row and in time, `null` where none is near.
 *
 * @param awayOf px from the press to a scan's mark; a wrong row counts as some px
 * @param reach px beyond which nothing was meant
 */
export function nearestMark(
  scans: readonly TimedScan[],
  awayOf: (scan: TimedScan) => number,
  reach: number,
): TimedScan | null {
  let best: { scan: TimedScan; away: number } | null = null
  for (const scan of scans) {
    const away = awayOf(scan)
    if (away < (best?.away ?? reach)) best = { scan, away }
  }
  return best?.scan ?? null
}

/** Where the keys lead from the `at`th of a day's scans; null for a key that leads nowhere. */
export function markByKey(key: string, at: number, count: number): number | null {
  const to = {
    ArrowLeft: at - 1,
    ArrowDown: at - 1,
    ArrowRight: at + 1,
    ArrowUp: at + 1,
    PageUp: at + 10,
    PageDown: at - 10,
    Home: 0,
    End: count - 1,
  }[key]
  return to === undefined || count === 0 ? null : Math.min(count - 1, Math.max(0, to))
}
