/** Known spectra to identify against, as readable tables of absorption bands on a continuum. */

/** One absorption band: a Gaussian in wavelength that multiplies the continuum by exp(-strength·g). */
export interface Band {
  /** Centre, nm. */
  readonly position: number
  /** Full width at half depth, nm. */
  readonly width: number
  /** Natural-logarithmic strength at the centre. */
  readonly strength: number
}

/** One word of a person on a reference, as a decision has it. */
export interface Said {
  readonly who: string
  /** ISO 8601. */
  readonly when: string
  readonly why: string
}

/** Where a reference of the user's own comes from. */
export interface Provenance {
  /** Where the sample was taken; empty where it is not said. */
  readonly site: string
  readonly note: string
  /** Who made it a reference or changed what is said of it, when and why; the oldest first. */
  readonly said: readonly Said[]
}

/** A known spectrum. */
export interface Reference {
  /** The mineral, and the variety where the set tells more than one apart. */
  readonly mineral: string
  readonly variety: string | null
  /** IMA–CNMNC symbol (Warr 2021), or null where none is given. */
  readonly symbol: string | null
  /** The group that shares and classes speak of, such as `white mica`. */
  readonly group: string
  /** Knots of the natural-logarithmic continuum: [nm, ln reflectance]. */
  readonly continuum: readonly (readonly [nm: number, logReflectance: number])[]
  readonly bands: readonly Band[]
  /** The record it was fitted to, and the fit's root-mean-square error in reflectance. */
  readonly record: string
  readonly fitError: number
  /** Valid range of the model, nm. */
  readonly range: readonly [from: number, to: number]
  /** Where its diagnostic absorptions lie, nm (hull from, hull to). */
  readonly diagnostic: readonly (readonly [from: number, to: number])[]
  readonly confusedWith: readonly string[]
  readonly setting: string
  /** Whether the name suggests a habit that can be fibrous: brings the usual caution. */
  readonly fibrous: boolean
  /**
   * Whether it has no absorption of its own here: a scan that it explains best is told as
   * `nothing diagnostic`. False where absent.
   */
  readonly silent?: boolean
  /** Absent for a reference that nobody has said anything of. */
  readonly provenance?: Provenance
}

export interface ReferenceSet {
  readonly name: string
  readonly source: string
  readonly references: readonly Reference[]
}

/** One mineral's part in a scan. */
export interface MineralShare {
  readonly mineral: string
  readonly group: string
  /** The part of the scan's absorption that it explains, 0 to 1; not a weight fraction. */
  readonly share: number
  /** How well its diagnostic features match, 0 to 1. */
  readonly fit: number
  /** The record of the reference that stands for it. */
  readonly record?: string
}

/** What a scan was taken for. No minerals means `nothing diagnostic`. */
export interface Identification {
  /** One to four, the largest share first; empty for `nothing diagnostic`. */
  readonly minerals: readonly MineralShare[]
  /** The best explanation that was not taken, or null. */
  readonly runnerUp: MineralShare | null
  /** The other group that the doubt speaks of, where that is not the runner-up's. */
  readonly rival?: MineralShare
  /** A spoken doubt in plain words; empty where there is none. */
  readonly doubt: string
}

/** The word for a scan in which nothing can be told. */
export const NOTHING_DIAGNOSTIC = 'nothing diagnostic'
