/**
 * From files to a map: placing, checking, identifying, indices, classes, surfaces.
 *
 * One chain belongs to one project. Each link is remembered by its ingredients, so that a changed
 * class threshold does no more than class stations anew.
 */
import type { Pool } from '../jobs/pool'
import { REFERENCES } from '../jobs/tasks'
import { compileIndices, type IndexSet } from '../indices/index-set'
import { knownMinerals, type References } from '../jobs/references'
import { loadEpsgTable } from '../places/crs'
import type { Placement } from '../places/place-scans'
import { shown, type Active } from './active-scans'
import type { Activities } from './activity'
import { DayChecks } from './day-checks'
import { Examiner } from './examining'
import { followDecisions } from './follow-decisions'
import { effectiveReferences } from './effective-references'
import { exploringOf, type Exploring } from './exploring'
import { Memo } from './memo'
import { nextTurn } from './pace'
import { placedOnly } from './placed-only'
import { Placing, type Placed } from './placing'
import { problemsOf } from './problems'
import type { Holdings, Project } from './project'
import type { Results, SurfaceResult } from './results'
import type { Written } from './station-cells'
import { StepSharing } from './step-sharing'
import { surfaceInput, type SurfaceInput } from './surface-points'
import { Surfacing } from './surfacing'
import { traverseProblems } from './traverse-words'
import { Traversing } from './traversing'
import { Valuing, type ValuingInput } from './valuing'
import { Varieties } from './varieties'
import { compileAll, knownNames, type Compiled, type Names } from './values'

/** How one run of the chain is followed and stopped. */
export interface ChainOptions {
  readonly activities: Activities
  /** Aborted when a newer change overtakes this run, or by Stop. */
  readonly controller: AbortController
  /** Called with what there is so far, several times a run. */
  readonly publish: (results: Results) => void
  /** Whether large surfaces are published coarse first, for someone who looks on. */
  readonly coarseFirst?: boolean
  /** Whether varieties of the minerals are wanted beside the recipe's indices. */
  readonly varieties?: boolean
}

/** All links in their order. */
export class Chain {
  readonly #placing = new Placing()
  readonly #examiner = new Examiner()
  readonly #stepSharing = new StepSharing()
  readonly #valuing = new Valuing(this.#examiner)
  readonly #varieties = new Varieties(this.#examiner)
  readonly #dayChecks = new DayChecks()
  readonly #effective = new Memo<References>()
  #references: References
  readonly #surfacing: Surfacing
  readonly #names = new Memo<Names>()
  readonly #indexSet = new Memo<IndexSet>()
  readonly #compiled = new Memo<Compiled>()
  readonly #traversing: Traversing
  readonly #ground = new Memo<Holdings['ground']>()
  readonly #surfaceInput = new Memo<SurfaceInput>()
  readonly #exploring = new Memo<Exploring>()
  #surfaces: readonly SurfaceResult[] = []
  /** Whether a run has come as far as verdicts; before the first, stations are shown without. */
  #anyExamined = false

  constructor(
    private readonly pool: Pool,
    private readonly given: References,
  ) {
    this.#references = given
    this.#surfacing = new Surfacing(pool)
    this.#traversing = new Traversing(pool)
    pool.provide(REFERENCES, given)
  }

  /**
   * Computes all that has changed.
   *
   * @returns the results
   * @throws an AbortError when stopped; a later run goes on from what is remembered
   */
  async run(asked: Project, holdings: Holdings, options: ChainOptions): Promise<Results> {
    const { activities, controller, publish } = options
    const { signal } = controller
    // The screen shows first what has changed.
    await nextTurn()
    signal.throwIfAborted()
    this.#useReferences(asked)
    await Promise.all([loadEpsgTable(), nextTurn()])
    const placed = await this.#placing.run(asked, holdings, signal)
    const { active, placement, written } = placed
    const project = { ...asked, decisions: placed.decisions }
    const compiled = this.#compile(project, holdings, placed)
    if (!this.#anyExamined && active.heads.length > 0) {
      publish(placedOnly(active, placement, written))
    }
    const stepsShared = await this.#stepSharing.run(
      this.pool,
      { store: holdings.scans, active, placement, decisions: project.decisions },
      activities,
      controller,
    )
    followDecisions(this.#examiner, active, project.decisions, stepsShared)
    await this.#examine(holdings, active, compiled, activities, controller)
    const { check } = project.recipe
    const standards = await this.#dayChecks.run(this.pool, holdings, active, check, signal)
    signal.throwIfAborted()
    this.#anyExamined = true
    const found = { placed, compiled, standards, stepsShared }
    const valued = await this.#valued(project, holdings, found, signal)
    const input = this.#surfaceInputOf(project, holdings, compiled, valued)
    const exploring = this.#exploring.get([input], () => exploringOf(input))
    const first = { ...valued, exploring, varieties: this.#varieties.known(active) }
    publish(first)
    const base = options.varieties
      ? await this.#withVarieties(first, project, holdings, active, options)
      : first
    const surfaces = await this.#surfacing.run(project.recipe.surfaces, input, {
      activities,
      controller,
      coarseFirst: options.coarseFirst,
      publish: (list) => publish({ ...base, surfaces: this.#keep(list) }),
    })
    const surfaced = { ...base, surfaces: this.#keep(surfaces) }
    publish(surfaced)
    return this.#withTraverse(surfaced, project, holdings, options)
  }

  /** Keeps surfaces for the next run, which shows them until it has its own. */
  #keep(surfaces: readonly SurfaceResult[]): readonly SurfaceResult[] {
    this.#surfaces = surfaces
    return surfaces
  }

  /** What scans are identified against in this project. */
  get references(): References {
    return this.#references
  }

  #useReferences({ sets, builtIn, recipe }: Project): void {
    const effective = this.#effective.get([sets, builtIn, recipe.references], () =>
      effectiveReferences(this.given, sets, builtIn, recipe.references),
    )
    if (effective === this.#references) return
    this.#references = effective
    this.#examiner.forgetMinerals()
    this.pool.provide(REFERENCES, effective)
  }

