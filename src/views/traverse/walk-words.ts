/** A planned walk in words. */
import { clockOf, secondsOf, type TraverseRule } from '../../project/recipe-traverse'
import type { Results } from '../../project/results'
import type { TraversePlan } from '../../project/traverse-plan'
import { fixed, plain } from '../numbers'
import { named } from '../shell/steps'

/** Such as `8 h 20 min` or `25 min`. */
export function durationWords(seconds: number): string {
  const minutes = Math.round(seconds / 60)
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60]
  if (hours === 0) return `${rest}\u202fmin`
  return rest === 0 ? `${hours}\u202fh` : `${hours}\u202fh ${rest}\u202fmin`
}

/** Such as `9.3 km` or `640 m`. */
export function lengthWords(metres: number): string {
  return metres < 995
    ? `${fixed(10 * Math.round(metres / 10), 0)}\u202fm`
    : `${fixed(metres / 1000, 1)}\u202fkm`
}

/** Metres of climbing to the nearest ten: the ground is known no better. */
export function climbWords(metres: number): string {
  return `${fixed(10 * Math.round(metres / 10), 0)}\u202fm`
}

/** A part by which variance falls. */
export function fallWords(part: number): string {
  const percent = 100 * part
  return `${fixed(-percent, percent < 9.95 ? 1 : 0)}\u202f%`
}

/** How long the walk is and when it is back. */
export function walkSentence(plan: TraversePlan, { leave }: TraverseRule): string {
  const { stops, seconds, distance, climb, budget, terrain } = plan
  const climbed = terrain === null ? '' : `, ${climbWords(climb)} climbed`
  const spare = Math.floor((budget - seconds) / 60)
  return `${named(stops.length, 'stop')} in ${durationWords(seconds)}, ${lengthWords(distance)}${climbed}; back at ${clockOf(secondsOf(leave) + seconds)}, ${spare > 0 ? `${durationWords(60 * spare)} to spare` : 'nothing to spare'}.`
}

/** How much surer the surface becomes. */
export function surerSentence({ error, unit, fall }: TraversePlan, surface: string): string {
  const [now, after] = figures(error)
  const tail = unit ? `\u202f${unit}` : ''
  return `The mean standard error of ${surface} falls from ${now} to ${after}${tail} (variance ${fallWords(fall)}).`
}

/** Both with as many decimals as show their difference. */
function figures([now, after]: readonly [number, number]): [string, string] {
  const apart = Math.abs(now - after)
  const decimals = apart > 0 ? Math.max(0, 1 - Math.floor(Math.log10(apart))) : 3
  return decimals > 6 ? [plain(now), plain(after)] : [fixed(now, decimals), fixed(after, decimals)]
}

/** The walking alone, and what Naismith's rule would say of it. */
export function walkingSentence({ legs, naismith }: TraversePlan): string {
  const walking = legs.reduce((sum, { seconds }) => sum + seconds, 0)
  return `Walking takes ${durationWords(walking)} of it; by Naismith’s rule of 1892, for paths, it would be ${durationWords(naismith)}.`
}

/** One stop as the list tells it. */
export interface StopRow {
  readonly times: string
  /** The way to it. */
  readonly way: string
  readonly fall: string
  readonly station: string | null
  /** The battery that is taken up there, counted from 1; null where it stays. */
  readonly battery: number | null
}

/** The stops as the list tells them. */
export function stopRows(
  { stops, legs, terrain }: TraversePlan,
  { leave }: TraverseRule,
): StopRow[] {
  const began = secondsOf(leave)
  return stops.map((stop, i) => {
    const { seconds, distance, climb } = legs[i]
    const before = i === 0 ? 1 : stops[i - 1].battery
    const climbed = terrain === null || climb < 5 ? '' : `, ${climbWords(climb)} up`
    return {
      times: `${clockOf(began + stop.arrive)}–${clockOf(began + stop.leave)}`,
      way: `${durationWords(seconds)}, ${lengthWords(distance)}${climbed}`,
      fall: fallWords(stop.fall),
      station: stop.station,
      battery: stop.battery !== null && stop.battery !== before ? stop.battery : null,
    }
  })
}

/** The way from the last stop to the end. */
export function lastWay({ legs, terrain }: TraversePlan): string {
  const last = legs[legs.length - 1]
  const climbed = terrain === null || last.climb < 5 ? '' : `, ${climbWords(last.climb)} up`
  return `${durationWords(last.seconds)}, ${lengthWords(last.distance)}${climbed}`
}

/** Whether the walk that is shown is not the one that is asked for. */
export function isOldWalk(
  rule: TraverseRule | undefined,
  results: Pick<Results, 'traverse' | 'surfaces'> | null,
): boolean {
  const walk = results?.traverse
  if (!rule || !walk) return false
  const surface = results.surfaces.find((each) => each.rule.name === rule.surface)
  const isWorking = surface?.state === 'computing' || surface?.state === 'waiting'
  return walk.rule !== rule || walk.state === 'computing' || isWorking
}
