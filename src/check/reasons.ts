/** Reasons that one scan's own measures give. Each says what to do. */
import { CORRECTED_TO, type CorrectedStep, type UntoldStep } from './correct-steps'
import { LAMP_LINES } from './lamp-lines'
import type { CheckLimits } from './limits'
import type { ScanMeasures, WindowNoise } from './measure-scan'
import { isAtUsualJoin, type DetectorStep } from './steps'
import type { Check, Reason } from './verdict'

/** The reason of a scan of the panel: the day's drift is read off such scans. */
export const WHITE_PANEL = 'white panel'

/** The reason of a step where detectors meet, which a person may have corrected. */
export const DETECTOR_STEP = 'detector step'

/** The reason of a join that the correction left as it is: a remark, and no doubt by itself. */
export const UNTOLD_STEP = 'step not corrected'

/** A reason, and what it makes of the scan: `sound` is a remark that counts against nothing. */
export interface Finding {
  readonly reason: Reason
  readonly makes: Check
}

/** All that a scan's measures say against it. */
export function findingsOf(measures: ScanMeasures, limits: CheckLimits): Finding[] {
  const levels = levelFindings(measures, limits)
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

function doubt(reason: Reason): Finding {
  return { reason, makes: 'doubtful' }
}

function levelFindings({ levels }: ScanMeasures, limits: CheckLimits): Finding[] {
  if (levels === null) {
    return [
      setAside(
        'no values',
        0,
        10,
        'channels',
        'The scan has no values between 420 and 2400 nm: look at its file.',
      ),
    ]
  }
  if (levels.high < limits.noSignal) {
    const words = `The detectors saw nothing (reflectance below ${percent(levels.high)}): scan again with the lamp on.`
    return [setAside('no signal', levels.high, limits.noSignal, 'reflectance', words)]
  }
  const isLevel = Math.abs(levels.median - 1) <= limits.panelLevel
  if (isLevel && levels.unevenness <= limits.panelUnevenness) {
    const words = `Even within ${percent(levels.unevenness)} about ${levels.median.toFixed(3)}: this is the white panel, not a rock.`
    return [setAside(WHITE_PANEL, levels.unevenness, limits.panelUnevenness, '', words)]
  }
  const findings: Finding[] = []
  if (levels.high > limits.overOne) {
    const words = `Reflectance reaches ${levels.high.toFixed(2)}, more than the panel gives back: the white reference or the distance was wrong; take a new one and scan again.`
    findings.push(
      doubt({
        reason: 'reflectance over 1',
        measure: levels.high,
        limit: limits.overOne,
        unit: 'reflectance',
        words,
      }),
    )
  }
  if (levels.low < -limits.underZero) {
    const words = `Reflectance falls to ${levels.low.toFixed(3)}, which no rock has: the dark current was wrong; scan again.`
    findings.push(
      doubt({
        reason: 'reflectance under 0',
        measure: levels.low,
        limit: -limits.underZero,
        unit: 'reflectance',
        words,
      }),
    )
  }
  if (levels.flat > limits.flat) {
    const words = `One value stands over ${levels.flat.toFixed(0)} nm: the detector was saturated or the file was filled in; scan again with less light.`
    findings.push(
      doubt({
        reason: 'flat stretch',
        measure: levels.flat,
        limit: limits.flat,
        unit: 'nm',
        words,
      }),
    )
  }
  if (levels.gaps > limits.gaps) {
    const words = `${percent(levels.gaps)} of the channels have no value: indices that need them are missing; look at the file.`
    findings.push(
      doubt({ reason: 'gaps', measure: levels.gaps, limit: limits.gaps, unit: '', words }),
    )
  }
  return findings
}

function setAside(
  reason: string,
  measure: number,
  limit: number,
  unit: string,
  words: string,
): Finding {
  return { reason: { reason, measure, limit, unit, words }, makes: 'set aside' }
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
    doubt({
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
          Number.isFinite(bandMoves)
            ? `moves by ${bandMoves.toFixed(0)} nm within that error`
            : 'is lost within that error'
        }: do not read its position.`
  const words = `Reflectance jumped by ${percent(size)} (± ${percent(error)}) at ${position.toFixed(0)} nm, where one detector ends: corrected by bringing that detector level with the middle one.${band}`
  const reason = {
    reason: DETECTOR_STEP,
    measure: size,
    limit: limits.detectorStep,
    unit: '',
    words,
  }
  return { reason, makes: 'sound' }
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
  return { reason, makes: 'sound' }
}

function waterFinding({ water }: ScanMeasures, limits: CheckLimits): Finding[] {
  if (water < limits.freeWater) return []
  const words = `Free water takes away ${percent(1 - Math.exp(-water))} of the light at 1940 nm: dry the sample and scan again; depths and the 1400 and 1900 nm features are not the rock's.`
  return [
    doubt({
      reason: 'wet sample',
      measure: water,
      limit: limits.freeWater,
      unit: 'absorbance',
      words,
    }),
  ]
}

/** Depths must be this many times the relative noise: a hull over noise feigns a few. */
const OVER_NOISE = 3
const OVER_VISIBLE_NOISE = 8
const OVER_LINE_NOISE = 6

function foreignFindings(measures: ScanMeasures, limits: CheckLimits): Finding[] {
  const { foreign, lampLines, noise } = measures
  const [visible, infrared] = noise
  const findings: Finding[] = []
  if (foreign.hydrocarbon > Math.max(limits.hydrocarbon, OVER_NOISE * relative(infrared))) {
    const words = `Bands of plastic or grease ${percent(foreign.hydrocarbon)} deep at 1730 nm: take the bag or film off, clean the spot and scan again.`
    findings.push(
      doubt({
        reason: 'plastic or grease',
        measure: foreign.hydrocarbon,
        limit: limits.hydrocarbon,
        unit: '',
        words,
      }),
    )
  }
  if (foreign.chlorophyll > Math.max(limits.chlorophyll, OVER_VISIBLE_NOISE * relative(visible))) {
    const words = `Chlorophyll ${percent(foreign.chlorophyll)} deep at 675 nm: plants or lichen are in the spot; scan a clean face. (Marker ink can look so.)`
    findings.push(
      doubt({
        reason: 'vegetation or lichen',
        measure: foreign.chlorophyll,
        limit: limits.chlorophyll,
        unit: '',
        words,
      }),
    )
  }
  if (foreign.dye > Math.max(limits.dye, OVER_VISIBLE_NOISE * relative(visible))) {
    const words = `Below an edge in the red ${percent(foreign.dye)} of the light is lost, and beyond it nothing: dye, as of marker ink, or plants are in the spot; scan a clean face.`
    findings.push(
      doubt({
        reason: 'marker ink',
        measure: foreign.dye,
        limit: limits.dye,
        unit: '',
        words,
      }),
    )
  }
  if (foreign.cellulose > Math.max(limits.cellulose, OVER_NOISE * relative(noise.at(-1)))) {
    const words = `Cellulose ${percent(foreign.cellulose)} deep at 2100 nm: a label, paper or wood is in the spot; take it off and scan again.`
    findings.push(
      doubt({
        reason: 'paper or wood',
        measure: foreign.cellulose,
        limit: limits.cellulose,
        unit: '',
        words,
      }),
    )
  }
  const floor = OVER_LINE_NOISE * (visible?.noise ?? 0)
  if (lampLines !== null && lampLines.height > Math.max(limits.lampLines, floor)) {
    const { vapour, height } = lampLines
    const words = `Lines of ${vapour} lamps stand ${height.toFixed(3)} high (at ${LAMP_LINES[vapour].map((nm) => nm.toFixed(0)).join(', ')} nm): press the probe to the rock or switch the room light off, and take a new white reference.`
    findings.push(
      doubt({
        reason: 'room light',
        measure: height,
        limit: limits.lampLines,
        unit: 'reflectance',
        words,
      }),
    )
  }
  return findings
}

function relative(quiet: WindowNoise | undefined): number {
  if (!quiet || quiet.noise === null || quiet.level === null) return 0
  return quiet.level > 0 ? quiet.noise / quiet.level : Infinity
}

/** To a tenth, or to two digits where that would read 0.0; with a true minus sign. */
function percent(fraction: number): string {
  const value = 100 * fraction
  const text = Math.abs(value) < 0.1 && value !== 0 ? value.toPrecision(2) : value.toFixed(1)
  return `${text.replace('-', '−')} %`
}
