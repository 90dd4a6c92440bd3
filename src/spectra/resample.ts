/** A spectrum on another axis. */
import { onceAnAxis } from './once-an-axis'
import { channelRange, type Spectrum } from './spectrum'

/**
 * Linear interpolation onto other wavelengths. What lies outside the record, or between a value
 * and a gap, is a gap (NaN); a wavelength the record has keeps its value to the bit.
 *
 * No band pass is modelled: onto coarser channels, smooth first.
 *
 * @param wavelengths nm, strictly ascending
 */
export function resample(spectrum: Spectrum, wavelengths: Float64Array): Spectrum {
  const { wavelengths: x, reflectance: y } = spectrum
  const out = new Float64Array(wavelengths.length)
  let next = 0
  for (let i = 0; i < wavelengths.length; i++) {
    const at = wavelengths[i]
    while (next < x.length && x[next] < at) next++
    if (next < x.length && x[next] === at) out[i] = y[next]
    else if (next === 0 || next === x.length) out[i] = NaN
    else {
      const t = (at - x[next - 1]) / (x[next] - x[next - 1])
      out[i] = y[next - 1] + t * (y[next] - y[next - 1])
    }
  }
  return { wavelengths, reflectance: out }
}

/**
 * The channels with `from <= λ <= to` as views, nothing copied. Scans on one axis share the part
 * of it too. For ranges that a method fixes: each is remembered.
 */
export function cropTo(spectrum: Spectrum, from: number, to: number): Spectrum {
  const { start, end, wavelengths } = partOf(spectrum.wavelengths, `${from} ${to}`)
  return { wavelengths, reflectance: spectrum.reflectance.subarray(start, end) }
}

const partOf = onceAnAxis((axis, range: string) => {
  const [from, to] = range.split(' ').map(Number)
  const [start, end] = channelRange(axis, from, to)
  return { start, end, wavelengths: axis.subarray(start, end) }
})
