/** What is said of a surface that is not whole yet. */
import type { PartialSurface } from '../project/results'
import { percent } from './numbers'

/**
 * How much of a surface is shown.
 *
 * @param name of the surface
 * @param computing whether work goes on; false where it was stopped
 */
export function coarseWords(
  { step, part, realisations }: Omit<PartialSurface, 'bands' | 'spread'>,
  name: string,
  computing: boolean,
): string {
  const state = computing ? 'Coarse for now' : 'Stopped while coarse'
  const rest = computing ? '' : '; press Go on to have the rest'
  if (realisations) return `${state}: ${name} from ${realisations.join(' of ')} realisations${rest}`
  const refined = part > 0 ? `, ${percent(part)} refined` : ''
  return `${state}: every ${ordinal(step)}node of ${name}${refined}${rest}`
}

/** Such as `4th `; nothing for the first. */
function ordinal(step: number): string {
  if (step === 1) return ''
  const ending =
    step % 100 > 10 && step % 100 < 14 ? 'th' : (['th', 'st', 'nd', 'rd'][step % 10] ?? 'th')
  return `${step}${ending} `
}
