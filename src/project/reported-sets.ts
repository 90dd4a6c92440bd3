/** Reference sets as they leave with the layers: named, told apart by their bytes, and the own ones whole. */
import type { References } from '../jobs/references'
import { sha256 } from '../layers/sha256'
import type { ReportedSet } from '../layers/report'
import type { ReferenceSet } from '../minerals/reference'
import { writeReferenceSet } from '../minerals/set-file'

/** A set never changes: an edited one is another. */
const known = new WeakMap<ReferenceSet, ReportedSet>()

/** What the report says of each set. */
export function reportedSets({ sets }: References): ReportedSet[] {
  return sets.map((set) => {
    const found = known.get(set) ?? reportedSet(set)
    known.set(set, found)
    return found
  })
}

function reportedSet(set: ReferenceSet): ReportedSet {
  return {
    set: set.name,
    source: set.source,
    references: set.references.length,
    sha256: sha256(new TextEncoder().encode(writeReferenceSet(set))),
  }
}

/** The project's own sets as files. */
export function setFiles(sets: readonly ReferenceSet[]): { name: string; text: () => string }[] {
  return sets.map((set) => ({ name: set.name, text: () => writeReferenceSet(set) }))
}
