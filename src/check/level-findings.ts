/** Reasons that a scan's level gives: no values, no signal, the panel, values that no rock has. */
import { doubtful, percent, setAside, type Finding } from './finding'
import type { Levels } from './levels'
import type { CheckLimits } from './limits'

/** The reason of a scan of the panel: the day's drift is read off such scans. */
export const WHITE_PANEL = 'white panel'

/**
 * What its level says against a scan.
 *
 * @param levels null where the scan has no values to speak of
 * @returns one finding that sets it aside where it is of no rock or of nothing, else its doubts
 */
export function levelFindings(levels: Levels | null, limits: CheckLimits): Finding[] {
  const aside = notOfRock(levels, limits)
  if (aside !== null) return [aside]
  return levels === null ? [] : levelDoubts(levels, limits)
}

/** Why a scan is of nothing, or of the panel; null where it may be of a rock. */
function notOfRock(levels: Levels | null, limits: CheckLimits): Finding | null {
  if (levels === null) {
    const words = 'The scan has no values between 420 and 2400 nm: look at its file.'
    return setAside({ reason: 'no values', measure: 0, limit: 10, unit: 'channels', words })
  }
  const { high, median, unevenness } = levels
  if (high < limits.noSignal) {
    return setAside({
      reason: 'no signal',
      measure: high,
      limit: limits.noSignal,
      unit: 'reflectance',
      words: `The detectors saw nothing (reflectance below ${percent(high)}): scan again with the lamp on.`,
    })
  }
  const isPanel = Math.abs(median - 1) <= limits.panelLevel && unevenness <= limits.panelUnevenness
  if (!isPanel) return null
  return setAside({
    reason: WHITE_PANEL,
    measure: unevenness,
    limit: limits.panelUnevenness,
    unit: '',
    words: `Even within ${percent(unevenness)} about ${median.toFixed(3)}: this is the white panel, not a rock.`,
  })
}

/** Levels that no rock has, or that the file was filled in with. */
function levelDoubts({ high, low, flat, gaps }: Levels, limits: CheckLimits): Finding[] {
  const findings: Finding[] = []
  if (high > limits.overOne) {
    const words = `Reflectance reaches ${high.toFixed(2)}, more than the panel gives back: the white reference or the distance was wrong; take a new one and scan again.`
    findings.push(
      doubtful({
        reason: 'reflectance over 1',
        measure: high,
        limit: limits.overOne,
        unit: 'reflectance',
        words,
      }),
    )
  }
  if (low < -limits.underZero) {
    const words = `Reflectance falls to ${low.toFixed(3)}, which no rock has: the dark current was wrong; scan again.`
    findings.push(
      doubtful({
        reason: 'reflectance under 0',
        measure: low,
        limit: -limits.underZero,
        unit: 'reflectance',
        words,
      }),
    )
  }
  if (flat > limits.flat) {
    const words = `One value stands over ${flat.toFixed(0)} nm: the detector was saturated or the file was filled in; scan again with less light.`
    findings.push(
      doubtful({
        reason: 'flat stretch',
        measure: flat,
        limit: limits.flat,
        unit: 'nm',
        words,
      }),
    )
  }
  if (gaps > limits.gaps) {
    const words = `${percent(gaps)} of the channels have no value: indices that need them are missing; look at the file.`
    findings.push(doubtful({ reason: 'gaps', measure: gaps, limit: limits.gaps, unit: '', words }))
  }
  return findings
}
