/** What a worker reads off scans of a wavelength standard and of a check rock. */
import { compareWithHistory, type RockComparison } from '../check/check-rock'
import { measureShift, measureShiftOfPositions, type WavelengthShift } from '../check/standard'
import type { WavelengthRange } from '../spectra/feature'
import type { Spectrum } from '../spectra/spectrum'

/** How a standard is known: by the positions of its absorptions, or by a record of it. */
export type KnownStandard =
  | { readonly positions: readonly number[] }
  | { readonly record: Spectrum; readonly bands: readonly WavelengthRange[] }

export interface StandardsInput {
  readonly standard: KnownStandard | null
  /** Scans of the standard. */
  readonly scans: readonly Spectrum[]
  /** Scans of the check rock with the day they were taken on; null where no time is known. */
  readonly rocks: readonly { readonly spectrum: Spectrum; readonly day: number | null }[]
}

/** An entry a scan, in order. */
export interface StandardsOutput {
  readonly shifts: readonly (WavelengthShift | null)[]
  readonly rocks: readonly (RockComparison | null)[]
}

/** A check rock is compared with at most so many of its latest scans of earlier days. */
const HISTORY = 20

/** Measures standards. */
export function measureStandards({ standard, scans, rocks }: StandardsInput): StandardsOutput {
  return {
    shifts: scans.map((scan) => (standard === null ? null : shiftOf(scan, standard))),
    rocks: rocks.map(({ spectrum, day }) => {
      const earlier = rocks
        .filter((other) => day !== null && other.day !== null && other.day < day)
        .sort((a, b) => (a.day ?? 0) - (b.day ?? 0))
        .slice(-HISTORY)
      return compareWithHistory(
        spectrum,
        earlier.map((other) => other.spectrum),
      )
    }),
  }
}

function shiftOf(scan: Spectrum, standard: KnownStandard): WavelengthShift | null {
  return 'positions' in standard
    ? measureShiftOfPositions(scan, standard.positions)
    : measureShift(scan, { name: '', record: standard.record, bands: standard.bands })
}
