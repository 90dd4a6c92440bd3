/** Computes a project's surfaces in workers, masks after the surfaces that they lean on. */
import type { Pool } from '../jobs/pool'
import { isStopped } from '../jobs/pool'
import { spreadOf, type Finished, type Spread } from '../jobs/finish-surface'
import type { SurfacePlan } from '../surfaces/compute'
import { givesChance, type SurfaceBands, type SurfaceRule } from '../surfaces/model'
import type { Activities } from './activity'
import { askFor, messageOf, type Asked, type AskedClasses, type AskedValue } from './asked-surface'
import { drawChance } from './draw-chance'
import { residualsOf } from './residuals'
import type { SurfaceResult } from './results'
import { joinOutcomes, likeliestWords } from './likeliest'
import { coverOf, masked, maskOrder, sameCover, type Cover } from './surface-masks'
import type { SurfaceInput } from './surface-points'
import { computeInTiles, type SoFar } from './surface-tiles'
import {
  belowSentence,
  compositeSentence,
  evenBelow,
  declusteringSentence,
  driftSentence,
  evenSentence,
  farSentence,
  nowhereSentence,
  transformSentence,
  trust,
  variogramSentence,
} from './surface-words'

export interface SurfacingOptions {
  readonly activities: Activities
  readonly controller: AbortController
  /** Called with all surfaces as each of them comes on. */
  readonly publish: (surfaces: readonly SurfaceResult[]) => void
  /** Whether large surfaces are published coarse first, for someone who looks on. */
  readonly coarseFirst?: boolean
}

interface Computed {
  readonly plan: SurfacePlan
  readonly bands: SurfaceBands
  /** What was drawn of it last. */
  drawn: (Finished & { readonly cover: Cover; readonly bands: SurfaceBands }) | null
}

/** Classes that were joined last, by what they were joined from. */
interface Joined extends ReturnType<typeof joinOutcomes> {
  readonly kriged: readonly (Computed | null)[]
  readonly cover: Cover
  /** The limit on its doubt. */
  readonly most: number | undefined
}

type Others = readonly SurfaceResult[]

let planNumber = 0

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
      const publish = (partial: SurfaceResult['partial'], unit: string) => {
        results[index] = { ...results[index], unit, partial }
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
    publish: (partial: SurfaceResult['partial'], unit: string) => void,
    options: SurfacingOptions,
  ): Promise<SurfaceResult> {
    try {
      return asked.kind === 'value'
        ? await this.#value(asked, others, publish, options)
        : await this.#classes(asked, others, options)
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
    publish: (partial: SurfaceResult['partial'], unit: string) => void,
    options: SurfacingOptions,
  ): Promise<SurfaceResult> {
    const { rule } = asked
    // Colours keep their meaning from the first picture on, until all nodes are known.
    let spread: Spread | null = null
    const soFar = ({ bands, step, part }: SoFar) => {
      const shown = masked(bands, rule, others)
      spread ??= spreadOf(shown)
      publish({ bands: shown, step, part, spread }, unitOf(asked))
    }
    const computed = await this.#computed(asked, options, options.coarseFirst ? soFar : null)
    const bands = masked(computed.bands, rule, others)
    const { signal } = options.controller
    const finished = await this.pool.run(
      'finish surface',
      { bands, evenBelow: evenBelow(computed.plan) },
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
    options: SurfacingOptions,
  ): Promise<SurfaceResult> {
    const { rule, found, parts } = asked
    const kriged: (Computed | null)[] = []
    for (const part of parts) kriged.push(part && (await this.#computed(part, options, null)))
    const covered = kriged.map(
      (each) => each && { ...each, bands: masked(each.bands, rule, others) },
    )
    const most = rule.doubt_at_most
    const joined = joinOutcomes(found.names, covered, most)
    const remembered = { ...joined, kriged, most, cover: coverOf(rule, others) }
    this.#joined.set(rule.name, remembered)
    return classesOf(asked, remembered)
  }

  async #computed(
    { rule, points, boundaries, drift, blockSide, key, label }: Asked,
    { activities, controller }: SurfacingOptions,
    soFar: ((soFar: SoFar) => void) | null,
  ): Promise<Computed> {
    const known = this.#known.get(key)
    if (known) return known
    const computed = await activities.run(
      `Surface ‘${label}’`,
      1,
      async (signal, progress): Promise<Computed> => {
        const input = { rule, points, grid: null, boundaries, drift, blockSide }
        const plan = await this.pool.run('plan surface', input, { signal })
        const name = `plan ${++planNumber}`
        const bands = plan.chance
          ? await drawChance(this.pool, plan, name, { signal, progress })
          : await computeInTiles(this.pool, plan, name, { signal, progress, soFar })
        return { plan, bands, drawn: null }
      },
      controller,
    )
    this.#known.set(key, computed)
    return computed
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

/** A chance has no unit. */
function unitOf({ rule, found }: AskedValue): string {
  return givesChance(rule.method) ? '' : found.unit
}

function valueOf(
  asked: AskedValue,
  plan: SurfacePlan,
  { bands, contours, spread, even }: NonNullable<Computed['drawn']>,
): SurfaceResult {
  const { rule, found, names } = asked
  const unit = unitOf(asked)
  const without = plan.drift?.without ?? []
  return {
    ...WAITING,
    rule,
    unit,
    state: 'ready',
    bands,
    variogram: plan.variogram,
    experimental: plan.experimental,
    testing: plan.testing,
    blocked: plan.blocked,
    residuals: residualsOf(plan, found.points, found.stations),
    points: plan.points,
    used: { neighbours: plan.neighbours, power: plan.power, choice: plan.choice },
    stations: found.points.value.length - without.length,
    belowDetection: found.belowDetection,
    reach: finite(plan.reach),
    contours,
    spread,
    sentence:
      trust(plan, unit) +
      evenSentence(even, unit) +
      variogramSentence(plan) +
      driftSentence(
        rule,
        without.flatMap((i) => found.stations[i].map((station) => names[station])),
      ) +
      transformSentence(rule) +
      declusteringSentence(plan, found.unit) +
      compositeSentence(rule, found) +
      belowSentence(rule, found.belowDetection) +
      nowhereSentence(rule, plan, spread.estimate === null) +
      farSentence(found.farOff),
  }
}

/** No limit is none. */
function finite(reach: number): number | null {
  return Number.isFinite(reach) ? reach : null
}

function classesOf(
  { rule, found }: AskedClasses,
  { bands, result, kriged }: Joined,
): SurfaceResult {
  const plan = kriged.find((each) => each !== null)?.plan
  return {
    ...WAITING,
    rule,
    state: 'ready',
    bands,
    likeliest: result,
    testing: result.single?.testing ?? null,
    blocked: result.blocked?.testing ?? null,
    used: { neighbours: plan?.neighbours ?? null, power: null },
    stations: found.points.x.length,
    reach: finite(plan?.reach ?? Infinity),
    sentence:
      likeliestWords(result, rule.doubt_at_most) +
      compositeSentence(rule, found) +
      farSentence(found.farOff),
  }
}
