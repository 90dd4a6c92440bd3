/** Steps where one detector ends and the next begins: looked for, not assumed. */
import { estimateNoise } from '../spectra/noise'
import { fitPolynomial, horner } from '../spectra/polynomial'
import { channelRange, type Spectrum } from '../spectra/spectrum'

/** Where joins are looked for, nm: silicon to the first, and the first to the second infrared array. */
const JOIN_RANGES = [
  [960, 1040],
  [1760, 1860],
] as const

/**
 * Stretches over which a step is measured, half their length in nm, and the degree of the
 * polynomial that stands for the rock's own course there. Long ones beat noise, short ones the
 * flanks of absorptions; what each leaves over says which it is to be.
 */
const STRETCHES = [
  { reach: 30, degree: 3 },
  { reach: 12, degree: 2 },
  { reach: 20, degree: 3 },
  { reach: 50, degree: 3 },
  { reach: 30, degree: 5 },
  { reach: 8, degree: 2 },
] as const
/** The first so many are tried on every suspect, all on the largest. */
const QUICK_STRETCHES = 2
/** A stretch is not believed to leave less over than this part of the noise. */
const NOISE_PART = 0.7
/** Fewer channels than this on a stretch tell nothing. */
const LEAST_CHANNELS = 14
/** Channels on either side that are averaged to see how sudden the change is. */
const SUDDEN_CHANNELS = 3
/** A step makes this part of its size within them; the flank of an absorption does not. */
const SUDDEN_PART = 0.6

/**
 * The last wavelength of one detector where field instruments usually change to the next, nm
 * (common practice): looked into even where noise hides the change.
 */
export const USUAL_JOINS = [1000, 1800, 1830] as const
/** Other places in a range that are looked into. */
const SUSPECTS = 5
/** Channels on either side that tell the course of the curve about a suspect. */
const WIDE = 8

/** A step that was found. */
export interface DetectorStep {
  /** Wavelength between the two channels on either side of it, nm. */
  readonly position: number
  /** Reflectance just above over just below, less 1. */
  readonly size: number
  /** One standard error of `size`, from what the fit leaves over. */
  readonly error: number
}

/**
 * The steps near the usual joins, one a range, in order: the largest sudden change there against
 * the rock's own course on either side, null where the record is too coarse, dark or full of
 * gaps to tell. A size within twice its error is no step; no limit is applied here.
 */
export function measureSteps(spectrum: Spectrum): (DetectorStep | null)[] {
  return JOIN_RANGES.map(([from, to]) => largestStep(spectrum, from, to))
}

function largestStep(spectrum: Spectrum, from: number, to: number): DetectorStep | null {
  const noise = estimateNoise(spectrum, (from + to) / 2) ?? 0
  let largest: DetectorStep | null = null
  let after = -1
  for (const channel of suspects(spectrum, from, to)) {
    const step = stepAfter(spectrum, channel, noise, QUICK_STRETCHES)
    if (step === null) continue
    if (largest !== null && Math.abs(step.size) <= Math.abs(largest.size)) continue
    largest = step
    after = channel
  }
  return largest === null ? null : stepAfter(spectrum, after, noise, STRETCHES.length)
}

/** The channels after which reflectance changes most against its course, and the usual ones. */
function suspects(
  { wavelengths: x, reflectance: y }: Spectrum,
  from: number,
  to: number,
): number[] {
  const [start, end] = channelRange(x, from, to)
  const changes: [change: number, channel: number][] = []
  for (let i = Math.max(start, WIDE); i < Math.min(end, x.length - WIDE - 1); i++) {
    const course = (y[i + 1 + WIDE] - y[i - WIDE]) / (x[i + 1 + WIDE] - x[i - WIDE])
    const change = Math.abs(y[i + 2] - y[i - 1] - course * (x[i + 2] - x[i - 1]))
    if (!Number.isNaN(change)) changes.push([change, i])
  }
  const usual = USUAL_JOINS.filter((nm) => nm >= from && nm <= to).map(
    (nm) => channelRange(x, -Infinity, nm)[1] - 1,
  )
  const worst = changes.sort((a, b) => b[0] - a[0]).slice(0, SUSPECTS)
  return [...new Set([...worst.map(([, channel]) => channel), ...usual])]
}

