/** Where a sampled curve is lowest, finer than its channels. */
import { fitPolynomial, horner, leastSquaresWeights } from './polynomial'
import { channelRange } from './spectrum'

/** Channels this near to the lowest one take part in the cubic, nm. */
export const CUBIC_REACH = 12
/** Fewer channels than this and the parabola stands in for the cubic. */
const CUBIC_CHANNELS = 7
/** Channels this near to the refined position take part in the depth, nm. */
const LEVEL_REACH = 4
const LEVEL_CHANNELS = 5

/** How far the windows are moved to see what their place does to the position, channels. */
const PULL_CHANNELS = 3

/** d position / d window's centre, nm a nm, and how it answers to channel `start + i`. */
export interface Pull {
  readonly pull: number
  readonly gradient: Float64Array
  readonly start: number
}

/** A gradient that is worked out when it is asked for: few callers want errors. */
type Gradient = () => Float64Array

/** A minimum, with how each of its two numbers answers to the channels. */
export interface Minimum {
  readonly method: 'cubic' | 'parabola'
  /** nm */
  readonly position: number
  /** The curve's value at `position`. */
  readonly level: number
  /** Second derivative of the curve there, a nm². */
  readonly curvature: number
  /** null for a parabola, which has no window, and where it was not asked for. */
  readonly windowPull: Pull | null
  /** d position / d value, nm a unit, of channel `positionStart + i`. */
  readonly positionGradient: Gradient
  readonly positionStart: number
  /** d level / d value of channel `levelStart + i` (the position held, for the slope there is 0). */
  readonly levelGradient: Gradient
  readonly levelStart: number
}

/**
 * Refines the minimum of a curve about its lowest channel: by a least-squares cubic over the
 * channels within 12 nm of it where there are seven or more, else by the parabola through it
 * and its two neighbours, whose spacing may be unequal. The level is a least-squares parabola's
 * over the channels within 4 nm, for a cubic over 24 nm is too stiff to reach the floor of a
 * narrow absorption.
 *
 * @param x nm, strictly ascending
 * @param lowest an interior channel that is not above its neighbours
 * @param withPull whether the window's pull is wanted too; it costs two fits more
 * @returns null where neither curve has a minimum within its channels
 */
export function refineMinimum(
  x: Float64Array,
  y: Float64Array,
  lowest: number,
  withPull = true,
): Minimum | null {
  const [start, end] = within(x, x[lowest], CUBIC_REACH)
  const cubic =
    end - start >= CUBIC_CHANNELS ? fitMinimum(x, y, start, end, x[lowest], 'cubic') : null
  const found = cubic ?? fitMinimum(x, y, lowest - 1, lowest + 2, x[lowest], 'parabola')
  if (found === null) return null
  const windowPull = withPull && found.method === 'cubic' ? pullOfWindow(x, y, lowest) : null
  const [low, high] = within(x, found.position, LEVEL_REACH)
  if (high - low < LEVEL_CHANNELS) return { ...found, windowPull }
  const offsets = offsetsFrom(x, low, high, found.position, LEVEL_REACH)
  const weights = leastSquaresWeights(offsets, [1, 0, 0])
  if (weights === null) return { ...found, windowPull }
  let level = 0
  for (let i = 0; i < weights.length; i++) level += weights[i] * y[low + i]
  return { ...found, windowPull, level, levelGradient: () => weights, levelStart: low }
}

/**
 * How far a cubic's position follows its window, nm a nm: the fit three channels up against that
 * three channels down. A cubic over 24 nm cannot follow a narrow absorption, so the window's
 * place, which noise in the lowest channel decides, shows in the position.
 */
function pullOfWindow(x: Float64Array, y: Float64Array, lowest: number): Pull | null {
  const down = Math.max(0, lowest - PULL_CHANNELS)
  const up = Math.min(x.length - 1, lowest + PULL_CHANNELS)
  const [before, after] = [down, up].map((centre) => {
    const [start, end] = within(x, x[centre], CUBIC_REACH)
    return end - start < CUBIC_CHANNELS ? null : fitMinimum(x, y, start, end, x[centre], 'cubic')
  })
  if (!before || !after) return null
  const span = x[up] - x[down]
  const start = before.positionStart
  const [lower, upper] = [before.positionGradient(), after.positionGradient()]
  const shift = after.positionStart - start
  const gradient = new Float64Array(shift + upper.length)
  lower.forEach((weight, i) => (gradient[i] -= weight / span))
  upper.forEach((weight, i) => (gradient[i + shift] += weight / span))
  return { pull: (after.position - before.position) / span, gradient, start }
}

function fitMinimum(
  x: Float64Array,
  y: Float64Array,
  start: number,
  end: number,
  centre: number,
  method: 'cubic' | 'parabola',
): Minimum | null {
  const scale = Math.max(centre - x[start], x[end - 1] - centre)
  const offsets = offsetsFrom(x, start, end, centre, scale)
  const c = fitPolynomial(offsets, y.subarray(start, end), method === 'cubic' ? 3 : 2)
  const u = c === null ? null : lowestPoint(c)
  if (c === null || u === null || u < offsets[0] || u > offsets[offsets.length - 1]) return null
  const cubicTerm = c[3] ?? 0
  const curvature = 2 * c[2] + 6 * cubicTerm * u
  const weightsOf = (functional: readonly number[]): Float64Array => {
    const weights = leastSquaresWeights(offsets, functional)
    if (weights === null) throw new RangeError('a polynomial that was fitted has no weights')
    return weights
  }
  return {
    method,
    position: centre + u * scale,
    level: horner(c, u),
    curvature: curvature / (scale * scale),
    windowPull: null,
    // The minimum moves by -δ(slope) / curvature.
    positionGradient: () =>
      weightsOf(c.map((_, k) => (k === 0 ? 0 : k * u ** (k - 1)))).map(
        (weight) => (-weight / curvature) * scale,
      ),
    positionStart: start,
    levelGradient: () => weightsOf(c.map((_, k) => u ** k)),
    levelStart: start,
  }
}

/** Where a polynomial of degree 2 or 3 has its minimum, or null where it has none. */
function lowestPoint(c: readonly number[]): number | null {
  const a = 3 * (c[3] ?? 0)
  const b = 2 * c[2]
  const square = b * b - 4 * a * c[1]
  if (!(square > 0)) return null
  // The root at which the curve turns upward, in the form that loses no digits for small a.
  const root = Math.sqrt(square)
  return b >= 0 ? (-2 * c[1]) / (b + root) : (root - b) / (2 * a)
}

/** `[start, end)` of the channels within `reach` nm of `centre`. */
function within(x: Float64Array, centre: number, reach: number): [start: number, end: number] {
  return channelRange(x, centre - reach, centre + reach)
}

function offsetsFrom(
  x: Float64Array,
  start: number,
  end: number,
  centre: number,
  scale: number,
): Float64Array {
  const offsets = new Float64Array(end - start)
  for (let i = start; i < end; i++) offsets[i - start] = (x[i] - centre) / scale
  return offsets
}
