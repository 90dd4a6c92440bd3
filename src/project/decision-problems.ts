/** Decisions that speak of nothing in the project: a misspelt one would otherwise pass unseen. */
import type { Problem } from '../readers/input'
import { scanKey, type Decisions } from './decisions'
import { isUndated } from './hand-fields'
import { isNothing } from './overrule-mineral'
import type { Placement } from '../places/place-scans'
import { isRecordAbout } from './record-parts'
import type { ScanHead } from './project'

/**
 * A problem for each decision about a scan that is not there or a mineral that is not known.
 *
 * @param heads of the scans that count
 * @param hidden paths of files that were taken out; decisions about them may stay
 * @param placed where everything stands: a record may speak of a station without scans
 * @param minerals names that the references know
 */
export function decisionProblems(
  decisions: Decisions,
  heads: readonly ScanHead[],
  hidden: readonly string[],
  placed: Placement,
  minerals: readonly string[],
): Problem[] {
  const times = new Map(heads.map(({ file, name, known }) => [scanKey(file, name), known.timeText]))
  const stations = new Set(placed.stations.map(({ file: at = '', name }) => scanKey(at, name)))
  const away = new Set(hidden)
  return decisions.list.flatMap(({ file, scan, about }): Problem[] => {
    const wrong = (problem: string, done: string): Problem[] => [
      { file, line: null, problem, done },
    ]
    if (away.has(file)) return []
    if (scan === '' && isRecordAbout(about)) {
      return stations.has(scanKey(file, about.station ?? ''))
        ? []
        : wrong(
            `a decision speaks of the station ‘${about.station ?? ''}’ of this file, which is not there`,
            'passed over; correct its file and station in the decisions',
          )
    }
    const key = scanKey(file, scan)
    if (!times.has(key)) {
      return wrong(
        `a decision speaks of the scan ‘${scan}’ of this file, which was not read`,
        'passed over; correct its file and scan in the decisions',
      )
    }
    if (about.kind === 'field' && isUndated(about.field, about.value, times.get(key) ?? null)) {
      return wrong(
        `the white reference of the scan ‘${scan}’ is set to ${about.value}, and no time of the scan tells the day`,
        'passed over; set it with its date, or set the scan’s time',
      )
    }
    if (
      about.kind === 'mineral' &&
      !isNothing(about.mineral) &&
      !minerals.includes(about.mineral)
    ) {
      return wrong(
        `a decision calls the scan ‘${scan}’ ‘${about.mineral}’, which the references do not know`,
        'passed over; write the mineral as minerals.csv does, or “nothing diagnostic”',
      )
    }
    return []
  })
}