  #namesOf(
    { hidden }: Project,
    { tables }: Holdings,
    placement: Placement,
    written: Written,
  ): Names {
    return this.#names.get([placement, tables, hidden, this.#references, written], () =>
      knownNames(this.#references, placement, shown(tables, { hidden }), written),
    )
  }

  #compile(project: Project, holdings: Holdings, { placement, written }: Placed): Compiled {
    const { recipe } = project
    const names = this.#namesOf(project, holdings, placement, written)
    const indices = this.#indexSet.get([recipe.indices, names], () =>
      compileIndices(recipe.indices, names),
    )
    return this.#compiled.get([recipe.classes, indices, names], () =>
      compileAll(recipe, indices, names),
    )
  }

  async #examine(
    holdings: Holdings,
    active: Active,
    compiled: Compiled,
    activities: Activities,
    controller: AbortController,
  ): Promise<void> {
    const counts = new Set(active.numbers)
    const { scans } = holdings
    const tiles = this.#examiner.missing(scans, (scan) => counts.has(scan), compiled.leaves)
    if (tiles.length === 0) return
    await activities.run(
      'Checking and identifying scans',
      active.numbers.length,
      (signal, progress) => this.#examiner.examine(this.pool, scans, tiles, signal, progress),
      controller,
    )
  }

  /** The results but for varieties and for surfaces that are not known from the run before. */
  async #valued(
    project: Project,
    holdings: Holdings,
    found: Pick<ValuingInput, 'placed' | 'compiled' | 'standards'> & Pick<Results, 'stepsShared'>,
    signal: AbortSignal,
  ): Promise<Results> {
    const { active, placement, written } = found.placed
    const references = this.#references
    const input = { ...found, scans: holdings.scans, references }
    const valued = await this.#valuing.run(project, input, signal)
    return {
      examined: true,
      scanNumbers: active.numbers,
      heads: active.heads,
      placement,
      written,
      references,
      stepsShared: found.stepsShared,
      ...valued,
      varieties: [],
      troubles: found.compiled.troubles,
      traverse: project.recipe.traverse ? this.#traversing.last : null,
      surfaces: this.#surfaces.filter(({ rule }) => project.recipe.surfaces.includes(rule)),
      problems: problemsOf(project, holdings, active, placement, knownMinerals(references)),
    }
  }

  /** The results with the varieties of the minerals, published before surfaces take their time. */
  async #withVarieties(
    results: Results,
    project: Project,
    holdings: Holdings,
    active: Active,
    { activities, controller, publish }: ChainOptions,
  ): Promise<Results> {
    const { identifications, placement, written } = results
    const names = this.#namesOf(project, holdings, placement, written)
    const input = { store: holdings.scans, active, identifications, names }
    const varieties = await this.#varieties.run(this.pool, input, activities, controller)
    if (varieties === results.varieties) return results
    const told = { ...results, varieties }
    publish(told)
    return told
  }

  /** The results with the walk that the recipe asks for; the last one stands until it is planned. */
  async #withTraverse(
    results: Results,
    { recipe, hidden }: Project,
    holdings: Holdings,
    { activities, controller, publish }: ChainOptions,
  ): Promise<Results> {
    const { traverse: rule } = recipe
    if (!rule) return results
    const { surfaces, placement } = results
    const ground = this.#ground.get([holdings.ground, hidden], () =>
      holdings.ground.filter(({ path }) => !hidden.includes(path)),
    )
    const input = { surfaces, placement, ground }
    const traverse = await this.#traversing.run(rule, input, activities, controller, (soFar) =>
      publish({ ...results, traverse: soFar }),
    )
    const problems = [...results.problems, ...traverseProblems(traverse)]
    const planned = { ...results, traverse, problems }
    publish(planned)
    return planned
  }

  #surfaceInputOf(
    project: Project,
    holdings: Holdings,
    compiled: Compiled,
    results: Results,
  ): SurfaceInput {
    const { placement, verdicts, identifications, indices, stationClasses } = results
    const { recipe, hidden } = project
    const { ground } = holdings
    return this.#surfaceInput.get(
      [
        placement,
        verdicts,
        identifications,
        indices,
        stationClasses,
        recipe.targets,
        compiled,
        ground,
        hidden,
      ],
      () => surfaceInput(project, results, compiled, ground),
    )
  }
}
