/** Fits band tables to measured spectra, so that they can serve as references. */
import { findMineral } from '../minerals/catalogue'
import { fitReference } from '../minerals/fit-reference'
import { anyOfGroup, nameReference, type ReferenceName } from '../minerals/name-reference'
import type { NamedSpectrum } from '../minerals/prepare'
import type { Provenance, Reference } from '../minerals/reference'

/** What a person says of a spectrum that is to be a reference. */
export interface ReferenceNotes extends ReferenceName {
  readonly provenance: Provenance
}

export interface FitInput {
  readonly spectra: readonly {
    readonly spectrum: NamedSpectrum
    /** Absent where the record's own name says what it is. */
    readonly notes?: ReferenceNotes
  }[]
}

/**
 * A reference for each spectrum, in order; a spectrum too short to be fitted gives none.
 */
export function fitScans({ spectra }: FitInput): Reference[] {
  return spectra.flatMap(({ spectrum, notes }): Reference[] => {
    // The fit looks closest where the record's first word says, so a known mineral lends its name.
    const entry = notes ? (findMineral(notes.mineral) ?? anyOfGroup(notes.group)) : null
    const named = entry ? { ...spectrum, name: entry.mineral.replaceAll(' ', '') } : spectrum
    let fitted: Reference
    try {
      fitted = fitReference(named, notes?.variety ?? null)
    } catch {
      return []
    }
    if (!notes) return [fitted]
    const { provenance } = notes
    return [{ ...nameReference({ ...fitted, record: spectrum.name }, notes), provenance }]
  })
}
