/** What is said of stations before they are mapped, and what to do about it. */
import type { ExploredValue } from '../../project/exploring'
import { percent, plain } from '../numbers'

/** A shift of the mean under this part of the standard deviation is not worth a word (ours). */
const WORTH_A_WORD = 0.1
/** A plane that predicts whole blocks this much better than the mean is worth trying (ours). */
const WORTH_A_TREND = 0.1

/** Whether crowded stations move the mean. */
export function crowdingWords({ plain: each, declustered, unit }: ExploredValue): string {
  const shift = each.mean - declustered.mean
  const tail = unit ? ` ${unit}` : ''
  if (!(Math.abs(shift) > WORTH_A_WORD * each.sd))
    return 'Crowded stations hardly move the mean: either column will do.'
  return (
    `Crowded stations ${shift > 0 ? 'raise' : 'lower'} the mean by ` +
    `${plain(Math.abs(shift))}${tail}: for the ground as a whole read the declustered column.`
  )
}

/** Whether values rise across the ground, and whether that is worth a trend. */
export function trendWords({ plane, unit }: ExploredValue, lengthUnit: string): string {
  if (!plane) return 'Too few stations, or too much in one line, to speak of a trend.'
  const [per, times] = lengthUnit === 'm' ? ['km', 1000] : [lengthUnit, 1]
  const rise = `${plain(plane.slope * times)}${unit ? ` ${unit}` : ''} a ${per}`
  const is = `A plane rises toward ${Math.round(plane.azimuth)}° by ${rise} and takes ${percent(plane.rSquared)} of the variance`
  const gain = plane.blockedGain
  if (gain === null) return `${is}; stations lie too close together to test it in blocks.`
  if (gain > WORTH_A_TREND)
    return `${is}; it predicts whole blocks ${percent(gain)} better than the mean: try kriging with a trend, and compare.`
  return `${is}, but predicts whole blocks ${gain > 0 ? 'hardly better' : 'no better'} than the mean: leave the trend off.`
}

/** What becomes of stations on one spot. */
export function duplicateWords(count: number): string {
  return count === 1
    ? '1 station stands exactly on another’s spot; a surface takes the two as one, their values averaged.'
    : `${count} stations stand exactly on another’s spot; a surface takes those on one spot as one, their values averaged.`
}
