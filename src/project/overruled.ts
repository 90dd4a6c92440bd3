/** What the program found in scans, and where a person decided otherwise. */
import type { DayStandards } from '../check/day-standards'
import { judgePiecewise } from '../check/judge'
import { DEFAULT_LIMITS } from '../check/limits'
import type { Verdict } from '../check/verdict'
import { knownMinerals, type References } from '../jobs/references'
import type { Identification } from '../minerals/reference'
import type { Piecework } from '../spectra/piecework'
import type { Active } from './active-scans'
import { decisionsByScan, latestDecisions, scanKey } from './decisions'
import type { Examiner } from './examining'
import { settled } from './overrule-mineral'
import type { Project } from './project'

/** A verdict for each active scan, all of which have been examined. */
export function* verdictsOf(
  examiner: Examiner,
  active: Active,
  project: Project,
  standards: DayStandards,
): Piecework<readonly Verdict[]> {
  const judged = yield* judgePiecewise(
    active.heads.map(({ name, known }, scan) => ({
      name,
      known,
      // Unpacked when they are looked at: all at once they take more room than anything else.
      get measures() {
        return examiner.measures(active.numbers[scan])
      },
    })),
    { ...DEFAULT_LIMITS, ...project.recipe.check?.limits },
    standards,
  )
  const decided = latestDecisions(project.decisions, 'verdict')
  return judged.map((verdict, scan) => {
    const { file, name } = active.heads[scan]
    const decision = decided.get(scanKey(file, name))
    return decision ? { ...verdict, check: decision.check } : verdict
  })
}

/** What was found in each active scan; null in those that are set aside. */
export function identificationsOf(
  examiner: Examiner,
  active: Active,
  verdicts: readonly Verdict[],
  project: Project,
  references: References,
): (Identification | null)[] {
  const decided = decisionsByScan(project.decisions, ['mineral', 'accepted'])
  const minerals = knownMinerals(references)
  return active.heads.map(({ file, name }, scan) => {
    if (verdicts[scan].check === 'set aside') return null
    const found = examiner.identification(active.numbers[scan]) ?? null
    return settled(found, decided.get(scanKey(file, name)) ?? [], minerals)
  })
}
