/** Results before any scan is examined, so that stations stand on the map from the start. */
import { UNCLASSIFIED } from '../classes/rule'
import type { Verdict } from '../check/verdict'
import type { Placement } from '../places/place-scans'
import type { Active } from './active-scans'
import type { Results } from './results'
import type { Written } from './station-cells'

const NOT_JUDGED: Verdict = { check: 'sound', reasons: [], noise: null }

/** Places alone; `examined` says that nothing else in it means anything yet. */
export function placedOnly(
  { numbers, heads }: Active,
  placement: Placement,
  written: Written,
): Results {
  return {
    examined: false,
    scanNumbers: numbers,
    heads,
    placement,
    verdicts: heads.map(() => NOT_JUDGED),
    identifications: heads.map(() => null),
    varieties: [],
    indices: [],
    stationMinerals: placement.stations.map(() => ({ groups: [], minerals: [], sound: 0 })),
    origins: placement.stations.map(() => new Map()),
    written,
    scanClasses: heads.map(() => UNCLASSIFIED),
    stationClasses: placement.stations.map(() => UNCLASSIFIED),
    troubles: [],
    surfaces: [],
    problems: [],
  }
}
