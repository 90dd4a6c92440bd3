/** Computes a project's surfaces in workers, masks after the surfaces that they lean on. */
import type { Pool } from '../jobs/pool'
import { isStopped } from '../jobs/pool'
import type { StretchInput } from '../jobs/tasks'
import { sha256 } from '../layers/sha256'
import type { Boundaries } from '../surfaces/boundaries'
import { chanceBands, stretchesOf, type Drawn } from '../surfaces/chance'
import { assemble, tilesOf, type SurfacePlan } from '../surfaces/compute'
import { niceLevels } from '../surfaces/contours'
import { givesChance, type Points, type SurfaceBands, type SurfaceRule } from '../surfaces/model'
import { applyMask } from '../surfaces/reach'
import type { Activities } from './activity'
import { boundariesOf } from './boundaries'
import { residualsOf } from './residuals'
import type { SurfaceResult } from './results'
import { joinOutcomes, likeliestWords, outcomePoints, outcomeRule } from './likeliest'
import { surfacePoints, type SurfaceInput } from './surface-points'
import { belowSentence, compositeSentence, farSentence, trust } from './surface-words'

export interface SurfacingOptions {
  readonly activities: Activities
  readonly controller: AbortController
  /** Called with all surfaces as each of them comes to its end. */
  readonly publish: (surfaces: readonly SurfaceResult[]) => void
}

interface Computed {
  readonly plan: SurfacePlan
  readonly bands: SurfaceBands
}

/** What a surface is made with. */
interface Making {
  readonly input: SurfaceInput
  readonly others: readonly SurfaceResult[]
  /** Keys of what is still wanted, added to. */
  readonly used: Set<string>
  readonly options: SurfacingOptions
}

/** About how many contours are drawn. */
const CONTOURS = 8

let planNumber = 0

/** Computes surfaces and remembers them by what went into them. */
export class Surfacing {
  #known = new Map<string, Computed>()

  constructor(private readonly pool: Pool) {}

  /**
   * The surfaces of a recipe, in its order. One that fails says why and stops no other.
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
    for (const index of maskOrder(rules)) {
      const rule = rules[index]
      results[index] = { ...results[index], state: 'computing' }
      options.publish([...results])
      const made = { input, others: results, used, options }
      results[index] =
        rule.method === 'likeliest-class'
          ? await this.#likeliest(rule, made)
          : await this.#one(rule, made)
      options.publish([...results])
    }
    for (const key of this.#known.keys()) if (!used.has(key)) this.#known.delete(key)
    return results
  }

  async #one(rule: SurfaceRule, made: Making): Promise<SurfaceResult> {
    const { input, others, options } = made
    const base = { ...WAITING, rule }
    const found = surfacePoints(rule, input)
    if ('failure' in found) return { ...base, state: 'failed', failure: found.failure }
    const { points } = found
    const unit = givesChance(rule.method) ? '' : found.unit
    const stations = points.value.length
    try {
      const computed = await this.#computed(rule, points, made, rule.name)
      const bands = masked(computed.bands, rule, others)
      const contours = await this.pool.run(
        'contours',
        { grid: bands.grid, values: bands.estimate, levels: levelsOf(bands) },
        { signal: options.controller.signal },
      )
      const { plan } = computed
      return {
        ...base,
        unit,
        state: 'ready',
        bands,
        variogram: plan.variogram,
        experimental: plan.experimental,
        testing: plan.testing,
        blocked: plan.blocked,
        residuals: residualsOf(plan, points, found.stations),
        points: plan.points,
        used: { neighbours: plan.neighbours, power: plan.power },
        stations,
        belowDetection: found.belowDetection,
        reach: plan.reach,
        contours,
        sentence:
          trust(plan, unit) +
          compositeSentence(rule, stations, found.partial) +
          belowSentence(rule, found.belowDetection) +
          farSentence(found.farOff),
      }
    } catch (error) {
      if (isStopped(error)) throw error
      const failure = error instanceof Error ? error.message : String(error)
      return { ...base, unit, stations, state: 'failed', failure }
    }
  }

  /** A chance of each class, joined. */
  async #likeliest(rule: SurfaceRule, made: Making): Promise<SurfaceResult> {
    const base = { ...WAITING, rule }
    const found = outcomePoints(rule, made.input)
    if ('failure' in found) return { ...base, state: 'failed', failure: found.failure }
    const { names, indicators, points, farOff, partial } = found
    const stations = points.x.length
    try {
      const kriged: (Computed | null)[] = []
      for (const [code, value] of indicators.entries()) {
        const one = outcomeRule(rule, names[code])
        const label = `${rule.name}: ${names[code]}`
        const computed = value.some((part) => part > 0)
          ? await this.#computed(one, { ...points, value, error: undefined }, made, label)
          : null
        kriged.push(computed && { ...computed, bands: masked(computed.bands, rule, made.others) })
      }
      const { bands, result } = joinOutcomes(names, kriged)
      const plan = kriged.find((each) => each !== null)?.plan
      return {
        ...base,
        state: 'ready',
        bands,
        likeliest: result,
        testing: result.single?.testing ?? null,
        blocked: result.blocked?.testing ?? null,
        used: { neighbours: plan?.neighbours ?? null, power: null },
        stations,
        reach: plan?.reach ?? null,
        sentence:
          likeliestWords(result) + compositeSentence(rule, stations, partial) + farSentence(farOff),
      }
    } catch (error) {
      if (isStopped(error)) throw error
      const failure = error instanceof Error ? error.message : String(error)
      return { ...base, stations, state: 'failed', failure }
    }
  }

  async #computed(
    rule: SurfaceRule,
    points: Points,
    { input, used, options }: Making,
    label: string,
  ): Promise<Computed> {
    const boundaries = boundariesOf(rule, input.ground, input.placement.crs)
    const key = keyOf(rule, points, boundaries)
    used.add(key)
    const known = this.#known.get(key)
    if (known) return known
    const { activities, controller } = options
    const computed = await activities.run(
      `Surface ‘${label}’`,
      1,
      async (signal, progress) => {
        const plan = await this.pool.run(
          'plan surface',
          { rule, points, grid: null, boundaries },
          { signal },
        )
        const bands = plan.chance
          ? await this.#chance(plan, signal, progress)
          : await this.#rows(plan, signal, progress)
        return { plan, bands }
      },
      controller,
    )
    this.#known.set(key, computed)
    return computed
  }

  /** Batches of realisations side by side, each a stretch at a time, so that Stop is heard soon. */
  async #chance(
    plan: SurfacePlan,
    signal: AbortSignal,
    progress: (done: number, total: number) => void,
  ): Promise<SurfaceBands> {
    const name = `plan ${++planNumber}`
    this.pool.provide(name, plan)
    try {
      const batches = stretchesOf(plan)
      const total = batches.reduce((sum, stretches) => sum + stretches.length, 0)
      const exceeding: Uint16Array[] = []
      let done = 0
      let next = 0
      const lane = async () => {
        while (next < batches.length) {
          let fields: readonly Float32Array<ArrayBuffer>[] | null = null
          for (const stretch of batches[next++]) {
            const transfer: ArrayBuffer[] = (fields ?? []).map(({ buffer }) => buffer)
            const input: StretchInput = { plan: name, stretch, fields }
            const drawn: Drawn = await this.pool.run('draw stretch', input, { signal, transfer })
            fields = drawn.fields
            if (drawn.exceeding) exceeding.push(drawn.exceeding)
            progress(++done, total)
          }
        }
      }
      // As many batches at once as there are workers: each holds its realisations in memory.
      await Promise.all(Array.from({ length: this.pool.size }, lane))
      return chanceBands(plan, exceeding)
    } finally {
      this.pool.withdraw(name)
    }
  }

  async #rows(
    plan: SurfacePlan,
    signal: AbortSignal,
    progress: (done: number, total: number) => void,
  ): Promise<SurfaceBands> {
    const name = `plan ${++planNumber}`
    this.pool.provide(name, plan)
    try {
      const tiles = tilesOf(plan)
      let done = 0
      const computed = await Promise.all(
        tiles.map(async ([from, to]) => {
          const tile = await this.pool.run('surface rows', { plan: name, from, to }, { signal })
          progress(++done, tiles.length)
          return tile
        }),
      )
      return assemble(plan, computed)
    } finally {
      this.pool.withdraw(name)
    }
  }
}

