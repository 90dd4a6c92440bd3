/** A planned walk as it leaves: its places and ways as plain rows. */
import type { Leg, Timetable } from '../traverse/timetable'

/** Stands with every walk that leaves. */
export const WALK_CAUTION =
  'A proposal made of elevations and averages; nobody has walked it. It knows no cliffs, loose ground, water, fences, weather, permission or company. Judge the ground yourself, keep to your employer’s rules and to local law, and let somebody know where you go and when you are back.'

/** A way from one place of the walk to the next, over nodes of the grid that is walked on. */
export interface WalkedWay extends Leg {
  /** Working units, one a node. */
  readonly x: Float64Array
  readonly y: Float64Array
  /** Elevation, m; null where the ground was taken as flat. */
  readonly z: Float64Array | null
}

/** The start, a stop or the end. */
export interface WalkPlace {
  readonly kind: 'start' | 'new station' | 'visit again' | 'end'
  /** Stops are counted from 1; null for start and end. */
  readonly number: number | null
  /** The station that is visited again; null where there is none yet. */
  readonly station: string | null
  /** Local times `HH:MM`; null for arriving at the start and leaving the end. */
  readonly arrive: string | null
  readonly leave: string | null
  /** The way that leads there; null for the start. */
  readonly way: WalkedWay | null
  /** The battery in use when it is left, counted from 1; null where they are not counted. */
  readonly battery: number | null
  /** Whether that is another one than at the place before. */
  readonly isBatteryChanged: boolean
  /** Part by which the mean variance falls by it, once those before it are stations; null but for stops. */
  readonly fall: number | null
  /** Degrees on WGS 84; null on a local grid. */
  readonly longitude: number | null
  readonly latitude: number | null
  /** Working units. */
  readonly easting: number
  readonly northing: number
  /** Of the terrain, m; null where the ground was taken as flat. */
  readonly elevation: number | null
}

/** What a walk takes and what it brings. */
export interface WalkFigures extends Omit<Timetable, 'stops'> {
  /** Time that may be used, s: that of the day, or of the batteries where they end first. */
  readonly budget: number
  readonly isEndedByBatteries: boolean
  /** Mean standard error of the surface now and after the walk, in `unit`. */
  readonly error: readonly [now: number, after: number]
  /** Empty where it has none: of a pure number, and of transformed values. */
  readonly unit: string
  /** Part by which the mean variance falls. */
  readonly fall: number
  /** Stations that were to be visited and are not, each with why. */
  readonly unreached: readonly { readonly station: string; readonly why: string }[]
  /** The terrain's file; null where the ground was taken as flat. */
  readonly terrain: string | null
}

/** A walk place by place. */
export interface WalkPlan extends WalkFigures {
  /** The start, the stops in order, the end. */
  readonly places: readonly WalkPlace[]
}

/** The walk that a recipe asks for. */
export interface TraverseLayer {
  /** The recipe's `traverse`, as JSON. */
  readonly rule: unknown
  /** The surface that is to become surer. */
  readonly surface: string
  /** Why there is none, in words; null otherwise. */
  readonly failure: string | null
  readonly plan: WalkPlan | null
}

/** Minutes. */
export function minutesOf(seconds: number): number {
  return seconds / 60
}

/** The places' name: their number, and the station's where there is one. */
export function placeName({ kind, number, station }: WalkPlace): string {
  if (number === null) return kind
  return station === null ? String(number) : `${number} ${station}`
}
