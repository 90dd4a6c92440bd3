/** A correction of detector steps that can be switched on. */
import { measureFeature } from '../spectra/feature'
import type { Spectrum } from '../spectra/spectrum'
import { joined, type SharedAtJoins, type SharedStep } from './shared-steps'
import {
  certaintyOf,
  firstAbove,
  stepEstimate,
  stepEstimates,
  type StepCorrection,
  type StepEstimate,
} from './step-places'

/** A step as it was measured for the correction. */
export interface MeasuredStep {
  /** nm */
  readonly position: number
  /** Reflectance just above over just below, less 1, before the correction. */
  readonly size: number
  /** One standard error of `size`. */
  readonly error: number
  /** How many other rocks of the same white reference told it too; absent for none. */
  readonly rocks?: number
}

/** A join that was closed; kept with the project so that the correction can be told and undone. */
export interface CorrectedStep extends MeasuredStep {
  /** The factor on, or the constant added to, the outer detector's reflectance. */
  readonly change: number
  /**
   * How far the band near 900 nm moves within the step's 95 %, nm; infinite where it is lost within
   * them, null where there is no such band or the step does not touch it.
   */
  readonly bandMoves: number | null
}

/** A join that was left as it is, because the step cannot be told from the rock and its noise. */
export interface UntoldStep extends MeasuredStep {
  /** What one standard error makes at the brightest of the outer detector, reflectance. */
  readonly spread: number
}

export interface CorrectedSpectrum {
  readonly spectrum: Spectrum
  readonly steps: readonly CorrectedStep[]
  readonly untold: readonly UntoldStep[]
}

/** Relative size from which a change is no detector's step. */
const LARGEST = 1
/** A step of this size would be doubted (`detectorStep`): less certain ones may not pass for none. */
const MATTERS = 0.015
/** What a correction is to reach: one standard error must lie within it, reflectance. */
export const CORRECTED_TO = 0.002
/** The noisy ends of a record are not what the error is judged by, nm. */
const JUDGED = [400, 2450] as const

/** How steps are taken out. */
export interface CorrectionOptions {
  /** By a factor unless told. */
  readonly how?: StepCorrection
  /** Relative size from which a step is corrected; 0.002 unless told. */
  readonly least?: number
  /** What scans of other rocks say of the steps; used for a factor alone. */
  readonly shared?: SharedAtJoins
}

/**
 * The spectrum with its outer detectors brought level with the middle one, which is left as it
 * is (common practice). A step that is smaller than twice its error, or than `least`, is left
 * alone. One whose standard error leaves the outer detector unsure by over 0.2 % reflectance
 * is not corrected either, and told among `untold`; so is one that may be as large as those
 * which are doubted and is not certain.
 */
export function correctSteps(
  spectrum: Spectrum,
  { how = 'multiplicative', least = 0.002, shared = [] }: CorrectionOptions = {},
): CorrectedSpectrum {
  let corrected: Spectrum = {
    wavelengths: spectrum.wavelengths,
    reflectance: Float64Array.from(spectrum.reflectance),
  }
  const steps: CorrectedStep[] = []
  const untold: UntoldStep[] = []
  stepEstimates(spectrum, how).forEach((estimates, join) => {
    const step = stepOf(spectrum, estimates, join, how, shared[join] ?? [])
    if (step === null) return
    const { position, size, error, spread, rocks } = step
    const told = { position, size, error, ...(rocks === undefined ? {} : { rocks }) }
    const isStep = certaintyOf(step) >= 1
    const mayMatter = !isStep && Math.abs(size) + 2 * error > MATTERS
    if (!(spread <= CORRECTED_TO) || mayMatter) {
      untold.push({ ...told, spread })
    } else if (isStep && Math.abs(size) >= least && Math.abs(size) < LARGEST) {
      const bandMoves = join === 0 ? bandMovesBy(corrected, step, how) : null
      corrected = leveled(corrected, step, how, 0)
      steps.push({ ...told, change: changeOf(step, how, 0), bandMoves })
    }
  })
  return { spectrum: corrected, steps, untold }
}

