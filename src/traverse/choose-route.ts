/** The walk that makes a surface surest within its time. */
import { beginRoute, continueRoute } from './orienteering'
import type { OrienteeringProblem, Route } from './orienteering-problem'
import { fallBy, withStationAt, type Errors } from './worth'

/** Rounds of the search: with more, one in thirty walks among 66 places was a little better. */
const ROUNDS = 2000
/** How often stops are valued anew beside those of the best walk. */
const REVALUED = 3

export interface ChooseInput {
  /** n × n, row by row: seconds of walking and, unless the column is the end, of the stop there. */
  readonly seconds: Float64Array
  /** From leaving to being back. */
  readonly budget: number
  readonly mostStops: number
  /** Of the places between start and end, in their order. */
  readonly errors: Errors
  /** Places between start and end that are visited whatever they bring, if time allows. */
  readonly wanted: readonly boolean[]
}

/** A walk with what it brings. */
export interface Chosen {
  readonly route: Route
  /** For each of its stops how much the mean variance falls by it, once those before are stations. */
  readonly falls: readonly number[]
  /** Mean over the nodes of the variance now, and after the walk. */
  readonly variance: readonly [now: number, after: number]
  /** Mean over the nodes of one standard error now, and after the walk. */
  readonly error: readonly [now: number, after: number]
}

/**
 * Chooses stops and their order. Each stop is valued beside the others, which changes with the
 * choice: so the best walk's stops are valued anew, and the search goes on, some times.
 *
 * @returns null where not even the end can be reached in time
 */
export function chooseRoute(input: ChooseInput): Chosen | null {
  const { errors, wanted } = input
  let falls = wanted.map((_, stop) => fallBy(errors, stop) / errors.nodes.length)
  let best: Route | null = null
  let bestFall = -Infinity
  for (let pass = 0; pass <= REVALUED; pass++) {
    const problem = problemOf(input, falls)
    const begun = beginRoute(problem)
    if (begun === null) return null
    const { best: route } = continueRoute(problem, begun, ROUNDS)
    const worth = worthOf(input, route)
    if (worth > bestFall) {
      best = route
      bestFall = worth
    }
    falls = fallsBeside(errors, best ?? route)
  }
  return best && told(errors, best)
}

/** Wanted stops are worth more than all the others together. */
function problemOf(input: ChooseInput, falls: readonly number[]): OrienteeringProblem {
  const all = falls.reduce((sum, fall) => sum + fall, 0)
  const scores = falls.map((fall, stop) => fall + (input.wanted[stop] ? 10 * all + 1 : 0))
  return {
    costs: input.seconds,
    scores: Float64Array.of(0, ...scores, 0),
    budget: input.budget,
    mostStops: input.mostStops,
  }
}

/** Wanted stops first, then the fall of variance. */
function worthOf({ errors, wanted }: ChooseInput, route: Route): number {
  const stops = stopsOf(route)
  const before = errors.nodes.reduce((sum, variance) => sum + variance, 0)
  const after = stops.reduce(withStationAt, errors).nodes.reduce((sum, each) => sum + each, 0)
  return stops.filter((stop) => wanted[stop]).length * before + before - after
}

/** The places between start and end, counted from the first of them. */
function stopsOf({ places }: Route): number[] {
  return places.slice(1, -1).map((place) => place - 1)
}

/** What each place brings beside the stops of a walk other than itself, a node. */
function fallsBeside(errors: Errors, route: Route): number[] {
  const stops = stopsOf(route)
  const all = stops.reduce(withStationAt, errors)
  const fall = (beside: Errors, place: number) => fallBy(beside, place) / errors.nodes.length
  const falls = Array.from({ length: Math.sqrt(errors.among.length) }, (_, at) => fall(all, at))
  withEachLeftOut(errors, stops, (stop, beside) => (falls[stop] = fall(beside, stop)))
  return falls
}

/** Tells for each stop the errors with all others as stations: by halves, n log n of them added. */
function withEachLeftOut(
  errors: Errors,
  stops: readonly number[],
  tell: (stop: number, beside: Errors) => void,
): void {
  if (stops.length === 0) return
  if (stops.length === 1) {
    tell(stops[0], errors)
    return
  }
  const half = stops.length >> 1
  const [first, second] = [stops.slice(0, half), stops.slice(half)]
  withEachLeftOut(second.reduce(withStationAt, errors), first, tell)
  withEachLeftOut(first.reduce(withStationAt, errors), second, tell)
}

function told(errors: Errors, route: Route): Chosen {
  let left = errors
  const falls = stopsOf(route).map((stop) => {
    const fall = fallBy(left, stop) / errors.nodes.length
    left = withStationAt(left, stop)
    return fall
  })
  return {
    route,
    falls,
    variance: [meanOf(errors.nodes), meanOf(left.nodes)],
    error: [meanOf(errors.nodes.map(Math.sqrt)), meanOf(left.nodes.map(Math.sqrt))],
  }
}

function meanOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
