/** What a worker reads off scans for others of the same white reference: their detectors' steps. */
import { stepEstimates, type StepEstimate } from '../check/step-places'
import { sharedAxis } from './shared-axis'

/** Scans on one axis. */
export interface EstimateInput {
  /** nm, ascending. */
  readonly wavelengths: Float64Array
  /** `count` rows of as many values as wavelengths. */
  readonly values: Float32Array
  readonly count: number
}

/** A list a scan, in the rows' order: for each join what it says of each place. */
export type StepEstimates = readonly (readonly StepEstimate[])[]

/** Estimates the steps of scans one after another. */
export function estimateSteps(input: EstimateInput): StepEstimates[] {
  const { values, count } = input
  const wavelengths = sharedAxis(input.wavelengths)
  const channels = wavelengths.length
  return Array.from({ length: count }, (_, row) =>
    stepEstimates({
      wavelengths,
      reflectance: values.subarray(row * channels, (row + 1) * channels),
    }),
  )
}
