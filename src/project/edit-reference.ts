/** What is said of references of the user's own, changed. */
import { nameReference, type ReferenceName } from '../minerals/name-reference'
import type { Provenance, Reference, ReferenceSet, Said } from '../minerals/reference'

/** What a person can say anew of a reference. */
export interface ReferenceEdit extends ReferenceName, Pick<Provenance, 'site' | 'note'> {
  readonly said: Said
}

/**
 * The sets with one reference changed, and with who changed it, when and why kept.
 *
 * @param record the reference's record, in the set of that name
 */
export function withEdited(
  sets: readonly ReferenceSet[],
  set: string,
  record: string,
  edit: ReferenceEdit,
): ReferenceSet[] {
  return sets.map((each) => {
    if (each.name !== set) return each
    const references = each.references.map((reference) =>
      reference.record === record ? edited(reference, edit) : reference,
    )
    return { ...each, references }
  })
}

function edited(reference: Reference, edit: ReferenceEdit): Reference {
  const { site, note, said } = edit
  const before = reference.provenance?.said ?? []
  const provenance = { site: site.trim(), note: note.trim(), said: [...before, said] }
  const sameName = edit.mineral === reference.mineral && edit.group === reference.group
  // A set file may state its own ranges: they stay unless the mineral changes.
  const named = sameName ? { ...reference, variety: edit.variety } : nameReference(reference, edit)
  return { ...named, provenance }
}
