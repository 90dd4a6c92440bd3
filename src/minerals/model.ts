/**
 * A reference's modelled reflectance: Gaussian absorption bands on a logarithmic continuum
 * (after Sunshine, Pieters and Pratt 1990, J. Geophys. Res. 95, 6955).
 *
 * ln R(λ) = continuum(λ) − Σ strength · exp(−4 ln 2 ((λ − position) / width)²)
 *
 * The Gaussians stand in wavelength, not in energy: the channels, the bandpass that blurs a
 * field instrument and the ranges that users speak of are all in nanometres, and over the few
 * per cent of its own wavelength that a hydroxyl band is wide the two shapes cannot be told
 * apart. Broad, skewed iron bands take two or three Gaussians. The continuum is the natural
 * cubic spline through its knots, so that it has no corner that could be read as a band.
 */
import { channelRange } from '../spectra/spectrum'
import type { Band, Reference } from './reference'

/** 4 ln 2: turns a full width at half depth into a Gaussian's exponent. */
export const FOUR_LN_2 = 4 * Math.LN2

/**
 * Reflectance of a reference at the given wavelengths.
 *
 * @param reference continuum knots (ascending, two or more) and bands
 * @param wavelengths nm, ascending
 * @returns fractions, one a wavelength; the model is only meant within the reference's range
 */
export function modelReflectance(
  reference: Pick<Reference, 'continuum' | 'bands'>,
  wavelengths: Float64Array,
): Float64Array {
  const values = modelContinuum(reference.continuum, wavelengths)
  for (const band of reference.bands) subtractBand(values, wavelengths, band)
  for (let i = 0; i < values.length; i++) values[i] = Math.exp(values[i])
  return values
}

/**
 * The natural-logarithmic continuum at the given wavelengths.
 *
 * @param knots [nm, ln reflectance], ascending, two or more
 * @returns ln reflectance, one a wavelength
 */
export function modelContinuum(
  knots: Reference['continuum'],
  wavelengths: Float64Array,
): Float64Array {
  const x = Float64Array.from(knots, (knot) => knot[0])
  const y = Float64Array.from(knots, (knot) => knot[1])
  if (x.length < 2) throw new Error('A continuum needs at least two knots.')
  return splineValues(x, y, secondDerivatives(x, y), wavelengths)
}

/** Takes one band's absorption off ln reflectance, in place. */
function subtractBand(values: Float64Array, wavelengths: Float64Array, band: Band): void {
  // Three widths off it is e^(−25): below the last digit that the tables keep.
  const reach = 3 * band.width
  const [start, end] = channelRange(wavelengths, band.position - reach, band.position + reach)
  for (let i = start; i < end; i++) {
    const t = (wavelengths[i] - band.position) / band.width
    values[i] -= band.strength * Math.exp(-FOUR_LN_2 * t * t)
  }
}

/**
 * The natural cubic spline as a linear map: column k is the spline that is 1 at knot k and 0
 * at the others. Beyond the outer knots the spline goes on straight.
 *
 * @param knots nm, strictly ascending, two or more
 * @param wavelengths nm
 */
export function splineBasis(knots: Float64Array, wavelengths: Float64Array): Float64Array[] {
  if (knots.length < 2) throw new Error('A continuum needs at least two knots.')
  return Array.from(knots, (_, k) => {
    const y = new Float64Array(knots.length)
    y[k] = 1
    return splineValues(knots, y, secondDerivatives(knots, y), wavelengths)
  })
}

/** Second derivatives of the natural spline at its knots (tridiagonal system). */
function secondDerivatives(x: Float64Array, y: Float64Array): Float64Array {
  const n = x.length
  const second = new Float64Array(n)
  const work = new Float64Array(n)
  for (let i = 1; i < n - 1; i++) {
    const sigma = (x[i] - x[i - 1]) / (x[i + 1] - x[i - 1])
    const p = sigma * second[i - 1] + 2
    second[i] = (sigma - 1) / p
    const bend = (y[i + 1] - y[i]) / (x[i + 1] - x[i]) - (y[i] - y[i - 1]) / (x[i] - x[i - 1])
    work[i] = ((6 * bend) / (x[i + 1] - x[i - 1]) - sigma * work[i - 1]) / p
  }
  second[n - 1] = 0
  for (let i = n - 2; i >= 0; i--) second[i] = second[i] * second[i + 1] + work[i]
  second[0] = 0
  return second
}

/** The spline's values, straight beyond the outer knots. */
function splineValues(
  x: Float64Array,
  y: Float64Array,
  second: Float64Array,
  at: Float64Array,
): Float64Array {
  const last = x.length - 1
  const values = new Float64Array(at.length)
  let k = 0
  for (let i = 0; i < at.length; i++) {
    const v = Math.min(Math.max(at[i], x[0]), x[last])
    if (v < x[k]) k = 0
    while (k < last - 1 && v > x[k + 1]) k++
    const h = x[k + 1] - x[k]
    const a = (x[k + 1] - v) / h
    const b = 1 - a
    values[i] =
      a * y[k] +
      b * y[k + 1] +
      ((a * a * a - a) * second[k] + (b * b * b - b) * second[k + 1]) * (h * h * (1 / 6))
    const rise = (y[k + 1] - y[k]) / h
    if (at[i] < x[0]) values[i] += (at[i] - x[0]) * (rise - (h * second[1]) / 6)
    if (at[i] > x[last]) values[i] += (at[i] - x[last]) * (rise + (h * second[last - 1]) / 6)
  }
  return values
}
