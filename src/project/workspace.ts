/**
 * The one place of state: a project, what it holds, what is computed from it.
 *
 * It gives out immutable snapshots and takes commands. Every command has its inverse on the undo
 * list; every change starts the chain of computing again, which redoes only what it must, and a
 * newer change stops the older run.
 */
import type { Pool } from '../jobs/pool'
import { isStopped } from '../jobs/pool'
import type { References } from '../jobs/references'
import { Activities, READING, type Activity } from './activity'
import { Chain } from './chain'
import { apply, type Command } from './commands'
import { compareOn } from './comparing'
import { Drawing } from './drawing'
import { VariogramWork } from './variogram-work'
import { NO_HISTORY, withDone, withRedone, withUndone, type History } from './history'
import type { Keeper } from './keeper'
import { withDateOrders } from './date-orders'
import { emptyProject, NO_HOLDINGS, type Holdings, type Project } from './project'
import { withoutOldReadings } from './old-readings'
import { readSources, type InputSource } from './reading'
import type { Recipe } from './recipe'
import { ReferenceWork } from './reference-work'
import { misreadFiles } from './recipe-layouts'
import type { Results } from './results'
import type { Compared, Comparing } from '../surfaces/compare'
import type { Points } from '../surfaces/model'

export type Saved = 'saved' | 'saving' | { readonly failure: string }

export interface Snapshot {
  /** Counts the projects opened so far: it changes when another one stands in their place. */
  readonly opened: number
  readonly project: Project
  readonly holdings: Holdings
  /** What has been computed so far; null before the first result. */
  readonly results: Results | null
  readonly references: References
  readonly activities: readonly Activity[]
  /** Whether results are still being worked out, between two activities too. */
  readonly computing: boolean
  readonly canUndo: boolean
  readonly canRedo: boolean
  readonly saved: Saved
  /** A failure of the program itself, in words; null where all is well. */
  readonly failure: string | null
}

/** A project and all that can be done to it. Listeners are told after each change. */
export class Workspace {
  #project: Project = emptyProject('Untitled')
  #holdings: Holdings = NO_HOLDINGS
  /** What was handed over, by path; kept for reading anew. */
  #sources = new Map<string, InputSource>()
  #results: Results | null = null
  #history: History = NO_HISTORY
  #saved: Saved = 'saved'
  #opened = 0
  #failure: string | null = null
  /** The failure that a run which comes to its end takes back. */
  #computingFailed: string | null = null
  #listeners = new Set<(snapshot: Snapshot) => void>()
  #activities = new Activities(() => this.#tell())
  #chain: Chain
  #run: AbortController | null = null
  #reading: Promise<void> = Promise.resolve()
  #computing: Promise<void> = Promise.resolve()
  #keeping: Promise<void> = Promise.resolve()
  #snapshot: Snapshot
  /** Makes what the map shows of grids. */
  readonly drawing: Drawing
  readonly variograms: VariogramWork
  readonly ownReferences: ReferenceWork

