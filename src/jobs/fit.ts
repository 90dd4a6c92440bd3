/** Fits band tables to measured spectra, so that they can serve as references. */
import { findMineral } from '../minerals/catalogue'
import { fitReference } from '../minerals/fit-reference'
import type { NamedSpectrum } from '../minerals/prepare'
import type { Reference } from '../minerals/reference'

/** What a person says of a spectrum that is to be a reference. */
export interface ReferenceNotes {
  readonly mineral: string
  /** Of a mineral that the catalogue does not know; else the catalogue's. */
  readonly group: string
  readonly variety: string | null
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
    const entry = notes ? findMineral(notes.mineral) : null
    // The catalogue's facts go by the record's first word, so a known mineral lends its name.
    const named = entry ? { ...spectrum, name: entry.mineral.replaceAll(' ', '') } : spectrum
    let fitted: Reference
    try {
      fitted = fitReference(named, notes?.variety ?? null)
    } catch {
      return []
    }
    if (!notes) return [fitted]
    const known = entry ? { mineral: entry.mineral, group: entry.group } : notes
    return [{ ...fitted, mineral: known.mineral, group: known.group, record: spectrum.name }]
  })
}
