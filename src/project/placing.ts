/** Which scans count, as people changed them, and where they were taken. */
import { placePiecewise, type Placement } from '../places/place-scans'
import { activeScans, shown, type Active } from './active-scans'
import { withFilesFound } from './decision-files'
import type { Decisions } from './decisions'
import { handPlaces } from './hand-places'
import { Memo } from './memo'
import type { Holdings, Project } from './project'
import { fieldsKey, withFields } from './scan-fields'
import { writtenOf, type Written } from './station-cells'

/** Scans with their places. */
export interface Placed {
  /** Scans of files that are not hidden, with the fields that people changed. */
  readonly active: Active
  /** The project's decisions, each by the path that its file has now. */
  readonly decisions: Decisions
  readonly placement: Placement
  readonly written: Written
}

/** The links of the chain up to a place for each scan, remembered by their ingredients. */
export class Placing {
  readonly #whole = new Memo<Active>()
  readonly #decisions = new Memo<Decisions>()
  readonly #active = new Memo<Active>()
  readonly #placement = new Memo<Placement>()
  readonly #written = new Memo<Written>()

  /**
   * Places a project's scans; the table of coordinate systems has to be loaded.
   *
   * @throws an AbortError when stopped
   */
  async run(project: Project, holdings: Holdings, signal: AbortSignal): Promise<Placed> {
    const whole = this.#whole.get([holdings, project.hidden], () => activeScans(holdings, project))
    const decisions = this.#decisions.get([project.decisions, whole], () =>
      withFilesFound(
        project.decisions,
        new Set([...whole.heads, ...holdings.tables].map(({ file }) => file)),
      ),
    )
    const active = this.#active.get([whole, fieldsKey(decisions)], () =>
      withFields(whole, decisions),
    )
    const placement = await this.#place({ ...project, decisions }, holdings, active, signal)
    const written = this.#written.get([placement, active, decisions], () =>
      writtenOf(placement, active.heads, decisions),
    )
    return { active, decisions, placement, written }
  }

  #place(
    project: Project,
    holdings: Holdings,
    active: Active,
    signal: AbortSignal,
  ): Promise<Placement> {
    const { crs, places, grouping } = project.recipe
    return this.#placement.getPaced(
      [active, holdings.tables, holdings.tracks, places, crs, grouping, project.decisions],
      () =>
        placePiecewise({
          scans: active.heads,
          tables: shown(holdings.tables, project),
          tracks: shown(holdings.tracks, project),
          rules: places,
          crs,
          grouping,
          hand: handPlaces(active.heads, project),
        }),
      signal,
    )
  }
}
