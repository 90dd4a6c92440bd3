/** Plain numbers read off a spectrum. */
import { channelRange, type Spectrum } from './spectrum'

/**
 * Reflectance at a wavelength in nm, straight between the two channels about it.
 *
 * @returns null outside the record or beside a gap
 */
export function reflectanceAt(
  { wavelengths: x, reflectance: y }: Spectrum,
  nm: number,
): number | null {
  const [next] = channelRange(x, nm, Infinity)
  if (next === x.length) return null
  if (x[next] === nm) return finite(y[next])
  if (next === 0) return null
  const t = (nm - x[next - 1]) / (x[next] - x[next - 1])
  return finite(y[next - 1] + t * (y[next] - y[next - 1]))
}

/** Mean reflectance of the channels with `from <= λ <= to`; null where none has a value. */
export function meanReflectance(spectrum: Spectrum, from: number, to: number): number | null {
  const { wavelengths, reflectance } = spectrum
  const [start, end] = channelRange(wavelengths, from, to)
  let count = 0
  let mean = 0
  for (let i = start; i < end; i++) {
    if (Number.isNaN(reflectance[i])) continue
    count++
    mean += (reflectance[i] - mean) / count
  }
  return count === 0 ? null : mean
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null
}
