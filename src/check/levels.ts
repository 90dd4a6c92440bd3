/** Levels that no rock has: over the panel, under nothing, stuck, or the panel itself. */
import { selectRank } from '../spectra/select'
import { channelRange, type Spectrum } from '../spectra/spectrum'

/** The stretch on which levels are judged, nm: the noisy ends are left out. */
const JUDGED: readonly [number, number] = [420, 2400]

export interface Levels {
  /** Median reflectance, 420–2400 nm. */
  readonly median: number
  /** The 2nd and 98th percentile of reflectance there, so that a few spikes do not count. */
  readonly low: number
  readonly high: number
  /** Largest departure of a 25-channel mean from the median, over the median. */
  readonly unevenness: number
  /** Largest less smallest 25-channel mean, over the median. */
  readonly range: number
  /** The longest run of channels with one and the same value, nm; see `flatRun`. */
  readonly flat: number
  /** Part of the channels that are gaps, 0 to 1. */
  readonly gaps: number
}

/** Channels in a mean that is compared with the median. */
const MEAN_CHANNELS = 25

/** Fewer values than this tell nothing. */
const LEAST_VALUES = 10

/** The values under way; kept, so that a scan leaves no garbage behind. */
let values = new Float64Array(2048)

/** Levels of a scan; null where it has fewer than ten values between 420 and 2400 nm. */
export function measureLevels(spectrum: Spectrum): Levels | null {
  const [start, end] = channelRange(spectrum.wavelengths, ...JUDGED)
  const part = spectrum.reflectance.subarray(start, end)
  if (values.length < part.length) values = new Float64Array(part.length)
  let count = 0
  for (const value of part) if (!Number.isNaN(value)) values[count++] = value
  if (count < LEAST_VALUES) return null
  const [lowest, middle, highest] = [0.02, 0.5, 0.98].map((part) => Math.round(part * (count - 1)))
  // The middle first: it parts the values, so that the other two are sought in a half each.
  const median = selectRank(values, middle, 0, count)
  return {
    median,
    low: selectRank(values, lowest, 0, middle + 1),
    high: selectRank(values, highest, middle, count),
    ...evenness(part, median),
    flat: flatRun(spectrum),
    gaps: 1 - count / part.length,
  }
}

function evenness(
  values: Float32Array | Float64Array,
  median: number,
): Pick<Levels, 'unevenness' | 'range'> {
  let lowest = Infinity
  let highest = -Infinity
  for (let i = 0; i + MEAN_CHANNELS <= values.length; i += MEAN_CHANNELS) {
    let sum = 0
    for (let k = i; k < i + MEAN_CHANNELS; k++) sum += values[k]
    const mean = sum / MEAN_CHANNELS
    if (mean < lowest) lowest = mean
    if (mean > highest) highest = mean
  }
  if (lowest > highest) return { unevenness: 0, range: 0 }
  return {
    unevenness: Math.max(Math.abs(lowest / median - 1), Math.abs(highest / median - 1)),
    range: (highest - lowest) / median,
  }
}

/** Runs of fewer channels than this come of rounding. */
const LEAST_RUN = 12

/**
 * The longest run of equal values, nm, ends aside where a record may be padded; 0 where none has
 * 12 channels. Noise and slope change every channel of a live detector; a run means that it was
 * saturated, or that the file was filled in.
 */
function flatRun({ wavelengths: x, reflectance: y }: Spectrum): number {
  let longest = 0
  let first = 0
  for (let i = 1; i <= y.length; i++) {
    if (i < y.length && y[i] === y[first]) continue
    if (i - first >= LEAST_RUN) longest = Math.max(longest, x[i - 1] - x[first])
    first = i
  }
  return longest
}
