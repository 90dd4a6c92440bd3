/**
 * Which places to visit, and in which order, to gather most within a budget: the orienteering
 * problem (Tsiligirides 1984, J. Oper. Res. Soc. 35, 797; Chao, Golden and Wasil 1996, Eur. J.
 * Oper. Res. 88, 475), by iterated local search (Lourenço, Martin and Stützle 2003).
 *
 * Costs may differ by direction, as walking times up and down a slope do.
 */
import { uniformStream } from '../surfaces/random'

/** Numbers in (0, 1), one a call. */
type Random = () => number

/** Places 0 … n-1; the walk begins at 0 and ends at n-1, which may be one spot twice. */
export interface OrienteeringProblem {
  /** n × n, row by row: from the row's place to the column's. Infinite where there is no way. */
  readonly costs: Float64Array
  /** n; what a place is worth. Start and end count nothing. */
  readonly scores: Float64Array
  readonly budget: number
  /** Stops between start and end at most; Infinity for as many as the budget allows. */
  readonly mostStops: number
}

/** A walk that keeps to the budget. */
export interface Route {
  /** Places in order, start and end among them. */
  readonly places: readonly number[]
  readonly cost: number
  readonly score: number
}

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
/** The longest part of a route that a round takes out. */
const REMOVED_PART = 0.7
/** A cost of this part of the budget is next to none. */
const NOTHING = 0.01
/** Places that are moved together at most. */
const LONGEST_MOVED = 3
/** Differences of cost and score below this part are rounding. */
const ROUNDING = 1e-9

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
  const walk = new Walk(problem, [0, count - 1])
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
    const walk = new Walk(problem, current.places)
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
  const walk = new Walk(problem, [0, problem.scores.length - 1])
  walk.insertByChance(random)
  walk.improve()
  return walk.route()
}

/** What chance makes of a choice: how each place is liked, and how much its cost matters. */
interface Taste {
  readonly liking: Float64Array
  readonly thrift: number
}

/** A route while it is changed. */
class Walk {
  readonly #costs: Float64Array
  readonly #scores: Float64Array
  readonly #budget: number
  /** What a place that lies on the way counts as adding. */
  readonly #nothing: number
  readonly #mostPlaces: number
  readonly #count: number
  readonly #isOn: Uint8Array
  #places: number[]
  cost: number

  constructor(problem: OrienteeringProblem, places: readonly number[]) {
    this.#costs = problem.costs
    this.#scores = problem.scores
    this.#budget = problem.budget * (1 + ROUNDING)
    this.#nothing = NOTHING * problem.budget || Number.MIN_VALUE
    this.#mostPlaces = problem.mostStops + 2
    this.#count = problem.scores.length
    this.#places = [...places]
    this.#isOn = new Uint8Array(this.#count)
    for (const place of places) this.#isOn[place] = 1
    this.cost = this.#costOf(this.#places)
  }

