/** From what was measured to verdicts, minerals, index values and classes. */
import type { DayStandards } from '../check/day-standards'
import type { Verdict } from '../check/verdict'
import type { References } from '../jobs/references'
import type { Identification } from '../minerals/reference'
import type { ScanStore } from '../spectra/scan-store'
import type { Examiner } from './examining'
import { Memo } from './memo'
import { OddScans } from './odd-scans'
import { stationOrigins, type Origins } from './origins'
import { identificationsOf, verdictsOf } from './overruled'
import type { Placed } from './placing'
import type { Project } from './project'
import type { Results } from './results'
import { classifyPiecewise, evaluatePiecewise, type Compiled, type Values } from './values'

/** What values are worked out from. */
export interface ValuingInput {
  readonly placed: Placed
  readonly scans: ScanStore
  readonly compiled: Compiled
  readonly standards: DayStandards
  readonly references: References
}

/** What is known of scans and stations before any surface. */
export type Valued = Pick<
  Results,
  | 'verdicts'
  | 'identifications'
  | 'origins'
  | 'indices'
  | 'stationMinerals'
  | 'scanClasses'
  | 'stationClasses'
>

/** The links of the chain from measures to classes, remembered by their ingredients. */
export class Valuing {
  readonly #oddScans: OddScans
  readonly #verdicts = new Memo<readonly Verdict[]>()
  readonly #identifications = new Memo<readonly (Identification | null)[]>()
  readonly #origins = new Memo<readonly Origins[]>()
  readonly #values = new Memo<Values>()
  readonly #classes = new Memo<{ scans: string[]; stations: string[] }>()

  constructor(private readonly examiner: Examiner) {
    this.#oddScans = new OddScans(examiner)
  }

  /**
   * Judges, names and classes a project's scans; they have to be examined.
   *
   * @throws an AbortError when stopped
   */
  async run(project: Project, input: ValuingInput, signal: AbortSignal): Promise<Valued> {
    const { placed, scans, compiled, standards, references } = input
    const { active, placement } = placed
    const { recipe, decisions } = project
    const verdicts = await this.#verdicts.getPaced(
      [active, decisions, recipe.check?.limits, standards],
      () => verdictsOf(this.examiner, active, project, standards),
      signal,
    )
    const identifications = this.#identifications.get(
      [active, verdicts, decisions, references],
      () => identificationsOf(this.examiner, active, verdicts, project, references),
    )
    const named = { active, placement, verdicts, identifications }
    const origins = this.#origins.get([placement, active, decisions], () =>
      stationOrigins(placement, active.heads, decisions),
    )
    const found = { verdicts, identifications, origins }
    const values = await this.#evaluate(project, placed, compiled, found, signal)
    const classes = await this.#classes.getPaced(
      [values, compiled],
      () => classifyPiecewise(compiled, values),
      signal,
    )
    return {
      ...found,
      verdicts: this.#oddScans.get(named, scans, recipe.check?.limits),
      indices: values.columns,
      stationMinerals: values.stationMinerals,
      scanClasses: classes.scans,
      stationClasses: classes.stations,
    }
  }

  /** Index values; classes apart, so that a limit can be dragged without evaluating anew. */
  #evaluate(
    { recipe }: Project,
    { active, placement, written }: Placed,
    compiled: Compiled,
    found: Pick<Valued, 'verdicts' | 'identifications' | 'origins'>,
    signal: AbortSignal,
  ): Promise<Values> {
    const leaf = (key: string, scan: number) => this.examiner.leaf(key, active.numbers[scan])
    return this.#values.getPaced(
      [
        placement,
        found.verdicts,
        found.identifications,
        found.origins,
        written,
        compiled.indices,
        recipe.targets,
        recipe.average,
        compiled.leaves.map(({ key }) => key).join(';'),
      ],
      () => evaluatePiecewise({ placement, written, ...found, leaf }, compiled, recipe),
      signal,
    )
  }
}
