/** A check rock, scanned each morning, against its own history. */
import { resample } from '../spectra/resample'
import { channelRange, type Spectrum } from '../spectra/spectrum'
import type { CheckLimits } from './limits'
import type { Reason } from './verdict'

/** How a scan of the check rock differs from the median of its earlier ones. */
export interface RockComparison {
  /** Median ratio less 1: brightness. */
  readonly level: number
  /** Largest departure of a 25-channel mean of the ratio from its median: shape. */
  readonly shape: number
  /** nm, where that departure is. */
  readonly at: number
  /** One standard deviation of `level` and of `shape` among the earlier scans; null for under 3. */
  readonly usualLevel: number | null
  readonly usualShape: number | null
}

/** What is compared, nm: without the noisy ends. */
const COMPARED = [420, 2400] as const
const MEAN_CHANNELS = 25
/** Fewer earlier scans than this tell no spread. */
const LEAST_HISTORY = 3

/**
 * Compares a scan with earlier scans of the same rock, put on its axis.
 *
 * @returns null without history, or where they share no channels
 */
export function compareWithHistory(
  scan: Spectrum,
  history: readonly Spectrum[],
): RockComparison | null {
  if (history.length === 0) return null
  const [start, end] = channelRange(scan.wavelengths, ...COMPARED)
  const axis = scan.wavelengths.slice(start, end)
  const earlier = history.map((spectrum) => resample(spectrum, axis).reflectance)
  const today = Float64Array.from(scan.reflectance.subarray(start, end))
  const difference = differenceOf(today, earlier, axis)
  if (difference === null) return null
  const others = earlier.map((one, i) =>
    differenceOf(
      one,
      earlier.filter((_, k) => k !== i),
      axis,
    ),
  )
  const spread = (read: 'level' | 'shape'): number | null => {
    const known = others.flatMap((other) => (other === null ? [] : [other[read]]))
    if (known.length < LEAST_HISTORY) return null
    return Math.sqrt(known.reduce((sum, value) => sum + value * value, 0) / known.length)
  }
  return { ...difference, usualLevel: spread('level'), usualShape: spread('shape') }
}

/**
 * What a comparison gives reason to doubt. A limit gives way to three times the history's own
 * spread where that is larger: some rocks are never laid under the probe twice alike.
 */
export function checkRockReasons(comparison: RockComparison, limits: CheckLimits): Reason[] {
  const { level, shape, at, usualLevel, usualShape } = comparison
  const reasons: Reason[] = []
  const levelLimit = Math.max(limits.checkRockLevel, 3 * (usualLevel ?? 0))
  if (Math.abs(level) > levelLimit) {
    const words = `The check rock is ${(100 * level).toFixed(1)} % off its usual brightness: clean the probe’s glass and the panel, take a new white reference, and scan it again.`
    reasons.push({ reason: 'check rock level', measure: level, limit: levelLimit, unit: '', words })
  }
  const shapeLimit = Math.max(limits.checkRockShape, 3 * (usualShape ?? 0))
  if (shape > shapeLimit) {
    const words = `The check rock’s spectrum departs by ${(100 * shape).toFixed(1)} % from its usual course near ${at.toFixed(0)} nm: let the instrument warm up, take a new white reference, and scan it again before the day’s first station.`
    reasons.push({ reason: 'check rock shape', measure: shape, limit: shapeLimit, unit: '', words })
  }
  return reasons
}

function differenceOf(
  today: Float32Array | Float64Array,
  earlier: readonly (Float32Array | Float64Array)[],
  axis: Float64Array,
): { level: number; shape: number; at: number } | null {
  if (earlier.length === 0) return null
  const ratios: number[] = []
  const places: number[] = []
  for (let i = 0; i + MEAN_CHANNELS <= today.length; i += MEAN_CHANNELS) {
    const usual = median(earlier.map((one) => meanOf(one, i)))
    const ratio = meanOf(today, i) / usual
    if (!Number.isFinite(ratio)) continue
    ratios.push(ratio)
    places.push(axis[i + (MEAN_CHANNELS >> 1)])
  }
  if (ratios.length === 0) return null
  const middle = median(ratios)
  let worst = 0
  ratios.forEach((ratio, i) => {
    if (Math.abs(ratio / middle - 1) > Math.abs(ratios[worst] / middle - 1)) worst = i
  })
  return { level: middle - 1, shape: Math.abs(ratios[worst] / middle - 1), at: places[worst] }
}

function meanOf(values: Float32Array | Float64Array, start: number): number {
  let sum = 0
  for (let i = start; i < start + MEAN_CHANNELS; i++) sum += values[i]
  return sum / MEAN_CHANNELS
}

function median(values: readonly number[]): number {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort((a, b) => a - b)
  const middle = sorted.length >> 1
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2
}
