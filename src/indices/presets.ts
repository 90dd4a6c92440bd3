/**
 * Indices ready to be taken into a recipe. Each is gated by the mineral that it speaks of,
 * for others absorb in the same place; `reading` gives what this program measures on named
 * records of the USGS Spectral Library Version 7 (Kokaly et al. 2017, doi:10.3133/ds1035),
 * as tests/indices/presets.test.ts checks.
 */
import { KAOLIN_AND_WATER } from './presets-clay'
import { IRON_AND_SALTS } from './presets-iron'
import { MICA_TO_EPIDOTE } from './presets-mica'
import type { IndexRule } from './rule'

/** An index with all that a geologist should know before leaning on it. */
export interface IndexPreset {
  /** Short and stable. */
  readonly id: string
  readonly name: string
  readonly formula: string
  /** Where it means anything. */
  readonly where: string
  /** Empty for a pure number. */
  readonly unit: string
  /** What long and short, high and low speak of. */
  readonly meaning: string
  /** Values to compare with. */
  readonly reading: string
  /** Range that a value usually falls in, in its unit: where a ramp may start and end. */
  readonly usual: readonly [from: number, to: number]
  readonly source: string
  /** Whether the source was written down without being at hand. */
  readonly fromMemory: boolean
  /** What leads it astray. */
  readonly caution: string
}

/** What holds for every index, to be shown with any of them. */
export const EVERY_INDEX =
  'An index is evidence for a geologist, not a temperature or an assay. A position means ' +
  "nothing where the depth is within the noise, mixed minerals move each other's minima, and " +
  'weathering, moisture, coatings and grain size change depth. Wavelength calibration differs ' +
  "by 0.5 to 1 nm between instruments and days; that error is shared by a day's scans and " +
  'does not average out.'

/** All presets, in the order in which they are offered. */
export const PRESETS: readonly IndexPreset[] = [
  ...MICA_TO_EPIDOTE,
  ...KAOLIN_AND_WATER,
  ...IRON_AND_SALTS,
]

/** The preset of an id, or undefined. */
export function presetOf(id: string): IndexPreset | undefined {
  return PRESETS.find((preset) => preset.id === id)
}

/** A preset as an entry of the recipe's `indices`. */
export function presetRule({ name, formula, unit, where }: IndexPreset): IndexRule {
  return { name, formula, unit, where }
}
