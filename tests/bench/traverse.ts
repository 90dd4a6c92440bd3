/**
 * How well and how fast stops are chosen: Tsiligirides' first problem against the best scores
 * known, and walks among 66 made-up places against a search four times as long.
 *
 * `npx tsx tests/bench/traverse.ts`
 */
import { pathToFileURL } from 'node:url'
import { beginRoute, continueRoute } from '../../src/traverse/orienteering'
import type { OrienteeringProblem, Route } from '../../src/traverse/orienteering-problem'
import { BEST_SCORES, instances, problemOf } from '../traverse/instances'
import { seeded } from '../surfaces/scatter'
import { duration, measured, type Figure } from './figure'

/** Rounds as the program has them. */
const ROUNDS = 2000

function chosen(problem: OrienteeringProblem, rounds: number): Route {
  const begun = beginRoute(problem)
  if (begun === null) throw new Error('no route within the budget')
  return continueRoute(problem, begun, rounds).best
}

/** Figures of the choice of stops; none of the instances where the folder is absent. */
export async function* benchTraverse(): AsyncIterable<Figure> {
  const known = instances()
  let reached = 0
  let slowest = 0
  for (const { problem } of known) {
    const begin = performance.now()
    const { score } = chosen(problem, ROUNDS)
    slowest = Math.max(slowest, (performance.now() - begin) / 1000)
    if (score === BEST_SCORES.get(problem.budget)) reached++
  }
  if (known.length > 0) {
    yield measured('orienteering: best known scores reached, of 18', reached, '1', 1)
    yield duration('orienteering: the slowest of 18', slowest, 1)
  }
  const random = seeded(66)
  let same = 0
  let seconds = 0
  const budgets = [15, 20, 30, 40, 50, 60, 80, 100]
  for (const budget of budgets) {
    const problem = madeUp(random, budget)
    const begin = performance.now()
    const { score } = chosen(problem, ROUNDS)
    seconds += (performance.now() - begin) / 1000
    if (score === chosen(problem, 4 * ROUNDS).score) same++
  }
  yield measured(
    '66 places: part as good as a search four times as long',
    same / budgets.length,
    '1',
    1,
  )
  yield duration('66 places: the mean', seconds / budgets.length, 1)
}

/** Places in a square with scores of 5 to 50. */
function madeUp(random: () => number, budget: number): OrienteeringProblem {
  const places = Array.from({ length: 66 }, () => [
    14 * random(),
    14 * random(),
    5 * (1 + Math.floor(10 * random())),
  ])
  return problemOf(places, budget)
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  for await (const figure of benchTraverse()) console.log(JSON.stringify(figure))
}
