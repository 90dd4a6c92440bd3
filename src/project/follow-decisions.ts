/** What people decided about how scans are to be examined. */
import type { Active } from './active-scans'
import type { Decisions } from './decisions'
import type { Examiner } from './examining'
import { scanRanges } from './scan-ranges'
import { correctedScans } from './spectrum-shown'

/** Has scans examined as decided: with steps corrected, and minerals compared in their own ranges. */
export function followDecisions(examiner: Examiner, active: Active, decisions: Decisions): void {
  examiner.correct(correctedScans(active, decisions))
  examiner.compareIn(scanRanges(active, decisions))
}
