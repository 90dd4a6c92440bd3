/** What a formula reads off a spectrum: the calls that need one, each under one key. */
import type { WavelengthRange } from '../spectra/feature'
import type { FeatureQuantity } from './functions'

/** Something read off an absorption. */
export interface FeatureLeaf {
  readonly kind: 'feature'
  readonly key: string
  readonly quantity: FeatureQuantity
  readonly search: WavelengthRange
  readonly hull: WavelengthRange
}

/** Something read off the channels of a range. */
export interface ChannelsLeaf {
  readonly kind: 'channels'
  readonly key: string
  readonly quantity: 'mean' | 'slope'
  readonly range: WavelengthRange
}

/** Reflectance at a wavelength. */
export interface ReflectanceLeaf {
  readonly kind: 'reflectance'
  readonly key: string
  /** nm */
  readonly nm: number
}

/** One number that a formula needs from a spectrum; equal keys mean the same number. */
export type SpectralLeaf = FeatureLeaf | ChannelsLeaf | ReflectanceLeaf

/** A feature's quantity; without a hull range the hull is taken over the search range. */
export function featureLeaf(
  quantity: FeatureQuantity,
  search: WavelengthRange,
  hull: WavelengthRange = search,
): FeatureLeaf {
  const key = `${quantity}(${[...search, ...hull].join(', ')})`
  return { kind: 'feature', key, quantity, search, hull }
}

/** The mean or slope of reflectance in a range. */
export function channelsLeaf(quantity: 'mean' | 'slope', range: WavelengthRange): ChannelsLeaf {
  return { kind: 'channels', key: `${quantity}(${range.join(', ')})`, quantity, range }
}

/** Reflectance at a wavelength in nm. */
export function reflectanceLeaf(nm: number): ReflectanceLeaf {
  return { kind: 'reflectance', key: `reflectance(${nm})`, nm }
}

/**
 * The leaves that compiled formulas need, each once, so that a spectrum is touched once
 * for all of them.
 *
 * @param needs anything compiled: a formula, an index set, classes
 */
export function spectralLeaves(
  ...needs: readonly { readonly leaves: readonly SpectralLeaf[] }[]
): SpectralLeaf[] {
  const byKey = new Map<string, SpectralLeaf>()
  for (const { leaves } of needs) for (const leaf of leaves) byKey.set(leaf.key, leaf)
  return [...byKey.values()]
}
