/** Values as colours along a ramp: spread evenly between two values, by their histogram, or in bands. */
import { rampLookup } from './ramps'
import type { RampName } from './ramp-tables'
import { placeAmong, placeInStretch } from './stretch'

export interface Scale {
  readonly ramp: RampName
  /** Values at the ramp's two ends. */
  readonly stretch: readonly [from: number, to: number]
  /** Percentiles 0 to 100: each colour then covers the same part of the values; null for even steps. */
  readonly percentiles: Float64Array | null
  /** Levels, ascending, between which a value has the one colour of its band; absent for none. */
  readonly levels?: readonly number[]
}

/** Where a value stands on a scale, 0 to 1; NaN for NaN. */
export function placeOnScale(value: number, { stretch, percentiles, levels }: Scale): number {
  if (levels && levels.length > 0) return placeOfBand(value, levels)
  return percentiles ? placeAmong(value, percentiles) : placeInStretch(value, stretch)
}

/** Bands stand evenly along the ramp, the lowest and the highest at its ends; a level is of the upper. */
function placeOfBand(value: number, levels: readonly number[]): number {
  if (Number.isNaN(value)) return NaN
  let band = 0
  while (band < levels.length && value >= levels[band]) band++
  return band / levels.length
}

/** Values as RGBA; NaN is clear. */
export function paint(values: Float32Array, scale: Scale): Uint8ClampedArray<ArrayBuffer> {
  const lookup = rampLookup(scale.ramp, 256)
  const pixels = new Uint8ClampedArray(4 * values.length)
  for (let i = 0; i < values.length; i++) {
    const t = placeOnScale(values[i], scale)
    if (Number.isNaN(t)) continue
    const entry = 3 * Math.round(t * 255)
    pixels[4 * i] = lookup[entry]
    pixels[4 * i + 1] = lookup[entry + 1]
    pixels[4 * i + 2] = lookup[entry + 2]
    pixels[4 * i + 3] = 255
  }
  return pixels
}
