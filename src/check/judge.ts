/** From measures to verdicts: the cheap part, run again whenever a limit or a scan changes. */
import { atOnce, mapPiecewise, type Piecework } from '../spectra/piecework'
import type { Spectrum } from '../spectra/spectrum'
import { panelsSeen, sinceDayBegan, warmUpReason, type DayScan } from './day'
import { dayFindings, NO_STANDARDS, type DayStandards } from './day-standards'
import { driftReason, driftsOf } from './drift'
import { findRepeats, type Repeat } from './duplicates'
import { doubtful, setAside, type Finding } from './finding'
import { WHITE_PANEL } from './level-findings'
import { DEFAULT_LIMITS, type CheckLimits } from './limits'
import { measureScan, noiseOf, type ScanMeasures } from './measure-scan'
import { findingsOf } from './reasons'
import { wetterReasons } from './replicates'
import type { Check, Verdict } from './verdict'
import { staleReason, untoldAge, whiteReferenceAges, type ScanTimes } from './white-reference'

/** What a scan's file tells that the check can use. */
export interface KnownOfScan extends ScanTimes {
  /** The sample and what the probe touched, as written; scans of one sample are compared. */
  readonly sample?: string | null
  readonly target?: string | null
}

/**
 * What is judged: a scan's measures, its name for words about others, and what is known of it.
 * Measures may be a getter's: they are asked for again rather than kept.
 */
export interface JudgedScan {
  readonly name: string
  readonly known: KnownOfScan
  readonly measures: ScanMeasures
}

/** A scan that has not been measured yet. */
export interface CheckInput {
  readonly name: string
  readonly known: KnownOfScan
  readonly spectrum: Spectrum
}

/**
 * One verdict a scan, in order. Of two alike the longer name is the copy, of equal ones the later scan.
 *
 * @param standards what the day's scans of a standard and of a check rock tell
 */
export function judgeScans(
  scans: readonly JudgedScan[],
  limits: CheckLimits = DEFAULT_LIMITS,
  standards: DayStandards = NO_STANDARDS,
): Verdict[] {
  return atOnce(judgePiecewise(scans, limits, standards))
}

/** The same in pieces. */
export function* judgePiecewise(
  scans: readonly JudgedScan[],
  limits: CheckLimits,
  standards: DayStandards,
): Piecework<Verdict[]> {
  const compared = yield* mapPiecewise(scans, ({ measures }) => {
    const { likeness, noise, water1940 } = measures
    return { likeness, noise, water1940, findings: findingsOf(measures, limits) }
  })
  const found = compared.map(({ findings }) => findings)
  const repeats = findRepeats(
    scans.map(({ name }) => name),
    compared.map(({ likeness }) => likeness),
    compared.map(leastNoise),
    limits.nearDuplicate,
  )
  yield
  const ages = whiteReferenceAges(scans.map(({ known }) => known))
  const day = scans.map((scan, i) => dayScan(scan, found[i], ages[i]))
  const drifts = driftsOf(day)
  const since = sinceDayBegan(day)
  const panels = panelsSeen(day)
  yield
  const ofDay = dayFindings(
    scans.map(({ known }) => known.time?.seconds ?? null),
    standards,
    limits,
  )
  yield
  const wetter = wetterReasons(
    scans.map(({ name, known }, scan) => ({
      name,
      sample: known.sample ?? null,
      target: known.target ?? null,
      measures: compared[scan],
    })),
    limits,
  )
  return yield* mapPiecewise(scans, ({ measures }, scan) => {
    const findings = [...found[scan]]
    const repeat = repeats[scan]
    if (repeat !== null) findings.push(repeatFinding(repeat, scans[repeat.of].name, limits))
    if (day[scan].panel === null) {
      const isWet = findings.some(({ reason }) => reason.reason === 'wet sample')
      const reasons = [
        isWet ? null : wetter[scan],
        staleReason(ages[scan], limits, panels[scan]),
        driftReason(drifts[scan], limits),
        warmUpReason(since[scan], measures.steps, limits),
      ]
      for (const reason of reasons) if (reason !== null) findings.push(doubtful(reason))
      findings.push(...ofDay[scan].findings)
    }
    const age = ages[scan]
    const told = typeof age === 'string' ? untoldAge(age, panels[scan]) : age
    return verdictOf(findings, measures, told, ofDay[scan].cannotTell)
  })
}

function dayScan(scan: JudgedScan, findings: readonly Finding[], age: number | string): DayScan {
  const isPanel = findings.some(({ reason }) => reason.reason === WHITE_PANEL)
  const levels = isPanel ? scan.measures.levels : null
  return {
    seconds: scan.known.time?.seconds ?? null,
    age: typeof age === 'number' ? age : null,
    panel: levels === null ? null : { level: levels.median, range: levels.range },
  }
}

/** Measures and judges in one go, for a few scans or where no workers are to be had. */
export function checkScans(
  scans: readonly CheckInput[],
  limits: CheckLimits = DEFAULT_LIMITS,
): Verdict[] {
  return judgeScans(
    scans.map(({ name, known, spectrum }) => ({ name, known, measures: measureScan(spectrum) })),
    limits,
  )
}

/** The worst first. */
const CHECKS: readonly Check[] = ['set aside', 'doubtful']

function verdictOf(
  findings: readonly Finding[],
  measures: ScanMeasures,
  age: number | string,
  ofDay: readonly string[],
): Verdict {
  const cannotTell: string[] = []
  const noise = noiseOf(measures)
  if (noise === null) cannotTell.push('The noise at 2200 nm: too few channels.')
  if (measures.steps.every((step) => step === null)) {
    cannotTell.push('Steps at detector joins: the channels are too far apart.')
  }
  if (typeof age === 'string') cannotTell.push(age)
  cannotTell.push(...ofDay)
  return {
    check: CHECKS.find((check) => findings.some(({ makes }) => makes === check)) ?? 'sound',
    reasons: findings.map(({ reason }) => reason),
    noise,
    ...(cannotTell.length > 0 ? { cannotTell } : {}),
    ...(measures.corrected ? { corrected: measures.corrected } : {}),
    ...(measures.untold ? { untold: measures.untold } : {}),
  }
}

function repeatFinding({ difference }: Repeat, name: string, limits: CheckLimits): Finding {
  const equal = difference === 0
  const words = equal
    ? `The same values as ${name}, to the last digit: one file was copied, and ${name} counts.`
    : `Differs from ${name} by ${difference.toFixed(2)} of the noise, less than two scans can: one was made from the other; overrule the one to leave out.`
  return (equal ? setAside : doubtful)({
    reason: equal ? 'duplicate' : 'near duplicate',
    measure: difference,
    limit: limits.nearDuplicate,
    unit: 'noise',
    words,
  })
}

/** The least noise of the windows: the strictest measure of what two scans may differ by. */
function leastNoise({ noise }: Pick<ScanMeasures, 'noise'>): number | null {
  const known = noise.flatMap((quiet) => (quiet.noise === null ? [] : [quiet.noise]))
  return known.length > 0 ? Math.min(...known) : null
}