/** The step between a channel and the next, over the stretch that tells it best. */
function stepAfter(
  spectrum: Spectrum,
  channel: number,
  noise: number,
  stretches: number,
): DetectorStep | null {
  let best: DetectorStep | null = null
  for (const { reach, degree } of STRETCHES.slice(0, stretches)) {
    const step = stepOver(spectrum, channel, noise, reach, degree)
    if (step !== null && (best === null || step.error < best.error)) best = step
  }
  return best
}

/**
 * The step over one stretch. What the polynomial cannot take of a unit step is what the data are
 * compared with (Frisch and Waugh 1933), so that level, slope and curvature of the rock do not
 * pass for a step.
 */
function stepOver(
  { wavelengths, reflectance }: Spectrum,
  channel: number,
  noise: number,
  reach: number,
  degree: number,
): DetectorStep | null {
  const centre = (wavelengths[channel] + wavelengths[channel + 1]) / 2
  const [start, end] = channelRange(wavelengths, centre - reach, centre + reach)
  const count = end - start
  if (count < LEAST_CHANNELS || channel - start < 6 || end - channel < 8) return null
  const x = wavelengths.slice(start, end).map((nm) => (nm - centre) / reach)
  const y = Float64Array.from(reflectance.subarray(start, end))
  const level = y.reduce((sum, value) => sum + value, 0) / count
  if (!(level > 0.005)) return null
  const unit = residual(
    x,
    x.map((u) => (u > 0 ? 1 : 0)),
    degree,
  )
  const rest = residual(x, y, degree)
  if (unit === null || rest === null) return null
  const weight = dot(unit, unit)
  const size = dot(unit, rest) / weight
  const left = rest.map((value, i) => value - size * unit[i])
  const scatter = Math.sqrt(dot(left, left) / (count - degree - 2))
  const sudden = suddenChange(x, y, channel - start)
  const isSudden = sudden * size > 0 && Math.abs(sudden) > SUDDEN_PART * Math.abs(size)
  const near = (y[channel - start] + y[channel - start + 1]) / 2
  // Neighbouring channels are not independent: the plain standard error, doubled. What a short
  // stretch leaves over may by chance be less than the noise, which itself may be overestimated
  // beside sharp absorptions.
  const error = (2 * Math.max(scatter, NOISE_PART * noise)) / Math.sqrt(weight) / level
  return { position: centre, size: isSudden ? size / Math.max(near, 0.005) : 0, error }
}

/** What a polynomial leaves of a curve. */
function residual(x: Float64Array, y: Float64Array, degree: number): Float64Array | null {
  const coefficients = fitPolynomial(x, y, degree)
  if (coefficients === null) return null
  return y.map((value, i) => value - horner(coefficients, x[i]))
}

/** The change over a few channels, less the lines through more of them on both sides. */
function suddenChange(x: Float64Array, y: Float64Array, channel: number): number {
  const slope =
    (lineSlope(x, y, channel - 7, channel) + lineSlope(x, y, channel + 1, channel + 8)) / 2
  let change = 0
  for (let k = 0; k < SUDDEN_CHANNELS; k++) {
    const [low, high] = [channel - k, channel + 1 + k]
    change += y[high] - y[low] - slope * (x[high] - x[low])
  }
  return change / SUDDEN_CHANNELS
}

function lineSlope(x: Float64Array, y: Float64Array, first: number, last: number): number {
  const from = Math.max(0, first)
  const line = fitPolynomial(x.subarray(from, last + 1), y.subarray(from, last + 1), 1)
  return line === null ? NaN : line[1]
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i]
  return sum
}
