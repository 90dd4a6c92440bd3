/** How noisy a record is, from what in it is too sharp to be mineral. */
import { onceAnAxis } from './once-an-axis'
import { selectRank } from './select'
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
/** What they make of a channel's standard deviation: the root of the weights' squares. */
const GROWTH = Math.sqrt(70)
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
 * 4 nm apart, and over 400 nm), not off their mean square: absorptions and detector steps make a
 * few large ones and leave that quantile nearly alone. Where absorptions are sharp on coarse channels it errs to the high side.
 *
 * @param at nm
 * @returns null where too few channels have values there
 */
export function estimateNoise(spectrum: Spectrum, at = 2200): number | null {
  const { wavelengths, reflectance: y } = spectrum
  const { lag, begins, quiet } = differencesOf(wavelengths, at)
  if (sizes.length < begins.length) sizes = new Float64Array(2 * begins.length)
  let count = 0
  for (const i of begins) {
    const difference =
      y[i] - 4 * y[i + lag] + 6 * y[i + 2 * lag] - 4 * y[i + 3 * lag] + y[i + 4 * lag]
    if (!Number.isNaN(difference)) sizes[count++] = Math.abs(difference) / GROWTH
  }
  if (count < LEAST_DIFFERENCES) return null
  const rank = quiet.part * (count - 1)
  const low = Math.floor(rank)
  const lower = selectRank(sizes, low, 0, count)
  let upper = low + 1 < count ? Infinity : lower
  for (let i = low + 1; i < count; i++) upper = Math.min(upper, sizes[i])
  return (lower + (rank - low) * (upper - lower)) / quiet.below
}

/** Sizes of differences under way; kept, so that a scan leaves no garbage behind. */
let sizes = new Float64Array(512)

/** The fourth differences that are taken about a wavelength. */
interface Differences {
  /** Channels between two of a difference. */
  readonly lag: number
  /** The channels at which differences begin. */
  readonly begins: Int32Array
  readonly quiet: typeof QUIET
}

const differencesOf = onceAnAxis((x, at: number): Differences => {
  const near = spacingWithin(x, at, REACH)
  const [reach, quiet] = near > COARSE ? [COARSE_REACH, COARSE_QUIET] : [REACH, QUIET]
  const [start, end] = channelRange(x, at - reach, at + reach)
  const spacing = (x[end - 1] - x[start]) / (end - start - 1)
  const lag = Math.max(1, Math.ceil(CORRELATED / spacing - 0.01))
  const begins: number[] = []
  for (let i = start; i + 4 * lag < end; i++) if (isEven(x, i, lag)) begins.push(i)
  return { lag, begins: Int32Array.from(begins), quiet }
})

/** Mean spacing of the channels within reach of a wavelength, nm; NaN for fewer than two. */
function spacingWithin(x: Float64Array, at: number, reach: number): number {
  const [start, end] = channelRange(x, at - reach, at + reach)
  return (x[end - 1] - x[start]) / (end - start - 1)
}

/** Whether a difference's channels are evenly spaced: elsewhere the stencil is none. */
function isEven(x: Float64Array, begin: number, lag: number): boolean {
  const step = (x[begin + 4 * lag] - x[begin]) / 4
  return STENCIL.every((_, k) => Math.abs(x[begin + k * lag] - x[begin] - k * step) <= 0.1 * step)
}
