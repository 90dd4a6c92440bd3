/** When a walk is where, and on which battery. */
import { naismithSeconds } from './walking'

/** A way from one place of the walk to the next. */
export interface Leg {
  readonly seconds: number
  /** Metres. */
  readonly distance: number
  readonly climb: number
  readonly descent: number
}

export interface Batteries {
  readonly count: number
  /** How long one lasts, seconds. */
  readonly seconds: number
}

export interface StopTime {
  /** Seconds since leaving. */
  readonly arrive: number
  readonly leave: number
  /** The battery in use when it is left, counted from 1; null where they are not counted. */
  readonly battery: number | null
}

export interface Timetable {
  readonly stops: readonly StopTime[]
  /** Seconds from leaving to being back. */
  readonly seconds: number
  /** Metres over all legs. */
  readonly distance: number
  readonly climb: number
  /** What walking alone would take by Naismith's rule, seconds. */
  readonly naismith: number
}

/**
 * The times of a walk: a leg to each stop and one back.
 *
 * @param stopSeconds work at each stop
 * @param batteries null where they are not counted
 */
export function timetableOf(
  legs: readonly Leg[],
  stopSeconds: number,
  batteries: Batteries | null,
): Timetable {
  const stops: StopTime[] = []
  let now = 0
  for (const leg of legs.slice(0, -1)) {
    const arrive = now + leg.seconds
    now = arrive + stopSeconds
    // The instrument stays on, and each battery is used up before the next.
    const battery =
      batteries && Math.min(batteries.count, Math.max(1, Math.ceil(now / batteries.seconds)))
    stops.push({ arrive, leave: now, battery })
  }
  const distance = legs.reduce((sum, leg) => sum + leg.distance, 0)
  const climb = legs.reduce((sum, leg) => sum + leg.climb, 0)
  return {
    stops,
    seconds: now + (legs.at(-1)?.seconds ?? 0),
    distance,
    climb,
    naismith: naismithSeconds(distance, climb),
  }
}
