/**
 * The continuum as the upper convex hull of reflectance
 * (Clark and Roush 1984, J. Geophys. Res. 89, 6329).
 */
import { channelRange, type Spectrum } from './spectrum'

/** A stretch of a spectrum over its continuum. Gaps are left out, so no value is NaN. */
export interface ContinuumRemoved {
  /** nm, ascending. */
  readonly wavelengths: Float64Array
  /** Fractions, as in the spectrum. */
  readonly reflectance: Float64Array
  /** The hull at each channel, fractions; `>= reflectance` everywhere and equal to it at both ends. */
  readonly hull: Float64Array
  /** Continuum-removed reflectance, reflectance / hull; at most 1. */
  readonly removed: Float64Array
}

/**
 * Continuum-removed reflectance between two wavelengths in nm, both included.
 *
 * @returns null where fewer than three channels with a value lie in the range, or where
 *   the hull is not positive throughout (the quotient would mean nothing).
 */
export function removeContinuum(
  spectrum: Spectrum,
  from = -Infinity,
  to = Infinity,
): ContinuumRemoved | null {
  const [start, end] = channelRange(spectrum.wavelengths, from, to)
  const wavelengths = new Float64Array(end - start)
  const reflectance = new Float64Array(end - start)
  let count = 0
  for (let channel = start; channel < end; channel++) {
    const value = spectrum.reflectance[channel]
    if (Number.isNaN(value)) continue
    wavelengths[count] = spectrum.wavelengths[channel]
    reflectance[count++] = value
  }
  if (count < 3) return null
  const w = wavelengths.subarray(0, count)
  const r = reflectance.subarray(0, count)
  const hull = upperHull(w, r)
  const removed = new Float64Array(count)
  for (let i = 0; i < count; i++) {
    if (!(hull[i] > 0)) return null
    removed[i] = r[i] / hull[i]
  }
  return { wavelengths: w, reflectance: r, hull, removed }
}

/**
 * The upper convex hull of a curve, at each of its abscissae.
 *
 * @param x strictly ascending, no NaN
 * @param y as long as `x`, no NaN
 */
export function upperHull(x: Float64Array, y: Float64Array): Float64Array {
  const corners = new Int32Array(x.length)
  let top = 0
  for (let i = 0; i < x.length; i++) {
    while (top >= 2 && isBelow(x, y, corners[top - 2], corners[top - 1], i)) top--
    corners[top++] = i
  }
  const hull = new Float64Array(x.length)
  for (let c = 0; c + 1 < top; c++) {
    const a = corners[c]
    const b = corners[c + 1]
    const slope = (y[b] - y[a]) / (x[b] - x[a])
    for (let i = a; i < b; i++) hull[i] = Math.max(y[i], y[a] + slope * (x[i] - x[a]))
  }
  if (top > 0) hull[corners[top - 1]] = y[corners[top - 1]]
  return hull
}

/** Whether the middle corner lies on or under the chord from `a` to `c`. */
function isBelow(x: Float64Array, y: Float64Array, a: number, b: number, c: number): boolean {
  return (y[b] - y[a]) * (x[c] - x[a]) <= (y[c] - y[a]) * (x[b] - x[a])
}