/** A step with what it takes to take it out. */
interface Step extends UntoldStep {
  /** Channels of the outer detector. */
  readonly from: number
  readonly to: number
  /** What brings the outer detector level, and its standard error. */
  readonly lift: number
  readonly liftError: number
}

/** The step at a join: where it is most certain, by the scan alone or together with others. */
function stepOf(
  spectrum: Spectrum,
  estimates: readonly StepEstimate[],
  join: number,
  how: StepCorrection,
  shared: readonly SharedStep[],
): Step | null {
  if (estimates.length === 0) return null
  const others = how === 'multiplicative' ? shared : []
  const alone = estimates.filter(({ position }) => !others.some((at) => at.position === position))
  return [
    ...alone.map((estimate) => asStep(spectrum, estimate, join, how)),
    ...others.map((other) => {
      const own = estimates.find(({ position }) => position === other.position)
      const told = joined(own ?? stepEstimate(spectrum, other.position, join, how), other)
      return { ...asStep(spectrum, told, join, how), rocks: other.rocks }
    }),
  ].reduce((best, step) => (certaintyOf(step) > certaintyOf(best) ? step : best))
}

function asStep(
  spectrum: Spectrum,
  { position, lift, liftError, below }: StepEstimate,
  join: number,
  how: StepCorrection,
): Step {
  const next = firstAbove(spectrum, position)
  const [from, to] = join === 0 ? [0, next] : [next, spectrum.reflectance.length]
  const multiplies = how === 'multiplicative'
  const step = join === 0 ? lift : -lift
  return {
    position,
    size: multiplies ? Math.expm1(step) : step / below,
    error: liftError / below,
    spread: liftError * (multiplies ? brightest(spectrum, from, to) : 1),
    from,
    to,
    lift,
    liftError,
  }
}

function brightest({ wavelengths, reflectance }: Spectrum, from: number, to: number): number {
  let most = 0
  for (let i = from; i < to; i++) {
    const isJudged = wavelengths[i] >= JUDGED[0] && wavelengths[i] <= JUDGED[1]
    if (isJudged && reflectance[i] > most) most = reflectance[i]
  }
  return most
}

/** The factor or constant that levels the outer detector, some errors off. */
function changeOf({ lift, liftError }: Step, how: StepCorrection, errors: number): number {
  const by = lift + errors * liftError
  return how === 'multiplicative' ? Math.exp(by) : by
}

function leveled(spectrum: Spectrum, step: Step, how: StepCorrection, errors: number): Spectrum {
  const change = changeOf(step, how, errors)
  const reflectance = Float64Array.from(spectrum.reflectance)
  for (let i = step.from; i < step.to; i++) {
    reflectance[i] = how === 'multiplicative' ? reflectance[i] * change : reflectance[i] + change
  }
  return { wavelengths: spectrum.wavelengths, reflectance }
}

/**
 * Where the band near 900 nm is sought and its shoulders, nm: as the ferric index reads it, and
 * with shoulders beyond those of broad bands. The depth that makes it one.
 */
const BAND_READINGS = [
  { search: [820, 980], hull: [760, 1050] },
  { search: [760, 1050], hull: [700, 1300] },
] as const
const BAND_DEPTH = 0.03
/** Errors either way that hold 95 % of the steps put on field records: the errors are a little wide. */
const MOST_STEPS = 1.6

/** The further of the readings' moves. */
function bandMovesBy(spectrum: Spectrum, step: Step, how: StepCorrection): number | null {
  const leveledBy = [-MOST_STEPS, 0, MOST_STEPS].map((errors) =>
    leveled(spectrum, step, how, errors),
  )
  const moves = BAND_READINGS.flatMap(({ search, hull }) => {
    const [low, middle, high] = leveledBy.map((each) => measureFeature(each, search, hull))
    if ('missing' in middle || middle.depth < BAND_DEPTH) return []
    return [low, high].map((feature) =>
      'missing' in feature ? Infinity : Math.abs(feature.position - middle.position),
    )
  })
  return moves.length === 0 ? null : Math.max(...moves)
}
