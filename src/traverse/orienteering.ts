/**
 * Which places to visit, and in which order, to gather most within a budget: the orienteering
 * problem (Tsiligirides 1984, J. Oper. Res. Soc. 35, 797; Chao, Golden and Wasil 1996, Eur. J.
 * Oper. Res. 88, 475), by iterated local search (Lourenço, Martin and Stützle 2003).
 *
 * Costs may differ by direction, as walking times up and down a slope do.
 */
import { uniformStream } from '../surfaces/random'
import { ChangingRoute, ROUNDING, type Random } from './changing-route'
import type { OrienteeringProblem, Route } from './orienteering-problem'

/** Where a search stands, so that it can go on elsewhere. */
export interface RouteSearch {
  readonly best: Route
  readonly current: Route
  /** Rounds done. */
  readonly rounds: number
  /** Rounds since the best was found or gone back to. */
  readonly idle: number
}

/** Rounds without a better route after which the search goes back to the best, or begins anew. */
const PATIENCE = 40

/**
 * A first route; null where the end cannot be reached within the budget.
 *
 * @throws RangeError where costs are not as many as the square of the scores
 */
export function beginRoute(problem: OrienteeringProblem): RouteSearch | null {
  const count = problem.scores.length
  if (count < 2 || problem.costs.length !== count * count) {
    throw new RangeError(`${problem.costs.length} costs do not join ${count} places`)
  }
  const walk = new ChangingRoute(problem, [0, count - 1])
  if (!(walk.cost <= problem.budget)) return null
  walk.improve()
  const route = walk.route()
  return { best: route, current: route, rounds: 0, idle: 0 }
}

/**
 * The search after some more rounds. The same problem and number of rounds give the same route,
 * however they are cut up.
 */
export function continueRoute(
  problem: OrienteeringProblem,
  search: RouteSearch,
  rounds: number,
): RouteSearch {
  let { best, current, idle } = search
  for (let round = search.rounds; round < search.rounds + rounds; round++) {
    const random = uniformStream(round)
    const walk = new ChangingRoute(problem, current.places)
    walk.disturb(random)
    walk.improve()
    const found = walk.route()
    if (isBetter(found, current)) current = found
    else if (random() < 0.2 && found.score > 0.8 * best.score) current = found
    idle++
    if (isBetter(current, best)) {
      best = current
      idle = 0
    } else if (idle >= PATIENCE) {
      current = random() < 0.5 ? best : begunAnew(problem, random)
      idle = 0
    }
  }
  return { best, current, rounds: search.rounds + rounds, idle }
}

/** More gathered, or as much by a shorter walk. */
export function isBetter(a: Route, b: Route): boolean {
  const gain = a.score - b.score
  if (Math.abs(gain) > ROUNDING * Math.max(1, Math.abs(b.score))) return gain > 0
  return a.cost < b.cost - ROUNDING * Math.max(1, b.cost)
}

function begunAnew(problem: OrienteeringProblem, random: Random): Route {
  const walk = new ChangingRoute(problem, [0, problem.scores.length - 1])
  walk.insertByChance(random)
  walk.improve()
  return walk.route()
}
