/** Scales and ticks for plots. */
import { fixed } from '../numbers'

/** Maps values to pixels along one axis. */
export interface Scale {
  readonly from: number
  readonly to: number
  (value: number): number
}

/** A linear scale from a range of values to a range of pixels. */
export function linearScale(
  [from, to]: readonly [number, number],
  [start, end]: readonly [number, number],
): Scale {
  const slope = (end - start) / (to - from || 1)
  return Object.assign((value: number) => start + slope * (value - from), { from, to })
}

/**
 * Round values between two limits, about as many as asked: steps of 1, 2 or 5 times a power of ten.
 * None where the limits differ in less than the twelfth digit.
 */
export function ticks(from: number, to: number, about: number): number[] {
  if (!(to > from) || about < 1) return []
  const rough = (to - from) / about
  if (!(rough > 1e-12 * Math.max(Math.abs(from), Math.abs(to)))) return []
  const power = 10 ** Math.floor(Math.log10(rough))
  const step = [1, 2, 5, 10].map((m) => m * power).find((s) => s >= rough * 0.999) ?? 10 * power
  const list: number[] = []
  for (let k = Math.ceil(from / step - 1e-9); k * step <= to + step * 1e-9; k++) {
    list.push(Number((k * step).toPrecision(12)))
  }
  return list
}

/** Tick values as words, all with the decimals that the finest of them needs. */
export function tickWords(values: readonly number[]): string[] {
  const decimals = values.reduce((most, value) => Math.max(most, decimalsOf(value)), 0)
  return values.map((value) => fixed(value, decimals))
}

function decimalsOf(value: number): number {
  const [, digits = ''] = String(value).split('.')
  return digits.length
}

/**
 * An SVG path through points, broken where a value is a gap.
 *
 * @param thin at most this many points; the lowest and highest of each stretch are kept
 */
export function linePath(
  xs: ArrayLike<number>,
  ys: ArrayLike<number>,
  x: Scale,
  y: Scale,
  thin = 1200,
): string {
  const stride = Math.max(1, Math.floor((2 * xs.length) / thin))
  let path = ''
  let pen = false
  const point = (i: number) => {
    path += `${pen ? 'L' : 'M'}${x(xs[i]).toFixed(1)} ${y(ys[i]).toFixed(1)}`
    pen = true
  }
  for (let start = 0; start < xs.length; start += stride) {
    let low = -1
    let high = -1
    const end = Math.min(start + stride, xs.length)
    for (let i = start; i < end; i++) {
      if (Number.isNaN(ys[i])) {
        pen = false
        continue
      }
      if (low < 0 || ys[i] < ys[low]) low = i
      if (high < 0 || ys[i] > ys[high]) high = i
    }
    if (low < 0) continue
    point(Math.min(low, high))
    if (low !== high) point(Math.max(low, high))
  }
  return path
}

/** The least and greatest value in a range of channels, with a margin; NaN passed over. */
export function extent(
  values: readonly ArrayLike<number>[],
  margin = 0.06,
): readonly [number, number] {
  let low = Infinity
  let high = -Infinity
  for (const list of values) {
    for (let i = 0; i < list.length; i++) {
      if (list[i] < low) low = list[i]
      if (list[i] > high) high = list[i]
    }
  }
  if (!(high >= low)) return [0, 1]
  const pad = (high - low || Math.abs(high) || 1) * margin
  return [low - pad, high + pad]
}
