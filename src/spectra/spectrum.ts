/**
 * One reflectance spectrum on its own wavelengths.
 *
 * Wavelengths are in nanometres, strictly ascending. Reflectance is a fraction
 * (1 is the white panel). A deleted or unreadable channel is a gap: NaN.
 */
export interface Spectrum {
  readonly wavelengths: Float64Array
  readonly reflectance: Float32Array | Float64Array
}

/**
 * The first and one-past-the-last channel with `from <= λ <= to`, in nm.
 *
 * @returns `[start, end)`; empty (`start === end`) where no channel lies in the range.
 */
export function channelRange(
  wavelengths: Float64Array,
  from: number,
  to: number,
): [start: number, end: number] {
  return [lowerBound(wavelengths, from), upperBound(wavelengths, to)]
}

/** The first channel whose wavelength is at least `nm`. */
function lowerBound(wavelengths: Float64Array, nm: number): number {
  let low = 0
  let high = wavelengths.length
  while (low < high) {
    const middle = (low + high) >>> 1
    if (wavelengths[middle] < nm) low = middle + 1
    else high = middle
  }
  return low
}

/** The first channel whose wavelength is above `nm`. */
function upperBound(wavelengths: Float64Array, nm: number): number {
  let low = 0
  let high = wavelengths.length
  while (low < high) {
    const middle = (low + high) >>> 1
    if (wavelengths[middle] <= nm) low = middle + 1
    else high = middle
  }
  return low
}
