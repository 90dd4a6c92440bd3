/**
 * How well a walk repeats itself: what stations that were visited again say of an index.
 *
 * A visit's value is the mean of its scans. With visits k = 1 … nᵢ of station i, the variance
 * between visits is s² = Σᵢ Σₖ (xᵢₖ − x̄ᵢ)² / Σᵢ (nᵢ − 1), the within-group mean square of an
 * analysis of variance (for pairs Σ d²/2n). It holds what a station's own scans cannot show: the
 * day's white reference and calibration, another fresh face, finding the spot again. In the words
 * of ISO 5725-3 it is an intermediate precision, in which time and place on the outcrop differ.
 */
import type { Measured } from './rule'

/** What visits say of an index, all in its unit but the counts. */
export interface Repeatability {
  /** Stations that had a value on two visits or more. */
  readonly stations: number
  /** Standard deviation of one visit. */
  readonly deviation: number
  /** Its standard error, s/√(2ν) with ν degrees of freedom (normal values). */
  readonly error: number
  /** Two visits differ by more than this in one of twenty cases: 2.8 s (ISO 5725-6). */
  readonly limit: number
  /** Root of the mean squared error that the visits state; null where none states one. */
  readonly stated: number | null
}

/** Of the difference of two normal values: 1.96 √2, as ISO 5725-6 rounds it. */
const LIMIT = 2.8

/**
 * The repeatability of an index.
 *
 * @param stations each station's visits; those without a value do not count
 * @returns null where no station has a value on two visits
 */
export function repeatability(stations: readonly (readonly Measured[])[]): Repeatability | null {
  let counted = 0
  let freedom = 0
  let squares = 0
  const stated: number[] = []
  for (const visits of stations) {
    const known = visits.filter(({ value }) => value !== null)
    if (known.length < 2) continue
    const values = known.map(({ value }) => value ?? 0)
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length
    counted++
    freedom += values.length - 1
    for (const value of values) squares += (value - mean) ** 2
    for (const { error } of known) if (error !== null) stated.push(error * error)
  }
  if (freedom === 0) return null
  const deviation = Math.sqrt(squares / freedom)
  return {
    stations: counted,
    deviation,
    error: deviation / Math.sqrt(2 * freedom),
    limit: LIMIT * deviation,
    stated:
      stated.length > 0 ? Math.sqrt(stated.reduce((sum, e) => sum + e, 0) / stated.length) : null,
  }
}
