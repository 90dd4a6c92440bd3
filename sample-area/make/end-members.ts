/** Pure reflectance of each ingredient, from the project's own fitted references. */
import { modelReflectance } from '../../src/minerals/model'
import type { Reference } from '../../src/minerals/reference'
import { measureFeature } from '../../src/spectra/feature'
import type { Ingredient, Mixture } from './mixture'
import { HOST, referenceOf } from './references'

/** Where white mica's Al–OH minimum is sought, and the hull it is sought on, nm. */
const MICA_SEARCH = [2185, 2225] as const
const MICA_HULL = [2120, 2245] as const

/** Pure reflectance of an ingredient of a mixture, fractions, at wavelengths in nm. */
export function pureReflectance(
  ingredient: Ingredient,
  mixture: Mixture,
  wavelengths: Float64Array,
): Float64Array {
  if (ingredient === 'white mica') return micaReflectance(mixture.micaPosition ?? NaN, wavelengths)
  if (ingredient === 'alunite') return aluniteReflectance(mixture.sodic ?? 0, wavelengths)
  return modelReflectance(ingredient === 'host' ? HOST : referenceOf(ingredient), wavelengths)
}

/** Alunite between its two ends, mixed in the logarithm: one solid solution, not two grains. */
function aluniteReflectance(sodic: number, wavelengths: Float64Array): Float64Array {
  const potassic = modelReflectance(referenceOf('potassic alunite'), wavelengths)
  const natric = modelReflectance(referenceOf('sodic alunite'), wavelengths)
  return potassic.map((value, i) => Math.exp(blend(Math.log(value), Math.log(natric[i]), sodic)))
}

/** White micas by lengthening Al–OH position: sodium-rich to silicon- and magnesium-rich. */
const SERIES = ['paragonite', 'short muscovite', 'long muscovite', 'phengite'] as const

/** Two neighbours of the series, and how far from the first to the second. */
interface Neighbours {
  readonly first: Reference
  readonly second: Reference
  readonly part: number
}

/**
 * White mica with its Al–OH minimum at a position: the two fitted micas on either side of it,
 * each with the stretch of axis round 2200 nm pushed toward it, blended in the logarithm (one
 * solid solution, not two grains).
 *
 * @param position nm, as `measureFeature` finds it on this very spectrum, within 0.01 nm
 * @throws where the position cannot be reached
 */
export function micaReflectance(position: number, wavelengths: Float64Array): Float64Array {
  const window = Float64Array.from({ length: 126 }, (_, i) => MICA_HULL[0] + i)
  const neighbours = neighboursOf(position)
  let aim = position
  for (let turn = 0; turn < 12; turn++) {
    const measured = micaMinimum(window, paintMica(neighbours, aim, window))
    if (Math.abs(measured - position) < 0.01) return paintMica(neighbours, aim, wavelengths)
    aim += position - measured
  }
  throw new Error(`No white mica with its Al–OH minimum at ${position} nm could be made.`)
}

function neighboursOf(position: number): Neighbours {
  const references = SERIES.map(referenceOf)
  const after = references.findIndex((reference) => ownPosition(reference) > position)
  if (after < 1) throw new Error(`White mica at ${position} nm lies outside the series.`)
  const [first, second] = [references[after - 1], references[after]]
  const from = ownPosition(first)
  return { first, second, part: (position - from) / (ownPosition(second) - from) }
}

const known = new Map<Reference, number>()

/** A reference's own Al–OH minimum, nm. */
function ownPosition(reference: Reference): number {
  let position = known.get(reference)
  if (position === undefined) {
    const window = Float64Array.from({ length: 126 }, (_, i) => 2120 + i)
    position = micaMinimum(window, modelReflectance(reference, window))
    known.set(reference, position)
  }
  return position
}

/** The Al–OH minimum of a spectrum, nm. */
export function micaMinimum(wavelengths: Float64Array, reflectance: Float64Array): number {
  const feature = measureFeature({ wavelengths, reflectance }, MICA_SEARCH, MICA_HULL)
  if ('missing' in feature) throw new Error(`No Al–OH minimum: ${feature.missing}.`)
  return feature.position
}

function paintMica(
  { first, second, part }: Neighbours,
  aim: number,
  wavelengths: Float64Array,
): Float64Array {
  const from = modelReflectance(first, pushed(wavelengths, aim - ownPosition(first)))
  const to = modelReflectance(second, pushed(wavelengths, aim - ownPosition(second)))
  return from.map((value, i) => Math.exp(blend(Math.log(value), Math.log(to[i]), part)))
}

/** The axis seen through a push of the 2200 nm group alone, fading out over 60 nm to each side. */
function pushed(wavelengths: Float64Array, shift: number): Float64Array {
  return wavelengths.map((nm) => {
    const t = Math.min(1, Math.max(0, nm < 2200 ? (nm - 2080) / 60 : (2320 - nm) / 60))
    return nm - shift * t * t * (3 - 2 * t)
  })
}

function blend(from: number, to: number, part: number): number {
  return from + (to - from) * part
}
