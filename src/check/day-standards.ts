/** What a day's scans of a wavelength standard and of a check rock say of its other scans. */
import { checkRockReasons, type RockComparison } from './check-rock'
import { daysOf } from './day'
import { doubtful, setAside, type Finding } from './finding'
import type { CheckLimits } from './limits'
import { shiftReason, type WavelengthShift } from './standard'

/** Scans that are no rock of the area but check the day, by their place among the scans. */
export interface DayStandards {
  /** What the wavelength standard is called; null where none is named. */
  readonly standard: string | null
  /** Shifts on its scans; null where its absorptions were not found. */
  readonly shifts: ReadonlyMap<number, WavelengthShift | null>
  /** What the check rock is called; null where none is named. */
  readonly rock: string | null
  /** Its scans against those of earlier days; null where there is none, or no time. */
  readonly rocks: ReadonlyMap<number, RockComparison | null>
}

/** Of a project that names neither. */
export const NO_STANDARDS: DayStandards = {
  standard: null,
  shifts: new Map(),
  rock: null,
  rocks: new Map(),
}

/** What the day says of one scan. */
export interface DayFindings {
  readonly findings: readonly Finding[]
  readonly cannotTell: readonly string[]
}

/** For each scan what the nearest scans of standard and rock of its day say against it. */
export function dayFindings(
  seconds: readonly (number | null)[],
  standards: DayStandards,
  limits: CheckLimits,
): DayFindings[] {
  const days = daysOf(seconds)
  const nearest = (scan: number, known: ReadonlyMap<number, unknown>): number | null =>
    nearestOfDay(scan, [...known.keys()], seconds, days)
  return seconds.map((_, scan) => {
    const own = ownFinding(scan, standards, limits)
    if (own !== null) return { findings: [own], cannotTell: [] }
    const parts = [
      standardSays(nearest(scan, standards.shifts), seconds[scan], standards, limits),
      rockSays(nearest(scan, standards.rocks), seconds[scan], standards, limits),
    ]
    return {
      findings: parts.flatMap(({ findings }) => findings),
      cannotTell: parts.flatMap(({ cannotTell }) => cannotTell),
    }
  })
}

/** A scan of the standard or the rock itself counts for no station. */
function ownFinding(
  scan: number,
  { standard, shifts, rock, rocks }: DayStandards,
  limits: CheckLimits,
): Finding | null {
  const shift = shifts.get(scan)
  if (shift !== undefined) {
    const read = shift
      ? `it reads ${shift.shift.toFixed(2)} ± ${shift.error.toFixed(2)} nm off over ${shift.bands} bands`
      : 'its absorptions are not where they should be'
    return setAside({
      reason: 'wavelength standard',
      measure: shift?.shift ?? 0,
      limit: limits.wavelengthShift,
      unit: 'nm',
      words: `A scan of the wavelength standard ${standard ?? ''}: ${read}. It checks the day and counts for no station.`,
    })
  }
  const comparison = rocks.get(scan)
  if (comparison === undefined) return null
  const read = comparison
    ? `${(100 * comparison.level).toFixed(1)} % off its usual brightness, ${(100 * comparison.shape).toFixed(1)} % off its usual course`
    : 'no earlier day to compare it with'
  return setAside({
    reason: 'check rock',
    measure: comparison?.level ?? 0,
    limit: limits.checkRockLevel,
    unit: '',
    words: `A scan of the check rock ${rock ?? ''}: ${read}. It checks the day and counts for no station.`,
  })
}

const NOTHING: DayFindings = { findings: [], cannotTell: [] }

function standardSays(
  of: number | null,
  seconds: number | null,
  { standard, shifts }: DayStandards,
  limits: CheckLimits,
): DayFindings {
  if (standard === null) return NOTHING
  const shift = of === null ? undefined : shifts.get(of)
  if (!shift) {
    const why = whyNone(seconds, shift, 'the standard')
    return { findings: [], cannotTell: [`The wavelength scale: ${why}`] }
  }
  const reason = shiftReason(shift, { name: standard }, limits)
  return reason ? { findings: [doubtful(reason)], cannotTell: [] } : NOTHING
}

function rockSays(
  of: number | null,
  seconds: number | null,
  { rock, rocks }: DayStandards,
  limits: CheckLimits,
): DayFindings {
  if (rock === null) return NOTHING
  const comparison = of === null ? undefined : rocks.get(of)
  if (!comparison) {
    const why = whyNone(seconds, comparison, 'the check rock')
    return { findings: [], cannotTell: [`The check rock: ${why}`] }
  }
  const reasons = checkRockReasons(comparison, limits)
  return { findings: reasons.map(doubtful), cannotTell: [] }
}

function whyNone(seconds: number | null, found: null | undefined, what: string): string {
  if (seconds === null) return 'the scan has no time.'
  if (found === undefined) return `no scan of ${what} that day.`
  return what === 'the standard'
    ? 'the standard’s absorptions were not found that day.'
    : 'no scan of it on an earlier day.'
}

/** Of some scans the one of the scan's own day that is nearest in time; the earlier of two. */
function nearestOfDay(
  scan: number,
  among: readonly number[],
  seconds: readonly (number | null)[],
  days: readonly (number | null)[],
): number | null {
  const at = seconds[scan]
  if (at === null) return null
  let nearest: number | null = null
  let least = Infinity
  for (const other of among) {
    const time = seconds[other]
    if (time === null || days[other] !== days[scan] || Math.abs(time - at) >= least) continue
    nearest = other
    least = Math.abs(time - at)
  }
  return nearest
}
