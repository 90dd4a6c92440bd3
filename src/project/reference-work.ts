/** Adding references of the user's own to a project: fitted by workers, with progress and Stop. */
import type { ReferenceNotes } from '../jobs/fit'
import type { Pool } from '../jobs/pool'
import type { ReferenceSet } from '../minerals/reference'
import { spectrumOf } from '../spectra/scan-store'
import type { Activities } from './activity'
import type { Command } from './commands'
import { referenceFromScan, referencesFrom } from './own-references'
import type { InputSource } from './reading'
import type { Snapshot } from './workspace'

/** The set that scans marked as references go into. */
const MARKED = 'Marked scans'
const EMPTY_MARKED: ReferenceSet = { name: MARKED, source: 'Scans of this project', references: [] }

/** Makes references and puts them into the project; `snapshot` gives it as it is when asked. */
export class ReferenceWork {
  constructor(
    private readonly pool: Pool,
    private readonly activities: Activities,
    private readonly snapshot: () => Snapshot,
    private readonly dispatch: (command: Command) => void,
  ) {}

  /**
   * Makes a reference set of what was chosen and uses it beside the others.
   *
   * @throws Error that says what is wrong with the files; an AbortError when stopped
   */
  async add(sources: readonly InputSource[], name: string): Promise<void> {
    await this.activities.run('Fitting references', sources.length, async (signal, progress) => {
      this.put(await referencesFrom(this.pool, sources, name, { signal, progress }))
    })
  }

  /**
   * Makes a reference of a scan, in the project's own set of marked scans. A scan that is marked
   * again takes the place of what it was.
   *
   * @param scan number among the active scans; nothing happens where there is none
   * @throws Error where the scan is too short or has too many gaps; an AbortError when stopped
   */
  async mark(scan: number, notes: ReferenceNotes): Promise<void> {
    const { results, holdings } = this.snapshot()
    const number = results?.scanNumbers[scan]
    const head = results?.heads[scan]
    if (number === undefined || !head) return
    const { wavelengths, reflectance } = spectrumOf(holdings.scans, number)
    const spectrum = { name: `${head.file} ${head.name}`, wavelengths, reflectance }
    await this.activities.run('Fitting a reference', 1, async (signal) => {
      const reference = await referenceFromScan(this.pool, spectrum, notes, signal)
      const { sets } = this.snapshot().project
      const own = sets.find(({ name }) => name === MARKED) ?? EMPTY_MARKED
      const kept = own.references.filter(({ record }) => record !== reference.record)
      this.put({ ...own, references: [...kept, reference] })
    })
  }

  /** A set in place of the one of its name. */
  private put(set: ReferenceSet): void {
    const { sets, builtIn } = this.snapshot().project
    const others = sets.filter(({ name }) => name !== set.name)
    this.dispatch({ do: 'set sets', sets: [...others, set], builtIn })
  }
}
