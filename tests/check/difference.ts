/** How far two scans lie apart. */
import type { Spectrum } from '../../src/spectra/spectrum'

/** The largest difference in reflectance of two scans, 400–2450 nm. */
export function largestDifference(a: Spectrum, b: Spectrum): number {
  let largest = 0
  a.reflectance.forEach((value, i) => {
    if (a.wavelengths[i] < 400 || a.wavelengths[i] > 2450) return
    const difference = Math.abs(value - b.reflectance[i])
    if (difference > largest) largest = difference
  })
  return largest
}
