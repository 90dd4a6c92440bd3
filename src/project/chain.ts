/**
 * From files to a map: placing, checking, identifying, indices, classes, surfaces.
 *
 * One chain belongs to one project. Each link is remembered by its ingredients, so that a changed
 * class threshold does no more than class stations anew.
 */
import type { DayStandards } from '../check/day-standards'
import type { Verdict } from '../check/verdict'
import type { Pool } from '../jobs/pool'
import { REFERENCES } from '../jobs/tasks'
import { compileIndices, type IndexSet } from '../indices/index-set'
import { knownMinerals, type References } from '../jobs/references'
import type { Identification } from '../minerals/reference'
import { loadEpsgTable } from '../places/crs'
import { placePiecewise, type Placement } from '../places/place-scans'
import { activeScans, shown, type Active } from './active-scans'
import type { Activities } from './activity'
import { DayChecks } from './day-checks'
import { withFilesFound } from './decision-files'
import { type Decisions } from './decisions'
import { Examiner } from './examining'
import { followDecisions } from './follow-decisions'
import { effectiveReferences } from './effective-references'
import { handPlaces } from './hand-places'
import { exploringOf, type Exploring } from './exploring'
import { Memo } from './memo'
import { nextTurn } from './pace'
import { OddScans } from './odd-scans'
import { stationOrigins, type Origins } from './origins'
import { identificationsOf, verdictsOf } from './overruled'
import { placedOnly } from './placed-only'
import { problemsOf } from './problems'
import type { Holdings, Project } from './project'
import type { Results, SurfaceResult } from './results'
import { fieldsKey, headsForPlacing, withFields } from './scan-fields'
import { writtenOf, type Written } from './station-cells'
import { surfaceInput, type SurfaceInput } from './surface-points'
import { Surfacing } from './surfacing'
import { Varieties } from './varieties'
import {
  classifyPiecewise,
  compileAll,
  evaluatePiecewise,
  knownNames,
  type Compiled,
  type Names,
  type Values,
} from './values'

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

/** What values are worked out from. */
interface FoundSoFar {
  readonly active: Active
  readonly placement: Placement
  readonly written: Written
  readonly compiled: Compiled
  readonly standards: DayStandards
}

export class Chain {
  readonly #examiner = new Examiner()
  readonly #oddScans = new OddScans(this.#examiner)
  readonly #varieties = new Varieties(this.#examiner)
  readonly #dayChecks = new DayChecks()
  readonly #effective = new Memo<References>()
  #references: References
  readonly #surfacing: Surfacing
  readonly #active = new Memo<Active>()
  readonly #edited = new Memo<Active>()
  readonly #written = new Memo<Written>()
  readonly #decisions = new Memo<Decisions>()
  readonly #placement = new Memo<Placement>()
  readonly #verdicts = new Memo<readonly Verdict[]>()
  readonly #identifications = new Memo<readonly (Identification | null)[]>()
  readonly #names = new Memo<Names>()
  readonly #indexSet = new Memo<IndexSet>()
  readonly #compiled = new Memo<Compiled>()
  readonly #origins = new Memo<readonly Origins[]>()
  readonly #values = new Memo<Values>()
  readonly #classes = new Memo<{ scans: string[]; stations: string[] }>()
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
    const whole = this.#active.get([holdings, asked.hidden], () => activeScans(holdings, asked))
    const decisions = this.#decisions.get([asked.decisions, whole], () =>
      withFilesFound(
        asked.decisions,
        new Set([...whole.heads, ...holdings.tables].map(({ file }) => file)),
      ),
    )
    const active = this.#edited.get([whole, fieldsKey(decisions)], () =>
      withFields(whole, decisions),
    )
    const project = { ...asked, decisions }
    this.#useReferences(project)
    await Promise.all([loadEpsgTable(), nextTurn()])
    const placement = await this.#place(project, holdings, active, signal)
    const written = this.#written.get([placement, active, decisions], () =>
      writtenOf(placement, active.heads, decisions),
    )
    const compiled = this.#compile(project, holdings, placement, written)
    if (!this.#anyExamined && active.heads.length > 0) {
      publish(placedOnly(active, placement, written))
    }
    followDecisions(this.#examiner, active, project.decisions)
    await this.#examine(holdings, active, compiled, activities, controller)
    const { check } = project.recipe
    const standards = await this.#dayChecks.run(this.pool, holdings, active, check, signal)
    signal.throwIfAborted()
    this.#anyExamined = true
    const found = { active, placement, written, compiled, standards }
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
      publish: (list) => {
        this.#surfaces = list
        publish({ ...base, surfaces: list })
      },
    })
    this.#surfaces = surfaces
    const results = { ...base, surfaces }
    publish(results)
    return results
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

  #place(
    project: Project,
    holdings: Holdings,
    active: Active,
    signal: AbortSignal,
  ): Promise<Placement> {
    const { crs, places } = project.recipe
    return this.#placement.getPaced(
      [active, holdings.tables, holdings.tracks, places, crs, project.decisions],
      () =>
        placePiecewise({
          scans: headsForPlacing(active.heads),
          tables: shown(holdings.tables, project),
          tracks: shown(holdings.tracks, project),
          rules: places,
          crs,
          hand: handPlaces(active.heads, project),
        }),
      signal,
    )
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

  #compile(project: Project, holdings: Holdings, placement: Placement, written: Written): Compiled {
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

  async #valued(
    project: Project,
    holdings: Holdings,
    { active, placement, written, compiled, standards }: FoundSoFar,
    signal: AbortSignal,
  ): Promise<Results> {
    const { recipe, decisions } = project
    const verdicts = await this.#verdicts.getPaced(
      [active, decisions, recipe.check?.limits, standards],
      () => verdictsOf(this.#examiner, active, project, standards),
      signal,
    )
    const identifications = this.#identifications.get(
      [active, verdicts, decisions, this.#references],
      () => identificationsOf(this.#examiner, active, verdicts, project, this.#references),
    )
    const named = { active, placement, verdicts, identifications }
    const pointedOut = this.#oddScans.get(named, holdings.scans, recipe.check?.limits)
    const origins = this.#origins.get([placement, active, decisions], () =>
      stationOrigins(placement, active.heads, decisions),
    )
    const leafKeys = compiled.leaves.map(({ key }) => key).join(';')
    const values = await this.#values.getPaced(
      [
        placement,
        verdicts,
        identifications,
        origins,
        written,
        compiled.indices,
        recipe.targets,
        recipe.average,
        leafKeys,
      ],
      () =>
        evaluatePiecewise(
          {
            placement,
            verdicts,
            identifications,
            origins,
            written,
            leaf: (key, scan) => this.#examiner.leaf(key, active.numbers[scan]),
          },
          compiled,
          recipe,
        ),
      signal,
    )
    const classes = await this.#classes.getPaced(
      [values, compiled],
      () => classifyPiecewise(compiled, values),
      signal,
    )
    return {
      examined: true,
      scanNumbers: active.numbers,
      heads: active.heads,
      placement,
      verdicts: pointedOut,
      identifications,
      references: this.#references,
      varieties: [],
      indices: values.columns,
      stationMinerals: values.stationMinerals,
      origins,
      written,
      scanClasses: classes.scans,
      stationClasses: classes.stations,
      troubles: compiled.troubles,
      surfaces: this.#surfaces.filter(({ rule }) => recipe.surfaces.includes(rule)),
      problems: problemsOf(project, holdings, active, placement, knownMinerals(this.#references)),
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