  constructor(
    private readonly pool: Pool,
    private readonly references: References,
    private readonly keeper: Keeper,
  ) {
    this.#chain = new Chain(pool, references)
    this.drawing = new Drawing(pool)
    this.variograms = new VariogramWork(pool, () => this.#snapshot)
    this.ownReferences = new ReferenceWork(
      pool,
      this.#activities,
      () => this.#snapshot,
      (command) => this.dispatch(command),
    )
    this.#snapshot = this.#take()
  }

  get snapshot(): Snapshot {
    return this.#snapshot
  }

  /** Calls back at once and at each change; gives the function that ends it. */
  subscribe(listener: (snapshot: Snapshot) => void): () => void {
    this.#listeners.add(listener)
    listener(this.#snapshot)
    return () => this.#listeners.delete(listener)
  }

  /** Carries out a command, keeps its inverse for undo, saves and computes anew. */
  dispatch(command: Command): void {
    this.#history = withDone(this.#history, this.#apply(command))
    this.#changed()
  }

  /**
   * Carries on the change that was made last, as a slider does while it is dragged: what undo takes
   * back stays the state before that change.
   */
  amend(command: Command): void {
    this.#apply(command)
    this.#history = { ...this.#history, redo: [] }
    this.#changed()
  }

  /** Takes up what was stopped: all that is missing is computed. */
  resume(): void {
    this.#compute()
  }

  /** Takes the last change back; nothing where there is none. */
  undo(): void {
    const command = this.#history.undo.at(-1)
    if (!command) return
    this.#history = withUndone(this.#history, this.#apply(command))
    this.#changed()
  }

  /** Makes the change again that was taken back last; nothing where there is none. */
  redo(): void {
    const command = this.#history.redo.at(-1)
    if (!command) return
    this.#history = withRedone(this.#history, this.#apply(command))
    this.#changed()
  }

  /**
   * Reads files into the project, after those that were handed over before. What was read before
   * Stop is dropped as a whole.
   */
  async addFiles(sources: readonly InputSource[]): Promise<void> {
    const chain = this.#chain
    this.#reading = this.#reading.then(() => this.#addNow(sources, chain))
    await this.#reading
    await this.#computing
  }

  /** Files for a project that has been left meanwhile are none of this one's. */
  async #addNow(sources: readonly InputSource[], chain: Chain): Promise<void> {
    if (chain !== this.#chain) return
    for (const source of sources) this.#sources.set(source.path, source)
    try {
      await this.#activities.run(READING, sources.length, async (signal, progress) => {
        const corrections = this.#project.recipe.layouts
        const asked = new Set(sources.map(({ path }) => path))
        const others = [...this.#sources.values()].filter(({ path }) => !asked.has(path))
        const beside = () => Promise.resolve(others)
        const options = { signal, progress, corrections, beside }
        const holdings = await readSources(this.pool, sources, this.#holdings, options)
        if (chain === this.#chain) this.#holdings = holdings
      })
    } catch (error) {
      this.#report(error)
    }
    if (chain === this.#chain) this.#changed()
  }

  /**
   * Reads files anew that were read otherwise than the recipe's layouts now say, as far as they
   * were handed over since the program was opened; the others wait to be chosen again.
   */
  async readAnew(): Promise<void> {
    const chain = this.#chain
    this.#reading = this.#reading.then(async () => {
      const misread = misreadFiles(this.#holdings.files, this.#project.recipe.layouts)
      const sources = misread.flatMap(({ path }) => this.#sources.get(path) ?? [])
      if (sources.length > 0) await this.#addNow(sources, chain)
    })
    await this.#reading
  }

  /** A file as it was handed over since the program was opened; undefined where it was not. */
  sourceOf(path: string): InputSource | undefined {
    return this.#sources.get(path)
  }

  /** Starts a project anew, with its recipe and its files. */
  async open(
    project: { name: string; statement: string | null; recipe: Recipe },
    sources: readonly InputSource[],
  ): Promise<void> {
    this.#activities.stop()
    this.#opened++
    this.#project = { ...emptyProject(project.name, project.recipe), statement: project.statement }
    this.#holdings = NO_HOLDINGS
    this.#sources = new Map()
    this.#results = null
    this.#history = NO_HISTORY
    this.#chain = new Chain(this.pool, this.references)
    this.#tell()
    await this.addFiles(sources)
  }

  /** Brings back what was saved last. @returns false where nothing was */
  async restore(): Promise<boolean> {
    const kept = await this.keeper.load()
    if (!kept) return false
    this.#opened++
    this.#project = kept.project
    this.#holdings = withoutOldReadings(kept.holdings)
    this.#history = kept.history
    this.#tell()
    this.#compute()
    return true
  }

  /** Methods side by side on a surface's stations, the best first. */
  compareMethods(
    surface: string,
    points: Points,
    comparing: Comparing,
  ): Promise<readonly Compared[]> {
    return compareOn(this.pool, this.#activities, surface, points, comparing)
  }

  /** Stops one running activity, or all. */
  stop(activity?: number): void {
    this.#activities.stop(activity)
  }

  /** Resolves when everything asked for so far has been computed and kept. */
  async settled(): Promise<void> {
    let computed: Promise<void> | null = null
    let kept: Promise<void> | null = null
    let read: Promise<void> | null = null
    while (read !== this.#reading || computed !== this.#computing || kept !== this.#keeping) {
      read = this.#reading
      computed = this.#computing
      kept = this.#keeping
      await Promise.all([read, computed, kept])
    }
  }

  #apply(command: Command): Command {
    const { project, inverse } = apply(this.#project, command)
    const isReadOtherwise = project.recipe.layouts !== this.#project.recipe.layouts
    this.#project = project
    if (isReadOtherwise) {
      this.#holdings = withDateOrders(this.#holdings, project.recipe.layouts)
      void this.readAnew()
    }
    return inverse
  }

  #changed(): void {
    this.#save()
    this.#compute()
  }

  /** Computes anew; a run that a newer change overtakes is stopped. */
  #compute(): void {
    this.#run?.abort()
    const controller = new AbortController()
    this.#run = controller
    this.#tell()
    const { signal } = controller
    const before = this.#computing
    this.#computing = (async () => {
      await before
      if (signal.aborted) return
      try {
        await this.#chain.run(this.#project, this.#holdings, {
          activities: this.#activities,
          controller,
          coarseFirst: true,
          varieties: true,
          publish: (results) => {
            if (signal.aborted) return
            this.#results = results
            this.#tell()
          },
        })
        this.#mended()
      } catch (error) {
        this.#report(error)
        if (!isStopped(error)) this.#computingFailed = this.#failure
      } finally {
        if (this.#run === controller) {
          this.#run = null
          this.#tell()
        }
      }
    })()
  }

  #save(): void {
    this.#saved = 'saving'
    const project = this.#project
    this.#keeping = this.keeper.save(project, this.#holdings, this.#history).then(
      () => {
        if (project === this.#project) this.#saved = 'saved'
        this.#tell()
      },
      (error: unknown) => {
        this.#saved = { failure: error instanceof Error ? error.message : String(error) }
        this.#tell()
      },
    )
  }

  #report(error: unknown): void {
    if (isStopped(error)) return
    this.#failure = error instanceof Error ? error.message : String(error)
    this.#tell()
  }

  #mended(): void {
    if (this.#failure === null || this.#failure !== this.#computingFailed) return
    this.#failure = null
    this.#tell()
  }

  #take(): Snapshot {
    return {
      opened: this.#opened,
      project: this.#project,
      holdings: this.#holdings,
      results: this.#results,
      references: this.#chain.references,
      activities: this.#activities.list,
      computing: this.#run !== null,
      canUndo: this.#history.undo.length > 0,
      canRedo: this.#history.redo.length > 0,
      saved: this.#saved,
      failure: this.#failure,
    }
  }

  #tell(): void {
    this.#snapshot = this.#take()
    for (const listener of this.#listeners) listener(this.#snapshot)
  }
}
