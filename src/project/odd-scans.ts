/** Verdicts with a word where one scan is unlike the others of its station and target. */
import { DEFAULT_LIMITS, type CheckLimits } from '../check/limits'
import { oddReasons, type StationScan } from '../check/odd-replicates'
import type { Verdict } from '../check/verdict'
import type { Identification } from '../minerals/reference'
import type { Placement } from '../places/place-scans'
import type { ScanStore } from '../spectra/scan-store'
import type { Active } from './active-scans'
import type { Examiner } from './examining'
import { Memo } from './memo'

/** Verdicts and minerals of placed scans; lists have an entry an active scan. */
export interface NamedScans {
  readonly active: Active
  readonly placement: Placement
  readonly verdicts: readonly Verdict[]
  readonly identifications: readonly (Identification | null)[]
}

/** Points out odd scans; remembers what it made of the same ingredients. */
export class OddScans {
  readonly #told = new Memo<readonly Verdict[]>()
  readonly #examiner: Pick<Examiner, 'measures'>

  constructor(examiner: Pick<Examiner, 'measures'>) {
    this.#examiner = examiner
  }

  /**
   * The verdicts, in which an odd scan has one reason more. It stays what it was: the reason is
   * a word to look at it, and it goes on counting in its station's mean.
   *
   * @param limits those that differ from the program's own
   */
  get(
    named: NamedScans,
    store: ScanStore,
    limits: Partial<CheckLimits> | undefined,
  ): readonly Verdict[] {
    const { active, placement, verdicts, identifications } = named
    return this.#told.get([active, placement, verdicts, identifications, limits], () => {
      const axes = axesOf(store)
      const scans = verdicts.map((_, scan) => stationScan(named, scan, axes, this.#examiner))
      const reasons = oddReasons(scans, { ...DEFAULT_LIMITS, ...limits })
      return verdicts.map((verdict, scan) => {
        const reason = reasons[scan]
        return reason === null ? verdict : { ...verdict, reasons: [...verdict.reasons, reason] }
      })
    })
  }
}

function stationScan(
  { active, placement, verdicts, identifications }: NamedScans,
  scan: number,
  axes: Int32Array,
  examiner: Pick<Examiner, 'measures'>,
): StationScan | null {
  const { station, target } = placement.scans[scan]
  if (station === null || verdicts[scan].check !== 'sound') return null
  const number = active.numbers[scan]
  const found = identifications[scan]?.minerals ?? []
  return {
    // Channels of two axes do not compare.
    set: `${station}/${target}/${axes[number]}`,
    sketch: examiner.measures(number).likeness.sketch,
    noise: verdicts[scan].noise,
    groups: found.map(({ group }) => group),
  }
}

/** The axis of each scan of a store. */
function axesOf({ blocks, count }: ScanStore): Int32Array {
  const axes = new Int32Array(count)
  for (const { axis, scans, count: used } of blocks) {
    for (let row = 0; row < used; row++) axes[scans[row]] = axis
  }
  return axes
}
