/** Reasons that one scan's own measures give. Each says what to do. */
import {
  CORRECTED_TO,
  type CorrectedStep,
  type MeasuredStep,
  type UntoldStep,
} from './correct-steps'
import { doubtful, percent, remark, type Finding } from './finding'
import { foreignFindings } from './foreign-findings'
import { levelFindings } from './level-findings'
import type { CheckLimits } from './limits'
import type { ScanMeasures, WindowNoise } from './measure-scan'
import { isAtUsualJoin, type DetectorStep } from './steps'

/** The reason of a step where detectors meet, which a person may have corrected. */
export const DETECTOR_STEP = 'detector step'

/** The reason of a join that the correction left as it is: a remark, and no doubt by itself. */
export const UNTOLD_STEP = 'step not corrected'

/** All that a scan's measures say against it. */
export function findingsOf(measures: ScanMeasures, limits: CheckLimits): Finding[] {
  const levels = levelFindings(measures.levels, limits)
  // Nothing else is worth saying of a scan that is not of a rock, or of nothing.
  if (levels.some(({ makes }) => makes === 'set aside')) return levels
  return [
    ...noiseFindings(measures.noise, limits),
    ...(measures.corrected ?? []).map((step) => correctedFinding(step, limits)),
    ...(measures.untold ?? []).map(untoldFinding),
    ...measures.steps.flatMap((step) =>
      stepFinding(step, limits, measures.corrected !== undefined),
    ),
    ...levels,
    ...waterFinding(measures, limits),
    ...foreignFindings(measures, limits),
  ]
}

function noiseFindings(windows: readonly WindowNoise[], limits: CheckLimits): Finding[] {
  let worst: { at: number; ratio: number } | null = null
  for (const { at, noise, level } of windows) {
    if (noise === null || level === null) continue
    const ratio = Math.max(0, level) / noise
    if (worst === null || ratio < worst.ratio) worst = { at, ratio }
  }
  if (worst === null || !(worst.ratio < limits.signalToNoise)) return []
  const unusable = worst.ratio < limits.unusableSignalToNoise
  const words = `Signal-to-noise is ${worst.ratio.toFixed(0)} near ${worst.at} nm: ${
    unusable ? 'no feature can be measured' : 'weak features are lost in it'
  }; scan again and average longer.`
  const limit = unusable ? limits.unusableSignalToNoise : limits.signalToNoise
  const reason = { reason: 'noise', measure: worst.ratio, limit, unit: '', words }
  return [{ reason, makes: unusable ? 'set aside' : 'doubtful' }]
}

/** Steps must also be this many of their errors: less where detectors usually meet. */
const CERTAIN = 4
const CERTAIN_AT_JOIN = 3

function stepFinding(
  step: DetectorStep | null,
  limits: CheckLimits,
  isCorrected: boolean,
): Finding[] {
  if (step === null) return []
  const size = Math.abs(step.size)
  const certain = (isAtUsualJoin(step) ? CERTAIN_AT_JOIN : CERTAIN) * step.error
  if (size < limits.detectorStep || size < certain) return []
  const words = `Reflectance jumps by ${percent(step.size)} at ${step.position.toFixed(0)} nm, where one detector ends: ${
    isCorrected
      ? 'the correction leaves it; warm up longer, take a new white reference and scan again.'
      : 'warm up longer and take a new white reference, or switch the step correction on.'
  }`
  return [
    doubtful({
      reason: DETECTOR_STEP,
      measure: step.size,
      limit: limits.detectorStep,
      unit: '',
      words,
    }),
  ]
}

/** A band that a step's error moves further than this is told beside the correction, nm. */
const BAND_SETTLED = 3

/** A step that was taken out at a person's wish: told, and no doubt any more. */
function correctedFinding(step: CorrectedStep, limits: CheckLimits): Finding {
  const { position, size, error, bandMoves } = step
  const band =
    bandMoves === null || bandMoves <= BAND_SETTLED
      ? ''
      : ` The band near 900 nm ${
          Number.isFinite(bandMoves) ? `moves by ${bandMoves.toFixed(0)} nm` : 'is lost'
        } within the step’s 95 % (1.6 times that error): do not read its position.`
  const words = `Reflectance jumped by ${percent(size)} (± ${percent(error)}${withOthers(step.rocks)}) at ${position.toFixed(0)} nm, where one detector ends: corrected by bringing that detector level with the middle one.${band}`
  const reason = {
    reason: DETECTOR_STEP,
    measure: size,
    limit: limits.detectorStep,
    unit: '',
    words,
  }
  return remark(reason)
}

/** Who else told a step, in words that follow its error; nothing where the scan was alone. */
export function withOthers(rocks: MeasuredStep['rocks']): string {
  return rocks === undefined ? '' : `, told together with ${rocks} other spots`
}

/** A step that was to be taken out and cannot be told well enough. */
function untoldFinding({ position, size, error, spread }: UntoldStep): Finding {
  const how = Number.isFinite(spread)
    ? `${percent(size)} ± ${percent(error)}, which leaves reflectance unsure by ${percent(spread)} (${percent(CORRECTED_TO)} is asked)`
    : 'reflectance has gaps there or is next to nothing'
  const words = `The step at ${position.toFixed(0)} nm cannot be told from the rock and its noise (${how}): it is not corrected; average longer and scan again.`
  const measure = Number.isFinite(spread) ? spread : 1
  const reason = {
    reason: UNTOLD_STEP,
    measure,
    limit: CORRECTED_TO,
    unit: 'reflectance',
    words,
  }
  return remark(reason)
}

function waterFinding({ water }: ScanMeasures, limits: CheckLimits): Finding[] {
  if (water < limits.freeWater) return []
  const words = `Free water takes away ${percent(1 - Math.exp(-water))} of the light at 1940 nm: dry the sample and scan again; depths and the 1400 and 1900 nm features are not the rock's.`
  return [
    doubtful({
      reason: 'wet sample',
      measure: water,
      limit: limits.freeWater,
      unit: 'absorbance',
      words,
    }),
  ]
}
