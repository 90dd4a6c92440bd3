/** A surface as coloured pixels, and what its colours mean. */
import { rampLookup } from '../../colour/ramps'
import type { RampName } from '../../colour/ramp-tables'
import { percentileStretch, placeInStretch } from '../../colour/stretch'
import type { SurfaceResult } from '../../project/results'
import { givesChance } from '../../surfaces/model'

export interface SurfaceScale {
  readonly ramp: RampName
  /** Values at the ramp's two ends, in the surface's unit. */
  readonly stretch: readonly [from: number, to: number]
  readonly unit: string
}

/** Standard error at each node: the root of the variance. */
export function standardErrors(variance: Float64Array): Float64Array {
  return variance.map((value) => Math.sqrt(Math.max(0, value)))
}

/** The band that is shown: the estimate, or its standard error, or a class's doubt. */
export function shownBand(surface: SurfaceResult, uncertainty: boolean): Float64Array | null {
  if (!surface.bands) return null
  if (!uncertainty) return surface.bands.estimate
  if (surface.likeliest) return surface.likeliest.doubt
  return surface.bands.variance ? standardErrors(surface.bands.variance) : null
}

/**
 * The scale of a surface: probabilities and doubts from 0 to 1, everything else between its 2nd and
 * 98th percentile; null for classes, which have colours of their own.
 */
export function surfaceScale(surface: SurfaceResult, uncertainty: boolean): SurfaceScale | null {
  const band = shownBand(surface, uncertainty)
  if (!band) return null
  if (surface.likeliest) return uncertainty ? { ramp: 'oslo', stretch: [0, 1], unit: '' } : null
  const probability = givesChance(surface.rule.method)
  const stretch = probability && !uncertainty ? ([0, 1] as const) : percentileStretch(band)
  if (!stretch) return null
  return {
    ramp: uncertainty ? 'oslo' : probability ? 'cividis' : 'batlow',
    stretch,
    unit: surface.unit,
  }
}

/** Values as RGBA; NaN is clear. */
export function paint(
  values: Float32Array,
  { ramp, stretch }: SurfaceScale,
): Uint8ClampedArray<ArrayBuffer> {
  const lookup = rampLookup(ramp, 256)
  const pixels = new Uint8ClampedArray(4 * values.length)
  for (let i = 0; i < values.length; i++) {
    const t = placeInStretch(values[i], stretch)
    if (Number.isNaN(t)) continue
    const entry = 3 * Math.round(t * 255)
    pixels[4 * i] = lookup[entry]
    pixels[4 * i + 1] = lookup[entry + 1]
    pixels[4 * i + 2] = lookup[entry + 2]
    pixels[4 * i + 3] = 255
  }
  return pixels
}
