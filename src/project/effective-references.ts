/** Which references a project identifies against. */
import type { References } from '../jobs/references'
import type { ReferenceSet } from '../minerals/reference'
import type { ReferenceChoice } from './recipe'

/** The references that came with the program or the command line, joined by the project's own. */
export function effectiveReferences(
  given: References,
  sets: readonly ReferenceSet[],
  builtIn: boolean,
  choice: ReferenceChoice | undefined,
): References {
  if (sets.length === 0 && builtIn && !choice) return given
  return {
    sets: [...(builtIn ? given.sets : []), ...sets],
    measured: builtIn ? given.measured : [],
    off: choice?.off ?? [],
    ranges: choice?.ranges ?? {},
  }
}
