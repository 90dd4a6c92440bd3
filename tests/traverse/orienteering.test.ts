/** The choice of stops: published best scores, exhaustive search, and what must always hold. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { beginRoute, continueRoute } from '../../src/traverse/orienteering'
import type { OrienteeringProblem, Route } from '../../src/traverse/orienteering-problem'
import { uniform } from '../spectra/chance'
import { BEST_SCORES, instances, instancesMissing, problemOf } from './instances'

function solved(problem: OrienteeringProblem, rounds = 1500): Route {
  const begun = beginRoute(problem)
  if (begun === null) throw new Error('no route')
  return continueRoute(problem, begun, rounds).best
}

test.skipIf(instancesMissing)(
  'all 18 instances of Tsiligirides’ first problem reach the best score known',
  () => {
    const all = instances()
    expect(all).toHaveLength(BEST_SCORES.size)
    for (const { file, problem } of all) {
      const route = solved(problem)
      expect([file, route.score]).toEqual([file, BEST_SCORES.get(problem.budget)])
      expect(route.cost).toBeLessThanOrEqual(problem.budget)
    }
  },
)

/** The best score by trying every order of every choice. */
function exhaustive({ costs, scores, budget, mostStops }: OrienteeringProblem): number {
  const count = scores.length
  let best = 0
  const walk = (
    at: number,
    cost: number,
    score: number,
    left: readonly number[],
    stops: number,
  ) => {
    if (cost > budget) return
    if (cost + costs[at * count + count - 1] <= budget && score > best) best = score
    if (stops === mostStops) return
    for (const next of left) {
      const others = left.filter((place) => place !== next)
      walk(next, cost + costs[at * count + next], score + scores[next], others, stops + 1)
    }
  }
  const between = Array.from({ length: count - 2 }, (_, i) => i + 1)
  walk(0, 0, 0, between, 0)
  return best
}

/** Costs by way of other places where that is less, as walking times are (Floyd 1962). */
function quickest(costs: Float64Array): Float64Array {
  const count = Math.sqrt(costs.length)
  for (let via = 0; via < count; via++)
    for (let leg = 0; leg < costs.length; leg++) {
      const around =
        costs[Math.floor(leg / count) * count + via] + costs[via * count + (leg % count)]
      if (around < costs[leg]) costs[leg] = around
    }
  return costs
}

test('on small problems, one-way costs and limits of stops among them, nothing better exists', () => {
  const chance = uniform(4)
  for (let trial = 0; trial < 60; trial++) {
    const places = Array.from({ length: 9 }, () => [
      chance(),
      chance(),
      1 + Math.floor(9 * chance()),
    ])
    const plain = problemOf(places, 0.6 + 2 * chance())
    const costs = quickest(plain.costs.map((cost) => cost * (0.7 + 0.6 * chance())))
    const problem = { ...plain, costs, mostStops: trial % 3 === 0 ? 3 : Infinity }
    if (costs[8] > problem.budget) continue
    expect(solved(problem).score).toBeCloseTo(exhaustive(problem), 9)
  }
})

test('the same rounds give the same route, however they are cut up', () => {
  const chance = uniform(5)
  const problem = problemOf(
    Array.from({ length: 40 }, () => [chance(), chance(), chance()]),
    2.5,
  )
  const begun = beginRoute(problem)
  if (begun === null) throw new Error('no route')
  let search = begun
  for (const rounds of [1, 7, 150, 42]) search = continueRoute(problem, search, rounds)
  expect(search).toEqual(continueRoute(problem, begun, 200))
})

test('a route keeps to budget and stops, visits nothing twice, and uses only ways that exist', () => {
  const place = fc.tuple(fc.nat(20), fc.nat(20), fc.nat(9))
  fc.assert(
    fc.property(
      fc.array(place, { minLength: 2, maxLength: 14 }),
      fc.nat(60),
      fc.nat(6),
      fc.array(fc.nat(195), { maxLength: 30 }),
      (places, budget, mostStops, closed) => {
        const plain = problemOf(places, budget)
        const costs = plain.costs.slice()
        for (const leg of closed) if (leg < costs.length) costs[leg] = Infinity
        const problem = { ...plain, costs, mostStops }
        const begun = beginRoute(problem)
        const count = places.length
        if (begun === null) {
          expect(costs[count - 1]).toBeGreaterThan(budget)
          return
        }
        const { places: order, cost, score } = continueRoute(problem, begun, 20).best
        expect([order[0], order.at(-1)]).toEqual([0, count - 1])
        expect(new Set(order).size).toBe(order.length)
        expect(order.length - 2).toBeLessThanOrEqual(mostStops)
        const legs = order.slice(1).map((to, i) => costs[order[i] * count + to])
        expect(cost).toBeCloseTo(
          legs.reduce((sum, leg) => sum + leg, 0),
          9,
        )
        expect(cost).toBeLessThanOrEqual(budget + 1e-6)
        const gathered = order.slice(1, -1).reduce((sum, stop) => sum + problem.scores[stop], 0)
        expect(score).toBeCloseTo(gathered, 9)
      },
    ),
    { numRuns: 400, seed: 3 },
  )
})

test('costs that do not join the places are refused', () => {
  const problem = problemOf(
    [
      [0, 0, 0],
      [1, 0, 0],
    ],
    5,
  )
  expect(() => beginRoute({ ...problem, costs: new Float64Array(3) })).toThrow(RangeError)
})