const WAITING: Omit<SurfaceResult, 'rule'> = {
  unit: '',
  state: 'waiting',
  failure: null,
  bands: null,
  variogram: null,
  experimental: null,
  testing: null,
  used: null,
  stations: 0,
  reach: null,
  contours: [],
  sentence: '',
}

/** Numbers of the rules, each after the one that masks it; a circle is left in its own order. */
function maskOrder(rules: readonly SurfaceRule[]): number[] {
  const order: number[] = []
  const open = new Set<number>()
  const visit = (index: number) => {
    if (index < 0 || open.has(index)) return
    open.add(index)
    const mask = rules[index].mask
    if (mask) visit(rules.findIndex(({ name }) => name === mask.surface))
    order.push(index)
  }
  rules.forEach((_, index) => visit(index))
  return order
}

function masked(
  bands: SurfaceBands,
  { mask }: SurfaceRule,
  others: readonly SurfaceResult[],
): SurfaceBands {
  if (!mask) return bands
  const other = others.find(({ rule }) => rule.name === mask.surface)
  if (!other) throw new Error(`Its mask, the surface ‘${mask.surface}’, does not exist.`)
  if (!other.bands) {
    throw new Error(`Its mask, the surface ‘${mask.surface}’, could not be computed.`)
  }
  if (other.likeliest) {
    throw new Error(
      `Its mask, the surface ‘${mask.surface}’, holds classes and no values; mask by a class-probability of one of them.`,
    )
  }
  return applyMask(bands, other.bands, mask)
}

/** The mask is applied afterwards, so it is no part of what is remembered. */
function keyOf(rule: SurfaceRule, points: Points, boundaries: Boundaries | null): string {
  const { x, y, value, error } = points
  const rings = boundaries?.within?.flat() ?? []
  const arrays = [x, y, value, error, boundaries?.barriers, ...rings]
  const digest = arrays
    .map((array) => (array ? sha256(new Uint8Array(array.buffer)) : ''))
    .join(' ')
  return JSON.stringify([
    { ...rule, mask: undefined, support: undefined, composite: undefined },
    digest,
  ])
}

function levelsOf({ estimate }: SurfaceBands): number[] {
  let low = Infinity
  let high = -Infinity
  for (const value of estimate) {
    if (value < low) low = value
    if (value > high) high = value
  }
  return low < high ? niceLevels(low, high, CONTOURS) : []
}
