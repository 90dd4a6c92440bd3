/** A planned walk: its stops, its ways, and what it brings. */
import type { WalkedLeg } from '../jobs/traverse'
import type { WalkFigures } from '../layers/traverse-layer'
import type { Chosen } from '../traverse/choose-route'
import type { Layout, Place } from '../traverse/layout'
import { timetableOf, type StopTime } from '../traverse/timetable'
import type { AskedWalk } from './asked-walk'
import type { TraverseRule } from './recipe-traverse'

/** A place of the walk, in working units and degrees. */
export interface TraversePlace extends Place {
  /** Degrees; null on a grid tied to nothing. */
  readonly longitude: number | null
  readonly latitude: number | null
}

/** A stop of the walk. */
export interface TraverseStop extends StopTime, TraversePlace {
  /** The station that is visited again; null for a new one. */
  readonly station: string | null
  /** Part by which the mean variance falls by it, once those before it are stations. */
  readonly fall: number
}

/** A planned walk. */
export interface TraversePlan extends WalkFigures {
  readonly start: TraversePlace
  readonly end: TraversePlace
  readonly stops: readonly TraverseStop[]
  /** To each stop, and from the last one to the end. */
  readonly legs: readonly WalkedLeg[]
}

export interface TraverseResult {
  readonly rule: TraverseRule
  readonly state: 'computing' | 'ready' | 'failed'
  /** Why it failed, in words; null otherwise. */
  readonly failure: string | null
  /** While it is computed, the one before; null where there is none. */
  readonly plan: TraversePlan | null
}

/** What was chosen, as it is shown and written. */
export function planOf(
  { input, unknown, unit, batteries, isEndedByBatteries, terrain, crs }: AskedWalk,
  { places, names, unreached }: Layout,
  { route, falls, variance, error }: Chosen,
  legs: readonly WalkedLeg[],
): TraversePlan {
  const { stops: times, ...timetable } = timetableOf(legs, input.stopSeconds, batteries)
  const on = new Set(route.places.map((place) => names[place]))
  const placeAt = (place: number): TraversePlace => {
    const [x, y] = [places.x[place], places.y[place]]
    const degrees = crs.toGeographic(x, y)
    return { x, y, longitude: degrees?.[0] ?? null, latitude: degrees?.[1] ?? null }
  }
  const late = names.filter((name): name is string => name !== null && !on.has(name))
  return {
    ...timetable,
    start: placeAt(0),
    end: placeAt(places.x.length - 1),
    stops: route.places.slice(1, -1).map((place, i): TraverseStop => ({
      ...times[i],
      ...placeAt(place),
      station: names[place],
      fall: falls[i] / variance[0],
    })),
    legs,
    budget: input.budget,
    isEndedByBatteries,
    error,
    unit,
    fall: 1 - variance[1] / variance[0],
    unreached: [
      ...unknown.map((station) => ({ station, why: 'no station on the ground has this name' })),
      ...unreached.map((station) => ({ station, why: 'it is too far, or no way leads to it' })),
      ...late.map((station) => ({ station, why: 'there is no time for it' })),
    ],
    terrain,
  }
}
