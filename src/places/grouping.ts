/** How scans that no table and no hole places are gathered into stations: the limits of the rule. */
import { TRACK_DEFAULTS } from './tracks'

/** The rule's limits, as the recipe names them. */
export interface Grouping {
  /** Whether times count; without them names and distance alone. */
  readonly by_time: boolean
  /** The longest gap between two scans of one burst, seconds. */
  readonly gap_s: number
  /** After a longer pause scans of like names are another station, seconds. */
  readonly pause_s: number
  /** Scans of like names within this distance were taken on one spot, metres. */
  readonly near_m: number
  /** No station is wider, unless a person made it so, metres. */
  readonly widest_m: number
}

/** The members that a recipe may set. */
export type GroupingChoice = Partial<Grouping>

/**
 * What counts where the recipe says nothing. Common practice, all four: the probe is lifted and set
 * down again within the minute; ten minutes at a spot are a long stop; a receiver wanders by 6 m
 * while somebody stands still; and 25 m off is no wandering any more.
 */
export const USUAL_GROUPING: Grouping = {
  by_time: true,
  gap_s: 60,
  pause_s: 600,
  near_m: 6,
  widest_m: 25,
}

/** The least and the most of each limit. */
export const GROUPING_BOUNDS = {
  gap_s: [1, 3600],
  pause_s: [1, 86_400],
  near_m: [0.1, 1000],
  widest_m: [0.1, 1000],
} as const satisfies Readonly<Record<Exclude<keyof Grouping, 'by_time'>, readonly [number, number]>>

/** The limits under a choice. */
export function groupingOf(choice: GroupingChoice | undefined): Grouping {
  return { ...USUAL_GROUPING, ...choice }
}

/** What is wrong with a choice of limits, or null. */
export function groupingFault(choice: GroupingChoice): string | null {
  const { gap_s, pause_s, near_m, widest_m } = groupingOf(choice)
  if (near_m > widest_m) {
    return `near_m (${near_m}) is more than widest_m (${widest_m}): no station may be that wide`
  }
  if (gap_s > pause_s) {
    return `gap_s (${gap_s}) is more than pause_s (${pause_s}): a gap within a burst is no pause`
  }
  return null
}

/**
 * Standard errors that fixes on one spot may lie apart. Of three points with a radial standard error
 * of 1 the two farthest are less than 2.82 apart in 95 of 100 cases (simulated with NumPy).
 */
const SPREAD = 3

/**
 * How far apart fixes on one spot may lie, metres: three times the largest of their standard errors,
 * but `near_m` at least and `widest_m` at most.
 *
 * @param error one standard error, metres; null where nothing states it, which is taken for 5 m
 */
export function spread(error: number | null, { near_m, widest_m }: Grouping): number {
  return Math.min(widest_m, Math.max(near_m, SPREAD * (error ?? TRACK_DEFAULTS.fixError)))
}
