/** Leaves read off one spectrum, each absorption measured once whatever is asked of it. */
import {
  measureFeature,
  NOISE_LENGTH,
  type Feature,
  type FeatureResult,
  type WavelengthRange,
} from '../spectra/feature'
import { standardError } from '../spectra/propagation'
import { channelRange, type Spectrum } from '../spectra/spectrum'
import type { FeatureQuantity } from './functions'
import type { FeatureLeaf, SpectralLeaf } from './leaves'
import type { Measured, Missing } from './rule'

/**
 * What each leaf measures on a spectrum, in the leaves' order.
 *
 * @param noise one standard deviation of reflectance noise (fraction); null where it is not
 *   known, and then no leaf has an error
 */
export function measureLeaves(
  leaves: readonly SpectralLeaf[],
  spectrum: Spectrum,
  noise: number | null,
): Measured[] {
  const features = new Map<string, FeatureResult>()
  return leaves.map((leaf) => {
    switch (leaf.kind) {
      case 'feature':
        return readFeature(leaf, spectrum, noise, features)
      case 'channels':
        return leaf.quantity === 'mean'
          ? meanOver(spectrum, leaf.range, noise)
          : slopeOver(spectrum, leaf.range, noise)
      case 'reflectance':
        return reflectanceAt(spectrum, leaf.nm, noise)
    }
  })
}

function readFeature(
  leaf: FeatureLeaf,
  spectrum: Spectrum,
  noise: number | null,
  measured: Map<string, FeatureResult>,
): Measured {
  const identity = [...leaf.search, ...leaf.hull].join(' ')
  let feature = measured.get(identity)
  if (!feature) {
    feature = measureFeature(spectrum, leaf.search, leaf.hull, noise)
    measured.set(identity, feature)
  }
  if ('missing' in feature) return missing(feature.missing)
  return { value: feature[leaf.quantity], error: feature[ERROR_OF[leaf.quantity]] }
}

const ERROR_OF: Readonly<
  Record<FeatureQuantity, Extract<keyof Feature, `${FeatureQuantity}Error`>>
> = {
  position: 'positionError',
  depth: 'depthError',
  width: 'widthError',
  area: 'areaError',
  asymmetry: 'asymmetryError',
}

/**
 * Reflectance at a wavelength, on the straight line between the channels on either side.
 * Its error is a channel's: neighbours are not independent measurements.
 */
function reflectanceAt(spectrum: Spectrum, nm: number, noise: number | null): Measured {
  const { wavelengths, reflectance } = spectrum
  const [right] = channelRange(wavelengths, nm, Infinity)
  if (right === wavelengths.length) return missing('gap in channels')
  if (wavelengths[right] === nm) return found(reflectance[right], noise)
  if (right === 0) return missing('gap in channels')
  const t = (nm - wavelengths[right - 1]) / (wavelengths[right] - wavelengths[right - 1])
  return found(reflectance[right - 1] * (1 - t) + reflectance[right] * t, noise)
}

/** The mean of the channels in a range. */
function meanOver(spectrum: Spectrum, range: WavelengthRange, noise: number | null): Measured {
  const part = channelsIn(spectrum, range)
  if (!part) return missing('gap in channels')
  const { x, y } = part
  const weight = 1 / x.length
  return weighted(x, y, new Float64Array(x.length).fill(weight), noise)
}

/** The least-squares slope of the channels in a range, per 1000 nm. */
function slopeOver(spectrum: Spectrum, range: WavelengthRange, noise: number | null): Measured {
  const part = channelsIn(spectrum, range)
  if (!part || part.x.length < 2) return missing('gap in channels')
  const { x, y } = part
  const centre = x.reduce((sum, nm) => sum + nm, 0) / x.length
  const spread = x.reduce((sum, nm) => sum + (nm - centre) ** 2, 0)
  return weighted(
    x,
    y,
    x.map((nm) => (1000 * (nm - centre)) / spread),
    noise,
  )
}

/** A weighted sum of channels, with the error that correlated channel noise gives it. */
function weighted(
  x: Float64Array,
  y: Float64Array,
  weights: Float64Array,
  noise: number | null,
): Measured {
  const value = y.reduce((sum, reflectance, i) => sum + reflectance * weights[i], 0)
  return found(value, noise === null ? null : standardError(x, weights, noise, NOISE_LENGTH))
}

/** Channels with a value from ≤ λ ≤ to; null where over half are gaps or none is there. */
function channelsIn(
  { wavelengths, reflectance }: Spectrum,
  [from, to]: WavelengthRange,
): { x: Float64Array; y: Float64Array } | null {
  const [start, end] = channelRange(wavelengths, from, to)
  if (start === end || leavesRange(wavelengths, from, to)) return null
  const x = new Float64Array(end - start)
  const y = new Float64Array(end - start)
  let count = 0
  for (let channel = start; channel < end; channel++) {
    if (!Number.isFinite(reflectance[channel])) continue
    x[count] = wavelengths[channel]
    y[count++] = reflectance[channel]
  }
  if (count * 2 < end - start) return null
  return { x: x.subarray(0, count), y: y.subarray(0, count) }
}

/** Whether a range reaches beyond the axis by more than the axis' own spacing there. */
function leavesRange(wavelengths: Float64Array, from: number, to: number): boolean {
  const last = wavelengths.length - 1
  if (last < 1) return true
  const before = wavelengths[1] - wavelengths[0]
  const after = wavelengths[last] - wavelengths[last - 1]
  return wavelengths[0] - from > before || to - wavelengths[last] > after
}

function found(value: number, error: number | null): Measured {
  return Number.isFinite(value) ? { value, error } : missing('gap in channels')
}

function missing(reason: Missing): Measured {
  return { value: null, error: null, missing: reason }
}
