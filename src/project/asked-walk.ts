/** What a rule for a walk asks, in the terms of the surface, the ground and the stations. */
import type { TraverseInput } from '../jobs/traverse'
import type { WorkingCrs } from '../places/crs'
import { foldedName } from '../places/names'
import type { Placement } from '../places/place-scans'
import type { InputFile } from '../readers/input'
import type { Place, WantedPlace } from '../traverse/layout'
import type { Batteries } from '../traverse/timetable'
import { boundariesOf, driftOf } from './boundaries'
import {
  secondsOf,
  TRAVERSE_DEFAULTS,
  type TraverseEnd,
  type TraverseRule,
} from './recipe-traverse'
import type { SurfaceResult } from './results'

/** What a walk is planned from. */
export interface TraversingInput {
  readonly surfaces: readonly SurfaceResult[]
  readonly placement: Placement
  /** The project's rasters and GeoJSON files. */
  readonly ground: readonly InputFile[]
}

/** All that a walk's layout is asked with, and what is already known not to be reached. */
export interface AskedWalk {
  readonly input: TraverseInput
  readonly unknown: readonly string[]
  readonly unit: string
  readonly mostStops: number
  readonly batteries: Batteries | null
  /** Whether batteries end the walk before its day does. */
  readonly isEndedByBatteries: boolean
  /** The terrain's name; null for flat ground. */
  readonly terrain: string | null
  readonly crs: WorkingCrs
}

/**
 * What a rule asks.
 *
 * @throws Error in words where it names what is not there
 */
export function askedWalk(
  rule: TraverseRule,
  surface: SurfaceResult | undefined,
  { placement, ground }: TraversingInput,
): AskedWalk {
  const { crs } = placement
  if (!surface) throw new Error(`There is no surface ‘${rule.surface}’: choose another.`)
  const { bands, variogram, points } = surface
  if (surface.failure !== null || !bands)
    throw new Error(
      `The surface ‘${rule.surface}’ could not be computed: mend it, or choose another.`,
    )
  if (!variogram || !points)
    throw new Error(
      `The surface ‘${rule.surface}’ has no variogram, so that nothing tells where it is unsure: choose one that is kriged.`,
    )
  const { wanted, unknown } = wantedOf(rule, placement)
  const day = secondsOf(rule.back) - secondsOf(rule.leave)
  const batteries =
    rule.batteries === undefined
      ? null
      : { count: rule.batteries, seconds: 3600 * (rule.battery_hours ?? 0) }
  const powered = batteries ? batteries.count * batteries.seconds : Infinity
  const start = placeOf(rule.start, crs)
  const avoided = boundariesOf(
    { ...surface.rule, within: rule.avoid, barriers: undefined },
    ground,
    crs,
  )
  const isTransformed = surface.rule.transform !== undefined
  return {
    input: {
      // Where it is drawn tells all; its variance would be copied to a worker for nothing.
      bands: { ...bands, variance: null },
      variogram,
      // Errors of transformed values are not known in the units of the variogram.
      points: isTransformed ? { ...points, error: undefined } : points,
      start,
      end: rule.end ? placeOf(rule.end, crs) : start,
      budget: Math.min(day, powered),
      stopSeconds: 60 * rule.stop_minutes,
      wanted,
      terrain: driftOf({ drift: rule.terrain }, ground, crs),
      avoided: avoided?.within ?? [],
      metresPerUnit: crs.metresPerUnit,
      pace: rule.pace ?? TRAVERSE_DEFAULTS.pace,
      steepest: rule.steepest ?? TRAVERSE_DEFAULTS.steepest,
    },
    unknown,
    unit: isTransformed ? '' : surface.unit,
    mostStops: rule.most_stops ?? Infinity,
    batteries,
    isEndedByBatteries: powered < day,
    terrain: rule.terrain ?? null,
    crs,
  }
}

function wantedOf(
  { visit = [] }: TraverseRule,
  { stations }: Placement,
): { readonly wanted: WantedPlace[]; readonly unknown: string[] } {
  const known = new Map<string, WantedPlace>()
  for (const { name, hole, position } of stations) {
    const key = foldedName(name)
    // A sample of a hole may have the name of a spot on the ground, which is the one to walk to.
    if (hole === null && !known.has(key))
      known.set(key, { name, x: position.easting, y: position.northing })
  }
  const wanted = new Set<WantedPlace>()
  const unknown: string[] = []
  for (const name of visit) {
    const station = known.get(foldedName(name))
    if (station) wanted.add(station)
    else unknown.push(name)
  }
  return { wanted: [...wanted], unknown }
}

function placeOf(end: TraverseEnd, crs: WorkingCrs): Place {
  if ('easting' in end) return { x: end.easting, y: end.northing }
  const plane = crs.fromGeographic(end.longitude, end.latitude)
  if (plane === null)
    throw new Error(
      `Longitude ${end.longitude}, latitude ${end.latitude} has no place in ${crs.name}: set the walk’s start and end again on the map.`,
    )
  return { x: plane[0], y: plane[1] }
}
