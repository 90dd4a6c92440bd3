/** What people decided about how scans are to be examined. */
import type { Active } from './active-scans'
import type { Decisions } from './decisions'
import type { Examiner } from './examining'
import { scanRanges } from './scan-ranges'
import type { StepsShared } from './step-sharing'

/** Has scans examined as decided: with steps corrected, and minerals compared in their own ranges. */
export function followDecisions(
  examiner: Examiner,
  active: Active,
  decisions: Decisions,
  stepsShared: StepsShared,
): void {
  examiner.correct(stepsShared)
  examiner.compareIn(scanRanges(active, decisions))
}
