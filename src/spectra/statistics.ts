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
  const line = lineOver(spectrum, from, to)
  return line === null ? null : line.mean
}

/**
 * One standard error of that mean for noise of one standard deviation a channel, correlated
 * along `noiseLength` nm.
 *
 * @returns null where no channel has a value
 */
export function meanReflectanceError(
  spectrum: Spectrum,
  from: number,
  to: number,
  noise: number,
  noiseLength: number,
): number | null {
  const line = lineOver(spectrum, from, to)
  return line === null ? null : noise / Math.sqrt(independent(line, noiseLength))
}

/**
 * Slope of the least-squares line through the channels with `from <= λ <= to`, in reflectance
 * per 1000 nm.
 *
 * @returns null where fewer than two channels have a value
 */
export function slopePer1000(spectrum: Spectrum, from: number, to: number): number | null {
  const line = lineOver(spectrum, from, to)
  return line === null || !(line.spread > 0) ? null : (1000 * line.product) / line.spread
}

/** One standard error of that slope, likewise; null where there is no slope. */
export function slopePer1000Error(
  spectrum: Spectrum,
  from: number,
  to: number,
  noise: number,
  noiseLength: number,
): number | null {
  const line = lineOver(spectrum, from, to)
  if (line === null || !(line.spread > 0)) return null
  return (
    (1000 * noise * Math.sqrt(line.count / independent(line, noiseLength))) / Math.sqrt(line.spread)
  )
}

/** Sums of a least-squares line: Σ(x - x̄)² and Σ(x - x̄)(y - ȳ) in nm. */
interface Line {
  readonly count: number
  readonly mean: number
  readonly spread: number
  readonly product: number
  /** From the first to the last channel with a value, nm. */
  readonly length: number
}

function lineOver(
  { wavelengths: x, reflectance: y }: Spectrum,
  from: number,
  to: number,
): Line | null {
  const [start, end] = channelRange(x, from, to)
  let count = 0
  let meanX = 0
  let mean = 0
  let spread = 0
  let product = 0
  let first = NaN
  let last = NaN
  for (let i = start; i < end; i++) {
    if (Number.isNaN(y[i])) continue
    if (count === 0) first = x[i]
    last = x[i]
    count++
    const dx = x[i] - meanX
    meanX += dx / count
    mean += (y[i] - mean) / count
    spread += dx * (x[i] - meanX)
    product += dx * (y[i] - mean)
  }
  return count === 0 ? null : { count, mean, spread, product, length: last - first }
}

/** How many independent measurements a stretch of correlated channels is worth. */
function independent({ count, length }: Line, noiseLength: number): number {
  return noiseLength > 0 ? Math.max(1, Math.min(count, 1 + length / noiseLength)) : count
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null
}
