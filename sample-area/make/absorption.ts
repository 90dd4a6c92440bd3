/** Intimate mixing, and what part of the absorption each ingredient has. */
import { channelRange } from '../../src/spectra/spectrum'
import { upperHull } from '../../src/spectra/hull'
import { pureReflectance } from './end-members'
import { INGREDIENTS, type Ingredient, type Mixture } from './mixture'

/** Single-scattering albedo from the reflectance of a thick diffuse layer (Hapke 1981, JGR 86, 3039). */
function albedo(reflectance: number): number {
  return 1 - ((1 - reflectance) / (1 + reflectance)) ** 2
}

/** The reverse: r = (1 − γ)/(1 + γ) with γ = √(1 − w). */
function reflectanceOf(w: number): number {
  const gamma = Math.sqrt(1 - w)
  return (1 - gamma) / (1 + gamma)
}

/**
 * Reflectance of grains mixed closely: albedos weighed by parts. It is not linear in
 * reflectance nor in its logarithm, so it is harsher than what the identifier assumes.
 *
 * @returns fractions, one a wavelength (nm)
 */
export function mixedReflectance(mixture: Mixture, wavelengths: Float64Array): Float64Array {
  const sum = new Float64Array(wavelengths.length)
  for (const ingredient of INGREDIENTS) {
    const part = mixture.parts[ingredient] ?? 0
    if (part === 0) continue
    const pure = pureReflectance(ingredient, mixture, wavelengths)
    for (let i = 0; i < sum.length; i++) sum[i] += part * albedo(pure[i])
  }
  return sum.map(reflectanceOf)
}

/** Where hydroxyl, sulfate and carbonate absorb, and where iron does, nm; water's 1900 left out. */
const SWIR: readonly (readonly [number, number])[] = [
  [1340, 1560],
  [1700, 1830],
  [2080, 2450],
]
const IRON: readonly (readonly [number, number])[] = [[450, 1300]]
const IRON_OXIDES: readonly Ingredient[] = ['goethite', 'hematite', 'jarosite']
const SILENT: readonly Ingredient[] = ['host', 'sulfide']
/** Missing albedo, nm, under which the rock counts as showing nothing. */
const LEAST = 1.2

/** Each ingredient's part of the absorption, the largest first; empty where nothing shows. */
export function absorptionShares(
  mixture: Mixture,
  wavelengths: Float64Array,
): { ingredient: Ingredient; share: number }[] {
  const areas = INGREDIENTS.filter(
    (name) => !SILENT.includes(name) && (mixture.parts[name] ?? 0) > 0,
  ).map((ingredient) => ({
    ingredient,
    area: (mixture.parts[ingredient] ?? 0) * missingAlbedo(ingredient, mixture, wavelengths),
  }))
  const total = areas.reduce((sum, { area }) => sum + area, 0)
  if (total < LEAST) return []
  return areas
    .map(({ ingredient, area }) => ({ ingredient, share: area / total }))
    .sort((a, b) => b.share - a.share)
}

/** Area between a pure ingredient's albedo and its hull over the ranges that tell it, nm. */
function missingAlbedo(
  ingredient: Ingredient,
  mixture: Mixture,
  wavelengths: Float64Array,
): number {
  const w = pureReflectance(ingredient, mixture, wavelengths).map(albedo)
  const ranges = IRON_OXIDES.includes(ingredient) ? [...IRON, ...SWIR] : SWIR
  let area = 0
  for (const [from, to] of ranges) {
    const [start, end] = channelRange(wavelengths, from, to)
    const part = w.subarray(start, end)
    const hull = upperHull(wavelengths.subarray(start, end), part)
    const weight = ranges.length > SWIR.length && from < 1000 ? 0.2 : 1
    for (let i = 0; i < part.length; i++) area += weight * (hull[i] - part[i])
  }
  return area
}
