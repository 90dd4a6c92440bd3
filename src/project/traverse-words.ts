/** What is said of a walk: a sentence, the row of `problems.csv`, and what leaves of it. */
import type { TraverseLayer, WalkPlace, WalkPlan } from '../layers/traverse-layer'
import type { Problem } from '../readers/input'
import { clockOf, secondsOf, type TraverseRule } from './recipe-traverse'
import type { TraversePlan, TraverseResult } from './traverse-plan'

/** A sentence on the walk for who sees no map. */
export function traverseSentence({ rule, plan, failure }: TraverseResult): string {
  if (!plan) return `not planned. ${failure ?? ''}`
  const { stops, seconds, distance, climb, error, unit, unreached, terrain } = plan
  const back = clockOf(secondsOf(rule.leave) + seconds)
  const of = (value: number) => `${Number(value.toPrecision(3))}${unit && ` ${unit}`}`
  const ground = terrain === null ? 'on ground taken as flat' : `climbing ${Math.round(climb)} m`
  const left = unreached.map(({ station, why }) => ` ${station} is not visited: ${why}.`).join('')
  return (
    `${stops.length} stop${stops.length === 1 ? '' : 's'} from ${rule.leave} to ${back}, ` +
    `${(distance / 1000).toFixed(1)} km ${ground}. The mean standard error of ${rule.surface} falls ` +
    `from ${of(error[0])} to ${of(error[1])}.${left} A proposal: judge the ground yourself.`
  )
}

/** The row of `problems.csv` for a walk that could not be planned; none for one that was. */
export function traverseProblems({ state, failure }: TraverseResult): Problem[] {
  if (state !== 'failed') return []
  return [
    {
      file: 'recipe',
      line: null,
      problem: `its traverse cannot be planned: ${failure ?? ''}`,
      done: 'no walk is planned and everything else goes on; mend the recipe’s traverse',
    },
  ]
}

/**
 * The walk as it leaves.
 *
 * @param result what was planned last; another rule's is not the recipe's
 */
export function traverseLayer(rule: TraverseRule, result: TraverseResult | null): TraverseLayer {
  const { surface } = rule
  if (result?.rule !== rule || result.state === 'computing') {
    const failure = 'The walk was still being planned when this was written: write it again.'
    return { rule, surface, failure, plan: null }
  }
  const { failure, plan } = result
  return { rule, surface, failure, plan: plan && walkPlan(rule, plan) }
}

function walkPlan(rule: TraverseRule, plan: TraversePlan): WalkPlan {
  return { ...plan, places: walkPlaces(rule, plan) }
}

function walkPlaces(rule: TraverseRule, plan: TraversePlan): WalkPlace[] {
  const { start, end, stops, legs, terrain } = plan
  const atClock = (seconds: number) => clockOf(secondsOf(rule.leave) + seconds)
  const ways = legs.map((leg) => ({ ...leg, z: terrain === null ? null : leg.z }))
  const elevation = (i: number) => ways[i].z?.at(-1) ?? null
  const nothing = { number: null, station: null, battery: null, fall: null }
  const unchanged = { ...nothing, isBatteryChanged: false }
  return [
    {
      ...unchanged,
      kind: 'start',
      arrive: null,
      leave: rule.leave,
      way: null,
      ...placed(start, ways[0].z?.[0] ?? null),
    },
    ...stops.map((stop, i): WalkPlace => {
      const { station, battery, fall } = stop
      return {
        kind: station === null ? 'new station' : 'visit again',
        number: i + 1,
        station,
        arrive: atClock(stop.arrive),
        leave: atClock(stop.leave),
        way: ways[i],
        battery,
        isBatteryChanged: battery !== null && battery !== (stops[i - 1]?.battery ?? 1),
        fall,
        ...placed(stop, elevation(i)),
      }
    }),
    {
      ...unchanged,
      kind: 'end',
      arrive: atClock(plan.seconds),
      leave: null,
      way: ways[stops.length],
      ...placed(end, elevation(stops.length)),
    },
  ]
}

function placed(
  { x, y, longitude, latitude }: TraversePlan['start'],
  elevation: number | null,
): Pick<WalkPlace, 'longitude' | 'latitude' | 'easting' | 'northing' | 'elevation'> {
  return { longitude, latitude, easting: x, northing: y, elevation }
}
