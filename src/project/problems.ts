/** All that is wrong with what a project was given. */
import type { KnownMineral } from '../jobs/references'
import type { Placement } from '../places/place-scans'
import type { Problem } from '../readers/input'
import type { Active } from './active-scans'
import { checkProblems } from './day-checks'
import { decisionProblems } from './decision-problems'
import type { Holdings, Project } from './project'

/** Problems of the files that are shown, of places, of the check's settings and of decisions. */
export function problemsOf(
  project: Project,
  holdings: Holdings,
  active: Active,
  placement: Placement,
  known: readonly KnownMineral[],
): Problem[] {
  const hidden = new Set(project.hidden)
  const minerals = known.map(({ mineral }) => mineral)
  return [
    ...holdings.files.filter(({ path }) => !hidden.has(path)).flatMap(({ problems }) => problems),
    ...active.cutShort,
    ...placement.problems,
    ...checkProblems(project.recipe.check, active.heads),
    ...decisionProblems(project.decisions, active.heads, project.hidden, placement, minerals),
  ]
}
