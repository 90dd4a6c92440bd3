/** The recipe's `traverse`: the day that a walk is planned for. */
import { OFF_PATH } from '../traverse/walking'
import { RecipeError, type Cursor } from './json-cursor'

/** Where a walk begins or ends: on WGS 84, or in working units on a grid tied to nothing. */
export type TraverseEnd =
  | { readonly longitude: number; readonly latitude: number }
  | { readonly easting: number; readonly northing: number }

export interface TraverseRule {
  /** The surface that the walk is to make surer. */
  readonly surface: string
  readonly start: TraverseEnd
  /** Absent for back to the start. */
  readonly end?: TraverseEnd
  /** Local time, `HH:MM`. */
  readonly leave: string
  readonly back: string
  /** Work at a stop. */
  readonly stop_minutes: number
  /** Part of the speed on a path; 0.6 where absent. */
  readonly pace?: number
  /** Slopes beyond this are not walked, degrees; 30 where absent. */
  readonly steepest?: number
  /** How many charged batteries are carried, and how long one lasts; absent where they are not counted. */
  readonly batteries?: number
  readonly battery_hours?: number
  /** Most stops of the day; absent for as many as there is time for. */
  readonly most_stops?: number
  /** A raster of the project: elevations in metres; absent for flat ground. */
  readonly terrain?: string
  /** A GeoJSON file of the project: its polygons are not walked through. */
  readonly avoid?: string
  /** Stations that are visited again, if time allows. */
  readonly visit?: readonly string[]
}

/** What holds where a rule does not say. */
export const TRAVERSE_DEFAULTS = { pace: OFF_PATH, steepest: 30 } as const

const KEYS = [
  'surface',
  'start',
  'end',
  'leave',
  'back',
  'stop_minutes',
  'pace',
  'steepest',
  'batteries',
  'battery_hours',
  'most_stops',
  'terrain',
  'avoid',
  'visit',
]
const MOST_VISITS = 100

/** @throws RecipeError that names the place, what is wrong and what was expected */
export function readTraverse(rule: Cursor): TraverseRule {
  rule.allow(KEYS)
  const end = rule.optional('end')
  const read: TraverseRule = {
    surface: rule.at('surface').filledText(),
    start: readEnd(rule.at('start')),
    ...(end ? { end: readEnd(end) } : {}),
    leave: readClock(rule.at('leave')),
    back: readClock(rule.at('back')),
    stop_minutes: rule.at('stop_minutes').between(0, 600),
    pace: rule.optional('pace')?.between(0.1, 2),
    steepest: rule.optional('steepest')?.between(1, 60),
    batteries: rule.optional('batteries')?.whole(1, 50),
    battery_hours: rule.optional('battery_hours')?.between(0.1, 48),
    most_stops: rule.optional('most_stops')?.whole(1, 200),
    terrain: rule.optional('terrain')?.filledText(),
    avoid: rule.optional('avoid')?.filledText(),
    visit: rule.optional('visit')
      ? rule.list('visit', MOST_VISITS).map((name) => name.filledText())
      : undefined,
  }
  if (secondsOf(read.back) <= secondsOf(read.leave))
    throw new RecipeError(`${rule.path}.back`, `${read.back} is not after leaving at ${read.leave}`)
  if ((read.batteries === undefined) !== (read.battery_hours === undefined))
    throw new RecipeError(rule.path, 'batteries and battery_hours are expected together')
  return read
}

function readEnd(end: Cursor): TraverseEnd {
  if (end.optional('easting')) {
    end.allow(['easting', 'northing'])
    return { easting: end.at('easting').number(), northing: end.at('northing').number() }
  }
  end.allow(['longitude', 'latitude'])
  return {
    longitude: end.at('longitude').between(-180, 180),
    latitude: end.at('latitude').between(-90, 90),
  }
}

function readClock(clock: Cursor): string {
  const text = clock.text()
  if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(text))
    throw new RecipeError(clock.path, `‘${text}’ is no time HH:MM of 24 hours`)
  return text
}

/** Seconds since midnight of a time `HH:MM`. */
export function secondsOf(clock: string): number {
  const [hours, minutes] = clock.split(':').map(Number)
  return 3600 * hours + 60 * minutes
}

/** The time of day `HH:MM` at seconds since midnight, to the nearest minute. */
export function clockOf(seconds: number): string {
  const minutes = Math.round(seconds / 60)
  const two = (value: number) => String(value).padStart(2, '0')
  return `${two(Math.floor(minutes / 60) % 24)}:${two(minutes % 60)}`
}
