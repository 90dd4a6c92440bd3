/** Smoothing by local polynomials (Savitzky and Golay 1964, Anal. Chem. 36, 1627). */
import { onceAnAxis } from './once-an-axis'
import { leastSquaresWeights } from './polynomial'
import type { Spectrum } from './spectrum'

/**
 * The weights of an evenly spaced filter: the value (or a derivative, in units of the spacing)
 * at the middle of the least-squares polynomial through `points` channels.
 *
 * @param points odd, more than `degree`
 */
export function savitzkyGolayWeights(points: number, degree: number, derivative = 0): Float64Array {
  if (points % 2 !== 1 || points <= degree || derivative > degree) {
    throw new RangeError(
      `no filter has ${points} points, degree ${degree}, derivative ${derivative}`,
    )
  }
  const half = (points - 1) / 2
  const scale = Math.max(1, half)
  const x = Float64Array.from({ length: points }, (_, i) => (i - half) / scale)
  const functional = new Array<number>(degree + 1).fill(0)
  functional[derivative] = factorial(derivative) / scale ** derivative
  const weights = leastSquaresWeights(x, functional)
  if (weights === null) throw new RangeError(`a filter of degree ${degree} is beyond 64 bits`)
  return weights
}

/**
 * The spectrum smoothed. Windows are counted in channels where those are evenly spaced
 * and fitted on the real wavelengths elsewhere. Channels within half a window of an end or of a
 * gap are fitted from the window's channels that have values; a gap stays a gap.
 */
export function smoothSpectrum(spectrum: Spectrum, points: number, degree: number): Spectrum {
  const { wavelengths: x, reflectance: y } = spectrum
  const half = (points - 1) / 2
  const filters = filtersOf(x, `${points} ${degree}`)
  const out = new Float64Array(y.length).fill(NaN)
  for (let i = 0; i < y.length; i++) {
    if (Number.isNaN(y[i])) continue
    const weights = filters[i]
    const start = Math.max(0, i - half)
    let sum = 0
    for (let k = 0; k < weights.length; k++) sum += weights[k] * y[start + k]
    out[i] = Number.isNaN(sum) ? fitAt(x, y, i, half, degree) : sum
  }
  return { wavelengths: x, reflectance: out }
}

/** The weights of each channel's window where none of its channels is a gap. */
const filtersOf = onceAnAxis((x, setting: string): Float64Array[] => {
  const [points, degree] = setting.split(' ').map(Number)
  const half = (points - 1) / 2
  const even = savitzkyGolayWeights(points, degree)
  const steady = steadySteps(x)
  return Array.from(x, (_, i) =>
    i >= half && i + half < x.length && steady[i + half] >= points - 1
      ? even
      : weightsAt(x, i, channelsAbout(x, i, half), degree),
  )
})

function channelsAbout(x: Float64Array, i: number, half: number): number[] {
  const start = Math.max(0, i - half)
  const end = Math.min(x.length, i + half + 1)
  return Array.from({ length: end - start }, (_, k) => start + k)
}

/** The local polynomial's value at channel `i` from whatever channels have values. */
function fitAt(
  x: Float64Array,
  y: Float32Array | Float64Array,
  i: number,
  half: number,
  degree: number,
): number {
  const channels = channelsAbout(x, i, half).filter((k) => !Number.isNaN(y[k]))
  const weights = weightsAt(x, i, channels, degree)
  return weights.reduce((sum, weight, k) => sum + weight * y[channels[k]], 0)
}

/**
 * Weights of channels in the value at channel `i`, one of them, of the polynomial through them;
 * the channel alone where they are too few or lie all but on each other.
 */
function weightsAt(
  x: Float64Array,
  i: number,
  channels: readonly number[],
  degree: number,
): Float64Array {
  const alone = () => Float64Array.from(channels, (k) => (k === i ? 1 : 0))
  if (channels.length <= degree + 1) return alone()
  const reach = Math.max(...channels.map((k) => Math.abs(x[k] - x[i])))
  const offsets = Float64Array.from(channels, (k) => (x[k] - x[i]) / reach)
  const functional = [1, ...new Array<number>(degree).fill(0)]
  return leastSquaresWeights(offsets, functional) ?? alone()
}

/** For each channel, how many steps up to it are alike (each to 0.2 % of the one before). */
function steadySteps(x: Float64Array): Int32Array {
  const steady = new Int32Array(x.length)
  for (let i = 1; i < x.length; i++) {
    const step = x[i] - x[i - 1]
    const alike = i > 1 && Math.abs(step - (x[i - 1] - x[i - 2])) <= 0.002 * step
    steady[i] = alike ? steady[i - 1] + 1 : 1
  }
  return steady
}

function factorial(n: number): number {
  return n <= 1 ? 1 : n * factorial(n - 1)
}
