/** Width and lobes of an absorption on continuum-removed reflectance. */
import type { ContinuumRemoved } from './hull'
import type { Minimum } from './minimum'

export interface Width {
  /** Full width at half depth, nm. */
  readonly width: number
  /** d width / d removed, one a channel. */
  readonly gradient: Float64Array
}

/** The areas between the curve and 1 on either side of the minimum, nm. */
export interface Lobes {
  readonly left: number
  readonly right: number
  readonly leftGradient: Float64Array
  readonly rightGradient: Float64Array
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
  const right = x.findIndex((value) => value > minimum.position)
  if (right < 1 || !(y[right] < half || y[right - 1] < half)) return null
  const upper = crossing(x, y, half, y[right] < half ? right : right - 1, 1)
  const lower = crossing(x, y, half, y[right - 1] < half ? right - 1 : right, -1)
  if (upper === null || lower === null) return null
  const upperSlope = flankSlope(x, y, upper, (upper.at - minimum.position) / 3)
  const lowerSlope = flankSlope(x, y, lower, (minimum.position - lower.at) / 3)
  const gradient = new Float64Array(x.length)
  // A crossing moves by (δhalf - δcurve) / slope, and the half level by half of the level's δ.
  const levelWeight = 0.5 / upperSlope - 0.5 / lowerSlope
  minimum.levelGradient.forEach((weight, i) => {
    gradient[minimum.levelStart + i] += weight * levelWeight
  })
  for (const [edge, slope] of [
    [upper, -upperSlope],
    [lower, lowerSlope],
  ] as const) {
    gradient[edge.channel] += (1 - edge.t) / slope
    gradient[edge.channel + 1] += edge.t / slope
  }
  return { width: upper.at - lower.at, gradient }
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
  const leftGradient = new Float64Array(x.length)
  const rightGradient = new Float64Array(x.length)
  let left = 0
  let right = 0
  for (let i = 0; i + 1 < x.length; i++) {
    const span = x[i + 1] - x[i]
    const cut = Math.min(1, Math.max(0, (position - x[i]) / span))
    const before = trapezium(cut, span)
    const after = [span / 2 - before[0], span / 2 - before[1]]
    left += before[0] * (1 - y[i]) + before[1] * (1 - y[i + 1])
    right += after[0] * (1 - y[i]) + after[1] * (1 - y[i + 1])
    for (const side of [0, 1] as const) {
      leftGradient[i + side] -= before[side]
      rightGradient[i + side] -= after[side]
    }
  }
  return { left, right, leftGradient, rightGradient }
}

/** Weights of an interval's two ends in the area of its first `cut` part. */
function trapezium(cut: number, span: number): [first: number, second: number] {
  const second = (cut * cut * span) / 2
  return [cut * span - second, second]
}
