/** A correction of detector steps that can be switched on. */
import { measureSteps } from './steps'
import type { Spectrum } from '../spectra/spectrum'

/** How a detector is brought level with the middle one: by a factor, or by a constant. */
export type StepCorrection = 'multiplicative' | 'additive'

/** A join that was closed; kept with the project so that the correction can be told and undone. */
export interface CorrectedStep {
  /** nm */
  readonly position: number
  /** Reflectance just above over just below, less 1, before the correction. */
  readonly size: number
  /** The factor on, or the constant added to, the outer detector's reflectance. */
  readonly change: number
}

/** Relative size from which a change is no detector's step. */
const LARGEST = 1

export interface CorrectedSpectrum {
  readonly spectrum: Spectrum
  readonly steps: readonly CorrectedStep[]
}

/**
 * The spectrum with its outer detectors brought level with the middle one, which is left as it
 * is (common practice). Steps within twice their error, or smaller than `least`, are left alone.
 *
 * @param least relative size from which a step is corrected
 */
export function correctSteps(
  spectrum: Spectrum,
  how: StepCorrection = 'multiplicative',
  least = 0.002,
): CorrectedSpectrum {
  const reflectance = Float64Array.from(spectrum.reflectance)
  const steps: CorrectedStep[] = []
  measureSteps(spectrum).forEach((step, join) => {
    if (step === null || Math.abs(step.size) < Math.max(least, 2 * step.error)) return
    const next = spectrum.wavelengths.findIndex((nm) => nm > step.position)
    // `size` is relative to the mean of the two channels about the join.
    const level = (reflectance[next - 1] + reflectance[next]) / 2
    // Where reflectance is next to nothing, or would double, there is no level to join.
    if (!(level > 0) || Math.abs(step.size) >= LARGEST) return
    const below = level * (1 - step.size / 2)
    const above = level * (1 + step.size / 2)
    const [from, to] = join === 0 ? [0, next] : [next, reflectance.length]
    const [outer, middle] = join === 0 ? [below, above] : [above, below]
    const change = how === 'multiplicative' ? middle / outer : middle - outer
    for (let i = from; i < to; i++) {
      reflectance[i] = how === 'multiplicative' ? reflectance[i] * change : reflectance[i] + change
    }
    steps.push({ position: step.position, size: above / below - 1, change })
  })
  return { spectrum: { wavelengths: spectrum.wavelengths, reflectance }, steps }
}
