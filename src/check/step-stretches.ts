/** What measuring a step takes from the wavelengths alone: worked out once an axis. */
import { onceAnAxis } from '../spectra/once-an-axis'
import { leastSquaresWeights, orthonormalPolynomials, takeOff } from '../spectra/polynomial'
import { channelRange } from '../spectra/spectrum'

/**
 * Stretches over which a step is measured, half their length in nm, and the degree of the
 * polynomial that stands for the rock's own course there. Long ones beat noise, short ones the
 * flanks of absorptions; what each leaves over says which it is to be.
 */
export const STRETCHES: readonly StretchKind[] = [
  { reach: 50, degree: 3 },
  { reach: 30, degree: 3 },
  { reach: 20, degree: 3 },
  { reach: 30, degree: 5 },
  { reach: 12, degree: 2 },
  { reach: 8, degree: 2 },
  { reach: 5, degree: 3, least: 10, noisePart: 1 },
]

interface StretchKind {
  /** nm either way. */
  readonly reach: number
  readonly degree: number
  /** Fewer channels than this tell nothing; 14 unless told. */
  readonly least?: number
  /** It is not believed to leave less over than this part of the noise; 0.7 unless told. */
  readonly noisePart?: number
}

const LEAST_CHANNELS = 14
/**
 * What a short stretch leaves over may by chance be less than the noise, which itself may be
 * overestimated beside sharp absorptions.
 */
const NOISE_PART = 0.7
/** Channels on either side that are averaged to see how sudden the change is. */
const SUDDEN_CHANNELS = 3
/** Channels on either side that tell the slope there. */
const SLOPE_CHANNELS = 8

/** A stretch about a suspected step. */
export interface Stretch {
  /** Its first channel; it has as many as `unit`. */
  readonly start: number
  /** The channel below the step. */
  readonly channel: number
  /** Between that channel and the next, nm. */
  readonly position: number
  /** Orthonormal over the stretch; they stand for the rock's own course. */
  readonly polynomials: readonly Float64Array[]
  /** What they leave of a step of 1, and its sum of squares. */
  readonly unit: Float64Array
  readonly weight: number
  /** Weights of channels from `suddenStart` on in the sudden change at the step. */
  readonly sudden: Float64Array
  readonly suddenStart: number
  /** It is not believed to leave less over than this part of the noise. */
  readonly noisePart: number
}

/**
 * The stretch of `STRETCHES` about the step after a channel; null where it has too few channels
 * to tell anything.
 */
export function stretchAbout(
  wavelengths: Float64Array,
  channel: number,
  stretch: number,
): Stretch | null {
  // Before the first channel lies none: the record begins beyond the place.
  return channel < 0 ? null : stretchOf(wavelengths, channel * STRETCHES.length + stretch)
}

const stretchOf = onceAnAxis((wavelengths, key: number): Stretch | null => {
  const channel = Math.floor(key / STRETCHES.length)
  const {
    reach,
    degree,
    least = LEAST_CHANNELS,
    noisePart = NOISE_PART,
  } = STRETCHES[key % STRETCHES.length]
  const position = (wavelengths[channel] + wavelengths[channel + 1]) / 2
  const [start, end] = channelRange(wavelengths, position - reach, position + reach)
  const count = end - start
  const side = least / 2
  if (count < least || channel - start < side - 1 || end - channel < side + 1) return null
  const x = wavelengths.slice(start, end).map((nm) => (nm - position) / reach)
  const polynomials = orthonormalPolynomials(x, degree)
  if (polynomials === null) return null
  const unit = x.map((u) => (u > 0 ? 1 : 0))
  for (const polynomial of polynomials) takeOff(unit, polynomial)
  const weight = unit.reduce((sum, value) => sum + value * value, 0)
  const sudden = suddenWeights(x, channel - start)
  return {
    start,
    channel,
    position,
    polynomials,
    unit,
    weight,
    sudden: sudden.weights,
    suddenStart: start + sudden.first,
    noisePart,
  }
})

/**
 * The change over three channels either way, less the mean slope of the lines through eight on
 * each side, as weights of the channels.
 */
function suddenWeights(
  x: Float64Array,
  channel: number,
): { readonly weights: Float64Array; readonly first: number } {
  const first = Math.max(0, channel + 1 - SLOPE_CHANNELS)
  const end = Math.min(x.length, channel + 1 + SLOPE_CHANNELS)
  const weights = new Float64Array(end - first)
  let spans = 0
  for (let k = 0; k < SUDDEN_CHANNELS; k++) {
    const [low, high] = [channel - k, channel + 1 + k]
    weights[high - first] += 1 / SUDDEN_CHANNELS
    weights[low - first] -= 1 / SUDDEN_CHANNELS
    spans += (x[high] - x[low]) / SUDDEN_CHANNELS
  }
  for (const [from, to] of [
    [first, channel + 1],
    [channel + 1, end],
  ]) {
    const slope = leastSquaresWeights(x.subarray(from, to), [0, 1])
    for (let i = from; i < to; i++) weights[i - first] -= (spans / 2) * (slope?.[i - from] ?? NaN)
  }
  return { weights, first }
}
