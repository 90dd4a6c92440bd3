/** What a worker reads off scans: their check, their minerals, and the leaves of formulas. */
import { measureScan, type ScanMeasures } from '../check/measure-scan'
import type { SpectralLeaf } from '../indices/leaves'
import { measureLeaves } from '../indices/measure-leaves'
import type { Measured } from '../indices/rule'
import { identify } from '../minerals/identify'
import type { Identification } from '../minerals/reference'
import type { PreparedReferences } from './references'
import { estimateNoise } from '../spectra/noise'

/** Scans on one axis. */
export interface ExamineInput {
  /** nm, ascending. */
  readonly wavelengths: Float64Array
  /** `count` rows of as many values as wavelengths. */
  readonly values: Float32Array
  readonly count: number
  readonly check: boolean
  readonly identify: boolean
  readonly leaves: readonly SpectralLeaf[]
}

/** One entry a scan, in the rows' order; empty lists for what was not asked. */
export interface ExamineOutput {
  readonly measures: readonly ScanMeasures[]
  readonly identifications: readonly Identification[]
  /** A list a scan, in the leaves' order. */
  readonly leaves: readonly (readonly Measured[])[]
}

/** Examines scans one after another. */
export function examine(input: ExamineInput, prepared: PreparedReferences | null): ExamineOutput {
  const measures: ScanMeasures[] = []
  const identifications: Identification[] = []
  const leaves: Measured[][] = []
  const channels = input.wavelengths.length
  for (let row = 0; row < input.count; row++) {
    const reflectance = input.values.subarray(row * channels, (row + 1) * channels)
    const spectrum = { wavelengths: input.wavelengths, reflectance }
    const noise = estimateNoise(spectrum)
    if (input.check) measures.push(measureScan(spectrum))
    if (input.identify && prepared) {
      const { set, ranges } = prepared
      identifications.push(identify(spectrum, set, { noise, ranges }))
    }
    if (input.leaves.length > 0) leaves.push(measureLeaves(input.leaves, spectrum, noise))
  }
  return { measures, identifications, leaves }
}
