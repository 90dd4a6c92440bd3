/** The report's part on the walk: what it takes, what it brings, or why there is none. */
import type { WorkingCrs } from '../places/crs'
import { minutesOf, WALK_CAUTION, type TraverseLayer, type WalkPlan } from './traverse-layer'
import type { WrittenFile } from './report'

/** What every file of the walk is called before its extension, and in the report's list of files. */
export const TRAVERSE = 'traverse'

/** What `report.json` says of the walk: its rule, figures and files. */
export function reportedTraverse(
  { rule, surface, failure, plan }: TraverseLayer,
  crs: WorkingCrs,
  files: readonly WrittenFile[],
): object {
  return {
    surface,
    failure,
    files: files
      .filter(({ name, holds }) => name === TRAVERSE && OF_WALKS.includes(holds))
      .map(({ file }) => file),
    note:
      plan !== null && crs.kind === 'local'
        ? 'The grid is tied to nothing: the walk is in the CSV alone, for GPX and GeoJSON need longitude and latitude.'
        : '',
    rule,
    ...(plan && figuresOf(plan)),
    caution: WALK_CAUTION,
  }
}

const OF_WALKS: readonly WrittenFile['holds'][] = ['table', 'points', 'waypoints']

function figuresOf(plan: WalkPlan): object {
  const { places, error, terrain } = plan
  const stops = places.filter(({ number }) => number !== null)
  const walked = places.reduce((sum, { way }) => sum + (way?.seconds ?? 0), 0)
  return {
    stops: stops.length,
    visited_again: stops.filter(({ station }) => station !== null).length,
    leave: places[0].leave,
    back: places[places.length - 1].arrive,
    time_min: minutesOf(plan.seconds),
    time_at_most_min: minutesOf(plan.budget),
    ended_by_batteries: plan.isEndedByBatteries,
    walk_min: minutesOf(walked),
    naismith_min: minutesOf(plan.naismith),
    distance_m: plan.distance,
    climb_m: plan.climb,
    ground: terrain ?? 'taken as flat',
    mean_standard_error: error[0],
    mean_standard_error_after: error[1],
    unit: plan.unit,
    fall: plan.fall,
    unreached: plan.unreached,
  }
}
