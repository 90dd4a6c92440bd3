/** What a surface says of a place: its value with its error, or why there is none. */
import type { SurfaceResult } from '../../project/results'
import { REALISATIONS, simulatedError } from '../../surfaces/chance'
import { givesChance } from '../../surfaces/model'
import { nearestNode } from '../../surfaces/reach'
import { percent, withError } from '../numbers'
import { shownBands } from './surface-picture'

/**
 * The surface's name and its value at a place.
 *
 * @param place working units
 * @returns empty where nothing is known of the surface
 */
export function valueWords(surface: SurfaceResult, place: readonly [number, number]): string {
  const bands = shownBands(surface)
  if (!bands) return ''
  const { rule, unit } = surface
  const estimate = nearestNode(bands, place[0], place[1])
  if (Number.isNaN(estimate)) return `${rule.name}: not drawn here`
  if (surface.likeliest) return `${rule.name}: ${likeliestHere(surface, place, estimate)}`
  if (givesChance(rule.method)) return `${rule.name}: ${chanceHere(surface, estimate)}`
  const variance = bands.variance
    ? nearestNode({ ...bands, estimate: bands.variance }, place[0], place[1])
    : NaN
  const error = Number.isNaN(variance) ? null : Math.sqrt(Math.max(0, variance))
  return `${rule.name}: ${withError({ value: estimate, error }, unit)}`
}

/** A chance, and where it is simulated how far its number of realisations leaves it open. */
function chanceHere({ rule, partial }: SurfaceResult, part: number): string {
  // What is shown before the first realisations is kriged, which has no such error.
  const drawn = partial ? partial.realisations?.[0] : (rule.realisations ?? REALISATIONS)
  if (rule.method !== 'chance-above' || !drawn) return percent(part)
  return withError({ value: 100 * part, error: 100 * simulatedError(part, drawn) }, '%')
}

/** Class and chance, and what else it may be. */
function likeliestHere(
  surface: SurfaceResult,
  at: readonly [number, number],
  code: number,
): string {
  const { likeliest } = surface
  const bands = shownBands(surface)
  if (!bands || !likeliest) return ''
  const read = (values: Float64Array) => nearestNode({ ...bands, estimate: values }, at[0], at[1])
  const { classes, probability, second, doubt } = likeliest
  const other = classes[read(second)]?.name
  const instead = other && read(doubt) > 0.02 ? `, else ${other}` : ''
  return `${classes[code].name} ${percent(read(probability))}${instead}`
}
