/** Spectra as they count: with their detector steps corrected where a person switched that on. */
import { correctSteps } from '../check/correct-steps'
import { spectrumOf } from '../spectra/scan-store'
import type { Spectrum } from '../spectra/spectrum'
import { latestDecisions, scanKey, type Decisions } from './decisions'
import type { Active } from './active-scans'
import type { Holdings, ScanHead } from './project'
import type { Results } from './results'

const known = new WeakMap<Decisions, ReadonlySet<string>>()

/** Keys of the scans whose step correction is switched on. */
function correctedKeys(decisions: Decisions): ReadonlySet<string> {
  let keys = known.get(decisions)
  if (!keys) {
    const latest = latestDecisions(decisions, 'step correction')
    keys = new Set([...latest].flatMap(([key, { on }]) => (on ? [key] : [])))
    known.set(decisions, keys)
  }
  return keys
}

/** Whether a scan's detector steps are corrected. */
export function isStepCorrected(decisions: Decisions, { file, name }: ScanHead): boolean {
  const keys = correctedKeys(decisions)
  return keys.size > 0 && keys.has(scanKey(file, name))
}

/**
 * A scan's spectrum as it was examined, for drawing.
 *
 * @param scan its number in the store
 * @param results what was computed last; null before anything was
 * @throws RangeError where the store has no such scan
 */
export function spectrumShown(
  holdings: Holdings,
  decisions: Decisions,
  scan: number,
  results: Pick<Results, 'stepsShared'> | null,
): Spectrum {
  const spectrum = spectrumOf(holdings.scans, scan)
  if (!isStepCorrected(decisions, holdings.heads[scan])) return spectrum
  return correctSteps(spectrum, { shared: results?.stepsShared?.get(scan) }).spectrum
}

/** Numbers in the store of the scans whose detector steps are corrected. */
export function correctedScans(
  { heads, numbers }: Active,
  decisions: Decisions,
): ReadonlySet<number> {
  return new Set(numbers.filter((_, scan) => isStepCorrected(decisions, heads[scan])))
}
