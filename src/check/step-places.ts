/** Steps where detectors meet, in the measure in which they are taken out. */
import type { Spectrum } from '../spectra/spectrum'
import { stepAtJoin } from './join-step'
import { isAtUsualJoin, stepPlaces } from './steps'

/** How a detector is brought level with the middle one: by a factor, or by a constant. */
export type StepCorrection = 'multiplicative' | 'additive'

/** A step at one place. */
export interface StepEstimate {
  /** nm */
  readonly position: number
  /**
   * What is to be added to the outer detector to bring it level, and its standard error: to ln
   * reflectance for a factor, to reflectance for a constant. The error is infinite where
   * reflectance is next to nothing there, or has gaps.
   */
  readonly lift: number
  readonly liftError: number
  /** Reflectance just below the join, which an added step is a part of; 1 for a factor. */
  readonly below: number
}

/** A step of fewer errors is none: elsewhere than at a usual join the largest of many was taken. */
const CERTAIN = 4
const CERTAIN_AT_JOIN = 2

/** How far a step is beyond what noise makes at such a place; from 1 on it is one. */
export function certaintyOf(step: {
  readonly position: number
  readonly size: number
  readonly error: number
}): number {
  return Math.abs(step.size) / step.error / (isAtUsualJoin(step) ? CERTAIN_AT_JOIN : CERTAIN)
}

/** What a scan says of a step at each place where it may be: a list a join, empty where it cannot tell. */
export function stepEstimates(
  spectrum: Spectrum,
  how: StepCorrection = 'multiplicative',
): StepEstimate[][] {
  return stepPlaces(spectrum).map((places, join) =>
    places.map((position) => stepEstimate(spectrum, position, join, how)),
  )
}

/** What a scan says of a step at one place of a join. */
export function stepEstimate(
  spectrum: Spectrum,
  position: number,
  join: number,
  how: StepCorrection,
): StepEstimate {
  const next = firstAbove(spectrum, position)
  const multiplies = how === 'multiplicative'
  const found = stepAtJoin(spectrum, next - 1, multiplies ? Math.log : (value) => value)
  const below = found === null ? 0 : multiplies ? 1 : found.level - found.step / 2
  // Where reflectance is next to nothing, or has gaps, there is no level to join.
  if (found === null || !(below > 0)) return { position, lift: 0, liftError: Infinity, below: 1 }
  const lift = join === 0 ? found.step : -found.step
  return { position, lift, liftError: found.error, below }
}

/** The first channel above a wavelength, nm. */
export function firstAbove({ wavelengths }: Spectrum, nm: number): number {
  return wavelengths.findIndex((channel) => channel > nm)
}
