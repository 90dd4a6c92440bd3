/** Computes a project's surfaces in workers, masks after the surfaces that they lean on. */
import type { Pool } from '../jobs/pool'
import { isStopped } from '../jobs/pool'
import { spreadOf, type Spread } from '../jobs/finish-surface'
import { coarseSteps, everyNode, everyValue } from '../surfaces/coarse'
import type { SurfaceBands, SurfaceRule } from '../surfaces/model'
import type { Activities } from './activity'
import { askFor, messageOf, type Asked, type AskedClasses, type AskedValue } from './asked-surface'
import { classesOf, unitOf, valueOf, WAITING, type Computed, type Joined } from './computed-surface'
import { drawChance } from './draw-chance'
import { joinOutcomes } from './likeliest'
import type { SurfaceResult } from './results'
import { coverOf, masked, maskOrder, sameCover } from './surface-masks'
import type { SurfaceInput } from './surface-points'
import { coarsePass, computeInTiles, type SoFar } from './surface-tiles'
import { evenBelow } from './surface-words'

export interface SurfacingOptions {
  readonly activities: Activities
  readonly controller: AbortController
  /** Called with all surfaces as each of them comes on. */
  readonly publish: (surfaces: readonly SurfaceResult[]) => void
  /** Whether large surfaces are published coarse first, for someone who looks on. */
  readonly coarseFirst?: boolean
}

type Others = readonly SurfaceResult[]
/** Tells what can be shown of a surface before all of its nodes are known. */
type Publish = (shown: Pick<SurfaceResult, 'partial' | 'unit' | 'likeliest'>) => void

let planNumber = 0

/** A name under which workers are given a plan, a new one each time. */
function newName(): string {
  return `plan ${++planNumber}`
}

function planInput({ rule, points, boundaries, drift, blockSide }: Asked) {
  return { rule, points, grid: null, boundaries, drift, blockSide }
}

/** All results; where some fail, the error of the first in order, whichever failed first. */
async function inOrder<T>(running: readonly Promise<T>[]): Promise<T[]> {
  const settled = await Promise.allSettled(running)
  return settled.map((each) => {
    if (each.status === 'rejected') throw each.reason
    return each.value
  })
}

/** What is known of a surface at every step-th node. */
function thinned(computed: Computed | undefined, step: number): Computed | null {
  if (!computed) return null
  const { grid, estimate } = computed.bands
  const bands: SurfaceBands = {
    grid: everyNode(grid, step),
    estimate: everyValue(grid, estimate, step),
    variance: null,
  }
  return { ...computed, bands }
}

/** Computes surfaces and remembers them by what went into them. */
export class Surfacing {
  #known = new Map<string, Computed>()
  #joined = new Map<string, Joined>()

  constructor(private readonly pool: Pool) {}

  /**
   * The surfaces of a recipe, in its order. One that fails says why and stops no other. What is
   * known already stands at once.
   *
   * @throws an AbortError when stopped
   */
  async run(
    rules: readonly SurfaceRule[],
    input: SurfaceInput,
    options: SurfacingOptions,
  ): Promise<SurfaceResult[]> {
    const results = rules.map((rule): SurfaceResult => ({ ...WAITING, rule }))
    const used = new Set<string>()
    const missing: { index: number; asked: AskedValue | AskedClasses }[] = []
    for (const index of maskOrder(rules)) {
      const asked = askFor(rules[index], input)
      if ('failure' in asked) {
        results[index] = { ...results[index], ...asked, state: 'failed' }
        continue
      }
      for (const part of asked.kind === 'value' ? [asked] : asked.parts)
        if (part) used.add(part.key)
      const ready = this.#remembered(asked, results)
      if (ready) results[index] = ready
      else missing.push({ index, asked })
    }
    for (const { index, asked } of missing) {
      results[index] = { ...results[index], state: 'computing' }
      options.publish([...results])
      const publish: Publish = (partial) => {
        results[index] = { ...results[index], ...partial }
        options.publish([...results])
      }
      results[index] = await this.#one(asked, results, publish, options)
      options.publish([...results])
    }
    for (const key of this.#known.keys()) if (!used.has(key)) this.#known.delete(key)
    return results
  }

  /** A surface that needs no worker: computed and drawn before, under the same mask. */
  #remembered(asked: AskedValue | AskedClasses, others: Others): SurfaceResult | null {
    const cover = coverOf(asked.rule, others)
    if (asked.kind === 'classes') {
      const joined = this.#joined.get(asked.rule.name)
      const kriged = asked.parts.map((part) => part && this.#known.get(part.key))
      const same =
        joined?.kriged.length === kriged.length &&
        kriged.every((each, i) => each === joined.kriged[i])
      if (!joined || !same || joined.most !== asked.rule.doubt_at_most) return null
      return sameCover(joined.cover, cover) ? classesOf(asked, joined) : null
    }
    const computed = this.#known.get(asked.key)
    if (!computed?.drawn || !sameCover(computed.drawn.cover, cover)) return null
    return valueOf(asked, computed.plan, computed.drawn)
  }

  async #one(
    asked: AskedValue | AskedClasses,
    others: Others,
    publish: Publish,
    options: SurfacingOptions,
  ): Promise<SurfaceResult> {
    try {
      return asked.kind === 'value'
        ? await this.#value(asked, others, publish, options)
        : await this.#classes(asked, others, publish, options)
    } catch (error) {
      if (isStopped(error)) throw error
      const { rule, found } = asked
      const unit = asked.kind === 'value' ? unitOf(asked) : ''
      const stations = found.points.x.length
      return { ...WAITING, rule, unit, stations, state: 'failed', failure: messageOf(error) }
    }
  }

