/** Plans a project's walk in workers, once the surface that it is for is known. */
import { isStopped, type Pool } from '../jobs/pool'
import type { WalkedLeg } from '../jobs/traverse'
import type { Chosen } from '../traverse/choose-route'
import type { Layout } from '../traverse/layout'
import type { Activities } from './activity'
import { askedWalk, type AskedWalk, type TraversingInput } from './asked-walk'
import { messageOf } from './asked-surface'
import { Memo } from './memo'
import type { TraverseRule } from './recipe-traverse'
import { planOf, type TraversePlan, type TraverseResult } from './traverse-plan'

let groundNumber = 0

/** Plans walks; remembers the last by its ingredients. */
export class Traversing {
  readonly #known = new Memo<TraverseResult>()

  constructor(private readonly pool: Pool) {}

  /** The walk that was planned last; null before the first. */
  get last(): TraverseResult | null {
    return this.#known.last ?? null
  }

  /**
   * The walk that a rule asks for. What cannot be planned says why.
   *
   * @throws an AbortError when stopped
   */
  run(
    rule: TraverseRule,
    input: TraversingInput,
    activities: Activities,
    controller: AbortController,
    publish: (result: TraverseResult) => void,
  ): Promise<TraverseResult> {
    const surface = input.surfaces.find((each) => each.rule.name === rule.surface)
    const { placement, ground } = input
    return this.#known.getLater(
      [rule, surface?.bands, surface?.variogram, placement, ground],
      async () => {
        publish({ rule, state: 'computing', failure: null, plan: this.last?.plan ?? null })
        try {
          const planning = new Planning(this.pool, askedWalk(rule, surface, input))
          const plan = await activities.run(
            'Planning the walk',
            1,
            (signal, progress) => planning.run(signal, progress),
            controller,
          )
          return { rule, state: 'ready', failure: null, plan }
        } catch (error) {
          if (isStopped(error)) throw error
          return { rule, state: 'failed', failure: messageOf(error), plan: null }
        }
      },
    )
  }
}

/** The planning of one walk. */
class Planning {
  /** The key under which workers are given the ground. */
  readonly #ground = `ground ${++groundNumber}`

  constructor(
    private readonly pool: Pool,
    private readonly asked: AskedWalk,
  ) {}

  async run(
    signal: AbortSignal,
    progress: (done: number, total: number) => void,
  ): Promise<TraversePlan> {
    const layout = await this.pool.run('lay out walk', this.asked.input, { signal })
    this.pool.provide(this.#ground, layout.ground)
    try {
      const seconds = await this.#waysBetween(layout, signal, progress)
      const chosen = await this.#choose(layout, seconds, signal)
      const legs = await this.#legsOf(layout, chosen, signal)
      return planOf(this.asked, layout, chosen, legs)
    } finally {
      this.pool.withdraw(this.#ground)
    }
  }

  /** Seconds from each place to each, the work at the other included; a worker's task a place. */
  async #waysBetween(
    { nodes }: Layout,
    signal: AbortSignal,
    progress: (done: number, total: number) => void,
  ): Promise<Float64Array> {
    const count = nodes.length
    const seconds = new Float64Array(count * count)
    let next = 0
    let done = 0
    const lane = async () => {
      while (next < count) {
        const from = next++
        const asked = { ground: this.#ground, from: nodes[from], to: nodes }
        const row = await this.pool.run('walk from', asked, { signal })
        row.forEach((walk, to) => {
          const work = to === count - 1 ? 0 : this.asked.input.stopSeconds
          seconds[from * count + to] = walk + work
        })
        progress(++done, count)
      }
    }
    await Promise.all(Array.from({ length: this.pool.size }, lane))
    return seconds
  }

  /** @throws Error in words where the time is too short */
  async #choose(
    { errors, names }: Layout,
    seconds: Float64Array,
    signal: AbortSignal,
  ): Promise<Chosen> {
    const { input, mostStops } = this.asked
    const wanted = names.slice(1, -1).map((name) => name !== null)
    const choosing = { seconds, budget: input.budget, mostStops, errors, wanted }
    const chosen = await this.pool.run('choose walk', choosing, { signal })
    if (chosen === null)
      throw new Error('The end cannot be reached in that time: leave earlier, or end nearer.')
    if (chosen.route.places.length === 2)
      throw new Error('There is no time for a stop: leave earlier, or take less time at one.')
    return chosen
  }

  #legsOf({ nodes }: Layout, { route }: Chosen, signal: AbortSignal): Promise<WalkedLeg[]> {
    const legs = route.places.slice(1).map((to, i) => {
      const asked = { ground: this.#ground, from: nodes[route.places[i]], to: nodes[to] }
      return this.pool.run('walk leg', asked, { signal })
    })
    return Promise.all(legs)
  }
}
