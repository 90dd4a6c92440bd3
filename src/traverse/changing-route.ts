/** A route under changes that better it, or that chance makes. */
import type { OrienteeringProblem, Route } from './orienteering-problem'

/** Numbers in (0, 1), one a call. */
export type Random = () => number

/** The longest part of a route that a round takes out. */
const REMOVED_PART = 0.7
/** A cost of this part of the budget is next to none. */
const NOTHING = 0.01
/** A stop that goes takes two gaps along. */
const GAPS = 3
/** Places that are moved together at most. */
const LONGEST_MOVED = 3
/** Differences of cost and score below this part are rounding. */
export const ROUNDING = 1e-9

/** A place between two others of a route: before the `at`-th. */
interface Gap {
  readonly at: number
  readonly adds: number
}

/** What chance makes of a choice: how each place is liked, and how much its cost matters. */
interface Taste {
  readonly liking: Float64Array
  readonly thrift: number
}

/** A route while it is changed: puts places in, takes them out, and shortens the way. */
export class ChangingRoute {
  readonly #costs: Float64Array
  readonly #scores: Float64Array
  readonly #budget: number
  /** What a place that lies on the way counts as adding. */
  readonly #nothing: number
  readonly #mostPlaces: number
  readonly #count: number
  readonly #isOn: Uint8Array
  /** Of each place that is off: where it adds least, and how much; only while they are known. */
  readonly #gapAt: Int32Array
  readonly #gapAdds: Float64Array
  #gapsKnown = false
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
    this.#gapAt = new Int32Array(this.#count)
    this.#gapAdds = new Float64Array(this.#count)
    this.cost = this.#costOf(this.#places)
  }

  /** The route as it is. */
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
      this.#changed()
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
    if (!this.#gapsKnown) this.#findGaps()
    let most = 0
    let place = -1
    for (let candidate = 1; candidate < this.#count - 1; candidate++) {
      const score = this.#scores[candidate]
      if (this.#isOn[candidate] || !(score > 0)) continue
      const adds = this.#gapAdds[candidate]
      if (!(this.cost + adds <= this.#budget)) continue
      const cost = Math.max(adds, 0) + this.#nothing
      const worth = taste ? (score * taste.liking[candidate]) / cost ** taste.thrift : score / cost
      if (worth <= most) continue
      most = worth
      place = candidate
    }
    if (place < 0) return false
    this.#put(place, this.#gapAt[place])
    return true
  }

  /** Where each place that is off adds least. */
  #findGaps(): void {
    for (let place = 1; place < this.#count - 1; place++) {
      if (!this.#isOn[place]) this.#findGap(place)
    }
    this.#gapsKnown = true
  }

  #findGap(place: number): void {
    this.#gapAdds[place] = Infinity
    for (let at = 1; at < this.#places.length; at++) this.#offerGap(place, at)
  }

  #offerGap(place: number, at: number): void {
    const adds = this.#adds(place, this.#places[at - 1], this.#places[at])
    if (!(adds < this.#gapAdds[place])) return
    this.#gapAdds[place] = adds
    this.#gapAt[place] = at
  }

  /** Puts a place into a gap, of which the others then have two. */
  #put(put: number, at: number): void {
    this.#places.splice(at, 0, put)
    this.#isOn[put] = 1
    this.cost += this.#gapAdds[put]
    for (let place = 1; place < this.#count - 1; place++) {
      if (this.#isOn[place]) continue
      if (this.#gapAt[place] === at) this.#findGap(place)
      else {
        if (this.#gapAt[place] > at) this.#gapAt[place]++
        this.#offerGap(place, at)
        this.#offerGap(place, at + 1)
      }
    }
  }

  /** Gives a place up for a better one, or for as good a one that is nearer. */
  #exchange(): boolean {
    let most = 0
    let swap: { readonly out: number; readonly place: number; readonly at: number } | null = null
    for (let place = 1; place < this.#count - 1; place++) {
      if (this.#isOn[place]) continue
      const gaps = this.#threeCheapest(place)
      for (let out = 1; out < this.#places.length - 1; out++) {
        const gain = this.#scores[place] - this.#scores[this.#places[out]]
        if (gain < 0) continue
        const { at, adds } = this.#cheapestWithout(out, place, gaps)
        const saved = this.#saves(out) - adds
        if (!(this.cost - saved <= this.#budget)) continue
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
    this.#changed()
    return true
  }

  /** Where a place adds least, the three gaps in order: one of them is left whichever stop goes. */
  #threeCheapest(place: number): Gap[] {
    const gaps: Gap[] = []
    for (let at = 1; at < this.#places.length; at++) {
      const adds = this.#adds(place, this.#places[at - 1], this.#places[at])
      if (gaps.length === GAPS && !(adds < gaps[GAPS - 1].adds)) continue
      let rank = gaps.length
      while (rank > 0 && adds < gaps[rank - 1].adds) rank--
      gaps.splice(rank, 0, { at, adds })
      if (gaps.length > GAPS) gaps.pop()
    }
    return gaps
  }

  /** Where a place adds least once a stop is out, counted without it. */
  #cheapestWithout(out: number, place: number, gaps: readonly Gap[]): Gap {
    const adds = this.#adds(place, this.#places[out - 1], this.#places[out + 1])
    for (const gap of gaps) {
      if (gap.at === out || gap.at === out + 1) continue
      if (!(gap.adds < adds)) break
      return gap.at < out ? gap : { at: gap.at - 1, adds: gap.adds }
    }
    return { at: out, adds }
  }

  #adds(place: number, before: number, after: number): number {
    return this.#leg(before, place) + this.#leg(place, after) - this.#leg(before, after)
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
        this.#changed()
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

  /** What leaving out a stop saves. */
  #saves(out: number): number {
    const [before, stop, after] = this.#places.slice(out - 1, out + 2)
    return this.#adds(stop, before, after)
  }

  #moveStretch(least: number): boolean {
    const places = this.#places
    const legs = Float64Array.from({ length: places.length - 1 }, (_, i) =>
      this.#leg(places[i], places[i + 1]),
    )
    for (let from = 1; from < places.length - 1; from++) {
      for (let to = from; to < Math.min(from + LONGEST_MOVED, places.length - 1); to++) {
        const [first, last] = [places[from], places[to]]
        // As much as the stretch costs where it stands, less what it costs in itself.
        const saved =
          legs[from - 1] + legs[to] - this.#leg(places[from - 1], places[to + 1]) - least
        if (!(saved > 0)) continue
        for (let gap = 0; gap < legs.length; gap++) {
          if (gap >= from - 1 && gap <= to) continue
          const adds = this.#leg(places[gap], first) + this.#leg(last, places[gap + 1]) - legs[gap]
          if (!(adds < saved)) continue
          const moved = places.splice(from, to - from + 1)
          places.splice(gap < from ? gap + 1 : gap + 1 - moved.length, 0, ...moved)
          this.#changed()
          return true
        }
      }
    }
    return false
  }

  #changed(): void {
    this.cost = this.#costOf(this.#places)
    this.#gapsKnown = false
  }
}
