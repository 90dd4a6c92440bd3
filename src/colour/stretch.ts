/** From values to a ramp: where its ends stand, and round numbers for its legend. */

/**
 * The values between which a ramp is spread: two percentiles of the finite values, by
 * linear interpolation between order statistics (Hyndman and Fan 1996, Am. Stat. 50, 361,
 * type 7).
 *
 * @param low, high percentiles, 0 to 100
 * @returns null where no value is finite; both ends equal where all values are
 */
export function percentileStretch(
  values: ArrayLike<number>,
  low = 2,
  high = 98,
): [from: number, to: number] | null {
  const sorted = Float64Array.from(Array.from(values).filter(Number.isFinite)).sort()
  if (sorted.length === 0) return null
  return [percentile(sorted, low), percentile(sorted, high)]
}

/** Most values that percentiles are read from; of more, evenly spaced ones are taken. */
const MOST_SORTED = 262_144

/**
 * Percentiles 0, 1 … 100 of the finite values (type 7, as {@link percentileStretch}); of very many
 * values those of an even sample of them.
 *
 * @returns 101 numbers, ascending; null where no value is finite
 */
export function percentiles(values: Float32Array | Float64Array): Float64Array | null {
  const step = Math.ceil(values.length / MOST_SORTED)
  const sorted = new Float64Array(Math.ceil(values.length / Math.max(1, step)))
  let count = 0
  for (let i = 0; i < values.length; i += step)
    if (Number.isFinite(values[i])) sorted[count++] = values[i]
  if (count === 0) return null
  const kept = sorted.subarray(0, count).sort()
  return Float64Array.from({ length: 101 }, (_, percent) => percentile(kept, percent))
}

/**
 * The part of values below a value, 0 to 1, read between percentiles; the middle of its steps where
 * many values are alike. NaN for NaN.
 *
 * @param ascending percentiles 0 to 100
 */
export function placeAmong(value: number, ascending: Float64Array): number {
  if (Number.isNaN(value)) return NaN
  const steps = ascending.length - 1
  const below = lowerBound(ascending, value)
  let above = below
  while (above <= steps && ascending[above] === value) above++
  if (above > below) return (below + above - 1) / 2 / steps
  if (below === 0) return 0
  if (below > steps) return 1
  const [from, to] = [ascending[below - 1], ascending[below]]
  return (below - 1 + (value - from) / (to - from)) / steps
}

/** Index of the first number that is not below the value. */
function lowerBound(ascending: Float64Array, value: number): number {
  let low = 0
  let high = ascending.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (ascending[middle] < value) low = middle + 1
    else high = middle
  }
  return low
}

function percentile(sorted: Float64Array, percent: number): number {
  const place = (Math.min(100, Math.max(0, percent)) / 100) * (sorted.length - 1)
  const below = Math.floor(place)
  const above = Math.min(below + 1, sorted.length - 1)
  return sorted[below] + (place - below) * (sorted[above] - sorted[below])
}

/** Where a value stands in a stretch, 0 to 1; half way in an empty stretch, NaN for NaN. */
export function placeInStretch(value: number, [from, to]: readonly [number, number]): number {
  if (from === to) return Number.isNaN(value) ? NaN : 0.5
  return Math.min(1, Math.max(0, (value - from) / (to - from)))
}

/**
 * Round numbers for a legend or an axis: multiples of 1, 2 or 5 times a power of ten inside
 * a range, both ends included where they are multiples (Heckbert 1990, "Nice numbers for
 * graph labels", Graphics Gems).
 *
 * @param count about how many are wanted
 * @returns ascending; a single number where the range is empty; none where it is not finite
 */
export function niceBreaks(from: number, to: number, count = 5): number[] {
  if (!Number.isFinite(from) || !Number.isFinite(to)) return []
  if (from > to) return niceBreaks(to, from, count)
  if (from === to) return [from]
  const step = niceStep((to - from) / Math.max(1, count - 1))
  const first = Math.ceil(from / step - 1e-9)
  const last = Math.floor(to / step + 1e-9)
  const decimals = breakDecimals(step)
  const breaks: number[] = []
  for (let k = first; k <= last; k++) breaks.push(Number((k * step).toFixed(decimals)) + 0)
  return breaks
}

/** The step that {@link niceBreaks} takes: 1, 2 or 5 times a power of ten nearest to `rough`. */
function niceStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough))
  const part = rough / power
  if (part < 1.5) return power
  if (part < 3) return 2 * power
  return part < 7 ? 5 * power : 10 * power
}

/** Decimals that a multiple of a step needs, 0 to 20. */
export function breakDecimals(step: number): number {
  return Math.min(20, Math.max(0, Math.ceil(-Math.log10(step) - 1e-9)))
}
