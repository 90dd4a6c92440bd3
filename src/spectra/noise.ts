/** How noisy a record is, from what in it is too sharp to be mineral. */
import { channelRange, type Spectrum } from './spectrum'

/** Half the stretch that is looked at about the asked wavelength, nm; more on coarse channels. */
const REACH = 150
const COARSE_REACH = 400
/** Channels further apart than this resolve few absorptions: fourth differences see them all, nm. */
const COARSE = 4
/** Channels nearer than this share detector elements, so differences are taken further apart, nm. */
const CORRELATED = 3
/** Fewer differences than this tell nothing. */
const LEAST_DIFFERENCES = 16
/** Fourth differences: blind to cubics, so to the flanks of absorptions. */
const STENCIL = [1, -4, 6, -4, 1] as const
/**
 * The part of the differences, the smallest first, that is taken for free of features, and below
 * what that part of the sizes of a standard normal variable lies; on fine and coarse channels.
 */
const QUIET = { part: 0.4, below: 0.5244 }
const COARSE_QUIET = { part: 0.2, below: 0.2533 }

/**
 * One standard deviation of reflectance noise (fraction) near a wavelength, from fourth
 * differences of channels at least 3 nm apart within 150 nm.
 *
 * The scale is read off at a low quantile of the differences' sizes (40 %; 20 % on channels over
 * 4 nm apart, and over 400 nm), not off their mean square: absorptions and detector steps make a few large ones and leave that quantile nearly
 * alone. Where absorptions are sharp on coarse channels it errs to the high side.
 *
 * @param at nm
 * @returns null where too few channels have values there
 */
export function estimateNoise(spectrum: Spectrum, at = 2200): number | null {
  const { wavelengths: x, reflectance: y } = spectrum
  const near = spacingWithin(x, at, REACH)
  const [reach, quiet] = near > COARSE ? [COARSE_REACH, COARSE_QUIET] : [REACH, QUIET]
  const [start, end] = channelRange(x, at - reach, at + reach)
  if (end - start < LEAST_DIFFERENCES) return null
  const spacing = (x[end - 1] - x[start]) / (end - start - 1)
  const lag = Math.max(1, Math.ceil(CORRELATED / spacing - 0.01))
  const sizes: number[] = []
  for (let i = start; i + 4 * lag < end; i++) {
    const size = differenceAt(x, y, i, lag)
    if (size !== null) sizes.push(size)
  }
  if (sizes.length < LEAST_DIFFERENCES) return null
  sizes.sort((a, b) => a - b)
  const rank = quiet.part * (sizes.length - 1)
  const low = Math.floor(rank)
  const quantile = sizes[low] + (rank - low) * ((sizes[low + 1] ?? sizes[low]) - sizes[low])
  return quantile / quiet.below
}

/** Mean spacing of the channels within reach of a wavelength, nm; NaN for fewer than two. */
function spacingWithin(x: Float64Array, at: number, reach: number): number {
  const [start, end] = channelRange(x, at - reach, at + reach)
  return (x[end - 1] - x[start]) / (end - start - 1)
}

/** Size of the fourth difference that begins at a channel, in standard deviations of a channel. */
function differenceAt(
  x: Float64Array,
  y: Float32Array | Float64Array,
  i: number,
  lag: number,
): number | null {
  const step = (x[i + 4 * lag] - x[i]) / 4
  let sum = 0
  let squares = 0
  for (let k = 0; k < STENCIL.length; k++) {
    const at = i + k * lag
    // On an uneven axis the stencil is no fourth difference.
    if (Math.abs(x[at] - x[i] - k * step) > 0.1 * step) return null
    sum += STENCIL[k] * y[at]
    squares += STENCIL[k] * STENCIL[k]
  }
  return Number.isNaN(sum) ? null : Math.abs(sum) / Math.sqrt(squares)
}
