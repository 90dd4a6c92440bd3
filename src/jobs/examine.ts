/** What a worker reads off scans: their check, their minerals, and the leaves of formulas. */
import { correctSteps } from '../check/correct-steps'
import { measureCorrected, measureScan, noiseOf, type ScanMeasures } from '../check/measure-scan'
import type { SharedAtJoins } from '../check/shared-steps'
import type { SpectralLeaf } from '../indices/leaves'
import { measureLeaves } from '../indices/measure-leaves'
import type { Measured } from '../indices/rule'
import { identify } from '../minerals/identify'
import type { UserRanges } from '../minerals/match'
import type { Identification } from '../minerals/reference'
import { emptyColumn, setMeasured, type MeasuredColumn } from './measured-column'
import { packRecords, type PackedRecords } from './packed-records'
import type { PreparedReferences } from './references'
import { sharedAxis } from './shared-axis'
import { estimateNoise } from '../spectra/noise'
import type { Spectrum } from '../spectra/spectrum'

/** Scans on one axis. */
export interface ExamineInput {
  /** nm, ascending. */
  readonly wavelengths: Float64Array
  /** `count` rows of as many values as wavelengths; what stands beyond is not looked at. */
  readonly values: Float32Array<ArrayBuffer>
  readonly count: number
  /** Rows whose detector steps are corrected before anything is read off them; none if absent. */
  readonly corrected?: readonly number[]
  /** What scans of other rocks say of the steps of such rows: a list a join. */
  readonly shared?: ReadonlyMap<number, SharedAtJoins>
  /** Ranges in which minerals are compared with single rows, over those of the references. */
  readonly ranges?: ReadonlyMap<number, UserRanges>
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

/** The same as it goes back: a few arrays, whatever the number of scans. */
export interface PackedExamination {
  readonly measures: PackedRecords<ScanMeasures>
  readonly identifications: PackedRecords<Identification>
  /** All leaves of the first scan, then those of the next. */
  readonly leaves: MeasuredColumn
  /** The input's values, to be filled again. */
  readonly values: Float32Array<ArrayBuffer>
}

/** Examines scans, packs what was found and gives the values back. */
export function examinePacked(
  input: ExamineInput,
  prepared: PreparedReferences | null,
): PackedExamination {
  const { measures, identifications, leaves } = examine(input, prepared)
  const measured = leaves.flat()
  const column = emptyColumn(measured.length)
  measured.forEach((leaf, row) => setMeasured(column, row, leaf))
  return {
    measures: packRecords(measures),
    identifications: packRecords(identifications),
    leaves: column,
    values: input.values,
  }
}

/** Examines scans one after another. */
export function examine(input: ExamineInput, prepared: PreparedReferences | null): ExamineOutput {
  const measures: ScanMeasures[] = []
  const identifications: Identification[] = []
  const leaves: Measured[][] = []
  const corrected = new Set(input.corrected)
  const wavelengths = sharedAxis(input.wavelengths)
  const channels = wavelengths.length
  for (let row = 0; row < input.count; row++) {
    const reflectance = input.values.subarray(row * channels, (row + 1) * channels)
    const original = { wavelengths, reflectance }
    const { spectrum, measured } = corrected.has(row)
      ? correctedScan(original, input.check, input.shared?.get(row))
      : { spectrum: original, measured: input.check ? measureScan(original) : null }
    if (measured) measures.push(measured)
    const noise = measured ? noiseOf(measured) : estimateNoise(spectrum)
    if (input.identify && prepared) {
      const { set } = prepared
      const own = input.ranges?.get(row)
      const ranges = own ? new Map([...prepared.ranges, ...own]) : prepared.ranges
      identifications.push(identify(spectrum, set, { noise, ranges }))
    }
    if (input.leaves.length > 0) leaves.push(measureLeaves(input.leaves, spectrum, noise))
  }
  return { measures, identifications, leaves }
}

/** The spectrum that everything is read off, and its measures where they are asked for. */
function correctedScan(
  spectrum: Spectrum,
  check: boolean,
  shared: SharedAtJoins = [],
): { readonly spectrum: Spectrum; readonly measured: ScanMeasures | null } {
  if (!check) return { spectrum: correctSteps(spectrum, { shared }).spectrum, measured: null }
  const { spectrum: level, measures } = measureCorrected(spectrum, shared)
  return { spectrum: level, measured: measures }
}
