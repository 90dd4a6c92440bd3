/** Width and lobes of an absorption on continuum-removed reflectance. */
import type { ContinuumRemoved } from './hull'
import type { Minimum } from './minimum'
import { channelRange } from './spectrum'

export interface Width {
  /** Full width at half depth, nm. */
  readonly width: number
  /** d width / d removed, one a channel; worked out when it is asked for. */
  readonly gradient: () => Float64Array
}

/** The areas between the curve and 1 on either side of the minimum, nm. */
export interface Lobes {
  readonly left: number
  readonly right: number
}

/** How they answer to continuum-removed reflectance, one a channel. */
export interface LobeGradients {
  readonly left: Float64Array
  readonly right: Float64Array
}

/**
 * Full width at half depth: from the minimum outward to where the curve, straight between
 * channels, first comes up to half the depth on either side.
 *
 * @returns null where the curve starts above half depth (the minimum is mere noise)
 */
export function halfDepthWidth(part: ContinuumRemoved, minimum: Minimum): Width | null {
  const { wavelengths: x, removed: y } = part
  const half = (1 + minimum.level) / 2
  const [, right] = channelRange(x, -Infinity, minimum.position)
  if (right < 1 || right === x.length || !(y[right] < half || y[right - 1] < half)) return null
  const upper = crossing(x, y, half, y[right] < half ? right : right - 1, 1)
  const lower = crossing(x, y, half, y[right - 1] < half ? right - 1 : right, -1)
  if (upper === null || lower === null) return null
  return {
    width: upper.at - lower.at,
    gradient: () => widthGradient(part, minimum, upper, lower),
  }
}

function widthGradient(
  { wavelengths: x, removed: y }: ContinuumRemoved,
  { position, levelGradient, levelStart }: Minimum,
  upper: Crossing,
  lower: Crossing,
): Float64Array {
  const upperSlope = flankSlope(x, y, upper, (upper.at - position) / 3)
  const lowerSlope = flankSlope(x, y, lower, (position - lower.at) / 3)
  const gradient = new Float64Array(x.length)
  // A crossing moves by (δhalf - δcurve) / slope, and the half level by half of the level's δ.
  const levelWeight = 0.5 / upperSlope - 0.5 / lowerSlope
  levelGradient().forEach((weight, i) => {
    gradient[levelStart + i] += weight * levelWeight
  })
  for (const [edge, slope] of [
    [upper, -upperSlope],
    [lower, lowerSlope],
  ] as const) {
    gradient[edge.channel] += (1 - edge.t) / slope
    gradient[edge.channel + 1] += edge.t / slope
  }
  return gradient
}

/** The curve's crossing of a level, the part `t` of the way from `channel` to the next. */
interface Crossing {
  readonly channel: number
  readonly t: number
  readonly at: number
}

function crossing(
  x: Float64Array,
  y: Float64Array,
  level: number,
  from: number,
  step: 1 | -1,
): Crossing | null {
  for (let i = from; i + step >= 0 && i + step < x.length; i += step) {
    if (y[i + step] < level) continue
    const channel = step === 1 ? i : i - 1
    const rise = y[channel + 1] - y[channel]
    const t = (level - y[channel]) / rise
    return { channel, t, at: x[channel] + t * (x[channel + 1] - x[channel]) }
  }
  return null
}

/** The slope a nm within `reach` nm of a crossing, so that noise in two channels does not rule it. */
function flankSlope(x: Float64Array, y: Float64Array, edge: Crossing, reach: number): number {
  let low = edge.channel
  while (low > 0 && x[low] > edge.at - reach) low--
  let high = edge.channel + 1
  while (high < x.length - 1 && x[high] < edge.at + reach) high++
  return (y[high] - y[low]) / (x[high] - x[low])
}

/** The areas on either side of `position`, by trapezia over all of `part`. */
export function lobeAreas(part: ContinuumRemoved, position: number): Lobes {
  const { wavelengths: x, removed: y } = part
  let left = 0
  let right = 0
  for (let i = 0; i + 1 < x.length; i++) {
    const span = x[i + 1] - x[i]
    const cut = cutOf(x, i, position)
    const second = (cut * cut * span) / 2
    const first = cut * span - second
    left += first * (1 - y[i]) + second * (1 - y[i + 1])
    right += (span / 2 - first) * (1 - y[i]) + (span / 2 - second) * (1 - y[i + 1])
  }
  return { left, right }
}

/** The gradients of these areas; `position` is held. */
export function lobeGradients(
  { wavelengths: x }: ContinuumRemoved,
  position: number,
): LobeGradients {
  const left = new Float64Array(x.length)
  const right = new Float64Array(x.length)
  for (let i = 0; i + 1 < x.length; i++) {
    const span = x[i + 1] - x[i]
    const cut = cutOf(x, i, position)
    const second = (cut * cut * span) / 2
    const first = cut * span - second
    left[i] -= first
    left[i + 1] -= second
    right[i] -= span / 2 - first
    right[i + 1] -= span / 2 - second
  }
  return { left, right }
}

/** The part of the interval after channel `i` that lies left of `position`, 0 to 1. */
function cutOf(x: Float64Array, i: number, position: number): number {
  return Math.min(1, Math.max(0, (position - x[i]) / (x[i + 1] - x[i])))
}