  async #value(
    asked: AskedValue,
    others: Others,
    publish: Publish,
    options: SurfacingOptions,
  ): Promise<SurfaceResult> {
    const { rule } = asked
    // Colours keep their meaning from the first picture on, until all nodes are known.
    let spread: Spread | null = null
    const soFar = ({ bands, ...far }: SoFar) => {
      const shown = masked(bands, rule, others)
      spread ??= spreadOf(shown)
      publish({ partial: { bands: shown, ...far, spread }, unit: unitOf(asked) })
    }
    const computed = await this.#computed(asked, options, options.coarseFirst ? soFar : null)
    const bands = masked(computed.bands, rule, others)
    const { signal } = options.controller
    const finished = await this.pool.run(
      'finish surface',
      { bands, evenBelow: evenBelow(computed.plan), interval: rule.contour_interval },
      { signal },
    )
    const drawn = { ...finished, bands, cover: coverOf(rule, others) }
    computed.drawn = drawn
    return valueOf(asked, computed.plan, drawn)
  }

  /** A chance of each class, joined. */
  async #classes(
    asked: AskedClasses,
    others: Others,
    publish: Publish,
    options: SurfacingOptions,
  ): Promise<SurfaceResult> {
    const { rule, found } = asked
    const most = rule.doubt_at_most
    const join = (kriged: readonly (Computed | null)[]) =>
      joinOutcomes(
        found.names,
        kriged.map((each) => each && { ...each, bands: masked(each.bands, rule, others) }),
        most,
      )
    const soFar = (coarse: readonly (Computed | null)[], step: number) => {
      const { bands, result } = join(coarse)
      const partial = { bands, step, part: 0, spread: spreadOf(bands) }
      publish({ partial, unit: '', likeliest: result })
    }
    const kriged = await this.#parts(asked, options, options.coarseFirst ? soFar : null)
    const remembered = { ...join(kriged), kriged, most, cover: coverOf(rule, others) }
    this.#joined.set(rule.name, remembered)
    return classesOf(asked, remembered)
  }

  /** Plans all outcomes that are not known, shows them coarse where they are large, and krigs them. */
  async #parts(
    { rule, parts }: AskedClasses,
    { activities, controller }: SurfacingOptions,
    soFar: ((coarse: readonly (Computed | null)[], step: number) => void) | null,
  ): Promise<(Computed | null)[]> {
    const missing = parts.flatMap((part) => (part && !this.#known.has(part.key) ? [part] : []))
    const knownOf = (part: Asked | null) => (part && this.#known.get(part.key)) ?? null
    if (missing.length === 0) return parts.map(knownOf)
    const run = async (signal: AbortSignal, progress: (done: number) => void) => {
      let done = 0
      const planning = missing.map(async (part) => {
        const plan = await this.pool.run('plan surface', planInput(part), { signal })
        progress(++done)
        return plan
      })
      const plans = await inOrder(planning)
      const [step] = soFar ? coarseSteps(plans[0].grid) : []
      if (soFar && step !== undefined) {
        const coarse = new Map<string, Computed>()
        await Promise.all(
          plans.map(async (plan, i) => {
            const bands = await coarsePass(this.pool, plan, newName(), step, signal)
            coarse.set(missing[i].key, { plan, bands, drawn: null })
          }),
        )
        const of = (part: Asked) => coarse.get(part.key) ?? thinned(this.#known.get(part.key), step)
        soFar(
          parts.map((part) => part && of(part)),
          step,
        )
      }
      for (const [i, plan] of plans.entries()) {
        const quiet = { signal, progress: () => undefined, soFar: null }
        const bands = await computeInTiles(this.pool, plan, newName(), quiet)
        this.#known.set(missing[i].key, { plan, bands, drawn: null })
        progress(++done)
      }
    }
    await activities.run(`Surface ‘${rule.name}’`, 2 * missing.length, run, controller)
    return parts.map(knownOf)
  }

  async #computed(
    asked: Asked,
    { activities, controller }: SurfacingOptions,
    soFar: ((soFar: SoFar) => void) | null,
  ): Promise<Computed> {
    const known = this.#known.get(asked.key)
    if (known) return known
    const computed = await activities.run(
      `Surface ‘${asked.rule.name}’`,
      1,
      async (signal, progress): Promise<Computed> => {
        const plan = await this.pool.run('plan surface', planInput(asked), { signal })
        const way = { signal, progress, soFar }
        const bands = plan.chance
          ? await drawChance(this.pool, plan, newName(), way)
          : await computeInTiles(this.pool, plan, newName(), way)
        return { plan, bands, drawn: null }
      },
      controller,
    )
    this.#known.set(asked.key, computed)
    return computed
  }
}
