/** First-order propagation of a scan's noise through continuum removal. */
import type { ContinuumRemoved } from './hull'

/**
 * The gradient with respect to reflectance of a quantity whose gradient with respect to
 * continuum-removed reflectance is given.
 *
 * Each removed value is r/h, and h between two corners of the hull is their straight line, so
 * a corner's noise moves every value under its two edges. The choice of corners is held fixed.
 *
 * @param gradient d quantity / d removed, one a channel of `part`
 */
export function throughHull(part: ContinuumRemoved, gradient: Float64Array): Float64Array {
  const { wavelengths: x, reflectance: r, hull: h } = part
  const out = new Float64Array(x.length)
  let left = 0
  for (let right = 1; right < x.length; right++) {
    if (h[right] !== r[right]) continue
    const span = x[right] - x[left]
    for (let i = left + 1; i < right; i++) {
      out[i] += gradient[i] / h[i]
      const toHull = (-gradient[i] * r[i]) / (h[i] * h[i])
      const t = (x[i] - x[left]) / span
      out[left] += toHull * (1 - t)
      out[right] += toHull * t
    }
    left = right
  }
  return out
}

/**
 * One standard error of a quantity with the given gradient, where every channel has the same
 * noise and two channels `d` nm apart are correlated by max(0, 1 - d / length).
 *
 * The triangle is the correlation that a moving average leaves behind, and near enough that of
 * linear interpolation: over a stretch of n nm it leaves about n / length independent values
 * (common practice; `length` 0 means independent channels).
 *
 * @param noise one standard deviation of reflectance
 */
export function standardError(
  x: Float64Array,
  gradient: Float64Array,
  noise: number,
  length: number,
): number {
  let sum = 0
  for (let i = 0; i < x.length; i++) {
    if (gradient[i] === 0) continue
    sum += gradient[i] * gradient[i]
    for (let j = i + 1; j < x.length && x[j] - x[i] < length; j++) {
      sum += 2 * gradient[i] * gradient[j] * (1 - (x[j] - x[i]) / length)
    }
  }
  return noise * Math.sqrt(Math.max(0, sum))
}