  route(): Route {
    let score = 0
    for (const place of this.#places.slice(1, -1)) score += this.#scores[place]
    // Summed anew, so that roundings of many changes do not add up.
    return { places: [...this.#places], cost: this.#costOf(this.#places), score }
  }

  /** Takes out a stretch by chance and fills up by chance. */
  disturb(random: Random): void {
    const stops = this.#places.length - 2
    if (stops > 0) {
      const most = Math.max(1, Math.round(REMOVED_PART * stops))
      const length = 1 + Math.floor(random() * most)
      const from = 1 + Math.floor(random() * (stops - Math.min(length, stops) + 1))
      for (const place of this.#places.splice(from, length)) {
        if (place !== this.#count - 1) this.#isOn[place] = 0
        else this.#places.push(place)
      }
      this.cost = this.#costOf(this.#places)
    }
    this.insertByChance(random)
  }

  /** Puts in places while any fits, the better for their cost the likelier. */
  insertByChance(random: Random): void {
    const taste = {
      liking: Float64Array.from(this.#scores, () => 0.3 + random()),
      thrift: 1.3 * random(),
    }
    while (this.#insertBest(taste));
  }

  /** Changes for the better until no small change is one. */
  improve(): void {
    do {
      while (this.#shorten());
    } while (this.#insertBest(null) || this.#exchange())
  }

  #costOf(places: readonly number[]): number {
    let cost = 0
    for (let i = 1; i < places.length; i++) {
      cost += this.#costs[places[i - 1] * this.#count + places[i]]
    }
    return cost
  }

  #leg(from: number, to: number): number {
    return this.#costs[from * this.#count + to]
  }

  /** Puts in the place that is worth most for what it adds; false where none fits. */
  #insertBest(taste: Taste | null): boolean {
    if (this.#places.length >= this.#mostPlaces) return false
    let most = 0
    let place = -1
    let at = -1
    let adds = 0
    for (let candidate = 1; candidate < this.#count - 1; candidate++) {
      const score = this.#scores[candidate]
      if (this.#isOn[candidate] || !(score > 0)) continue
      const cheapest = this.#cheapest(candidate, this.#places)
      if (!(this.cost + cheapest.adds <= this.#budget)) continue
      const cost = Math.max(cheapest.adds, 0) + this.#nothing
      const worth = taste ? (score * taste.liking[candidate]) / cost ** taste.thrift : score / cost
      if (worth <= most) continue
      most = worth
      place = candidate
      ;({ at, adds } = cheapest)
    }
    if (place < 0) return false
    this.#places.splice(at, 0, place)
    this.#isOn[place] = 1
    this.cost += adds
    return true
  }

  /** Where a place adds least. */
  #cheapest(place: number, places: readonly number[]): { at: number; adds: number } {
    let at = -1
    let adds = Infinity
    for (let i = 1; i < places.length; i++) {
      const [before, after] = [places[i - 1], places[i]]
      const more = this.#leg(before, place) + this.#leg(place, after) - this.#leg(before, after)
      if (more < adds) {
        adds = more
        at = i
      }
    }
    return { at, adds }
  }

  /** Gives a place up for a better one, or for as good a one that is nearer. */
  #exchange(): boolean {
    let most = 0
    let swap: { readonly out: number; readonly place: number; readonly at: number } | null = null
    for (let out = 1; out < this.#places.length - 1; out++) {
      const rest = this.#places.filter((_, i) => i !== out)
      const cost = this.cost - this.#saves(out, out)
      for (let place = 1; place < this.#count - 1; place++) {
        const gain = this.#scores[place] - this.#scores[this.#places[out]]
        if (this.#isOn[place] || gain < 0) continue
        const { at, adds } = this.#cheapest(place, rest)
        if (!(cost + adds <= this.#budget)) continue
        const saved = this.cost - cost - adds
        if (gain === 0 && saved <= ROUNDING * this.cost) continue
        const worth = gain > 0 ? 1 + gain : saved / this.cost
        if (worth <= most) continue
        most = worth
        swap = { out, place, at }
      }
    }
    if (swap === null) return false
    const [given] = this.#places.splice(swap.out, 1)
    this.#places.splice(swap.at, 0, swap.place)
    this.#isOn[given] = 0
    this.#isOn[swap.place] = 1
    this.cost = this.#costOf(this.#places)
    return true
  }

  /** Turns a stretch round, or moves one of up to three places; false where neither shortens. */
  #shorten(): boolean {
    const least = ROUNDING * this.cost
    return this.#turnStretch(least) || this.#moveStretch(least)
  }

  #turnStretch(least: number): boolean {
    const places = this.#places
    const { there, back } = this.#sums()
    for (let from = 1; from < places.length - 2; from++) {
      for (let to = from + 1; to < places.length - 1; to++) {
        const [before, after] = [places[from - 1], places[to + 1]]
        const was = there[to + 1] - there[from - 1]
        const is =
          this.#leg(before, places[to]) + (back[to] - back[from]) + this.#leg(places[from], after)
        if (!(is < was - least)) continue
        const turned = places.slice(from, to + 1).reverse()
        places.splice(from, turned.length, ...turned)
        this.cost = this.#costOf(places)
        return true
      }
    }
    return false
  }

  /** Costs from the start to each place, and of the way back from each to the start. */
  #sums(): { readonly there: Float64Array; readonly back: Float64Array } {
    const places = this.#places
    const there = new Float64Array(places.length)
    const back = new Float64Array(places.length)
    for (let i = 1; i < places.length; i++) {
      there[i] = there[i - 1] + this.#leg(places[i - 1], places[i])
      back[i] = back[i - 1] + this.#leg(places[i], places[i - 1])
    }
    return { there, back }
  }

  /** What leaving out a stretch saves. */
  #saves(from: number, to: number): number {
    const places = this.#places
    let legs = -this.#leg(places[from - 1], places[to + 1])
    for (let i = from; i <= to + 1; i++) legs += this.#leg(places[i - 1], places[i])
    return legs
  }

  #moveStretch(least: number): boolean {
    const places = this.#places
    for (let from = 1; from < places.length - 1; from++) {
      for (let to = from; to < Math.min(from + LONGEST_MOVED, places.length - 1); to++) {
        const saved = this.#saves(from, to) - this.#within(from, to)
        for (let gap = 0; gap < places.length - 1; gap++) {
          if (gap >= from - 1 && gap <= to) continue
          const adds =
            this.#leg(places[gap], places[from]) +
            this.#leg(places[to], places[gap + 1]) -
            this.#leg(places[gap], places[gap + 1])
          if (!(adds < saved - least)) continue
          const moved = places.splice(from, to - from + 1)
          places.splice(gap < from ? gap + 1 : gap + 1 - moved.length, 0, ...moved)
          this.cost = this.#costOf(places)
          return true
        }
      }
    }
    return false
  }

  /** The legs inside a stretch. */
  #within(from: number, to: number): number {
    let legs = 0
    for (let i = from + 1; i <= to; i++) legs += this.#leg(this.#places[i - 1], this.#places[i])
    return legs
  }
}
