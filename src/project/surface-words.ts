/** What is said of a surface in plain words. */
import { chanceError } from '../surfaces/chance'
import type { SurfacePlan } from '../surfaces/compute'
import type { SurfaceRule } from '../surfaces/model'
import { trustSentence } from '../surfaces/testing'
import type { FoundPoints } from './surface-points'

const TRANSFORMED = {
  log: ' Kriged in logarithms and brought back as a mean; the variogram is that of the logarithms.',
  'normal-score':
    ' Kriged as normal scores and brought back as a mean, never beyond the stations’ least and greatest value; the variogram is that of the scores.',
  rank: ' Kriged as ranks and brought back as a mean, never beyond the stations’ least and greatest value; the variogram is that of the ranks.',
}

/** What is said of a transform. */
export function transformSentence({ transform }: SurfaceRule): string {
  return transform ? TRANSFORMED[transform] : ''
}

/** What is said where a limit of the standard error leaves nothing to draw. */
export function nowhereSentence(
  { error_at_most: most }: SurfaceRule,
  { variogram, transformed }: Pick<SurfacePlan, 'variogram' | 'transformed'>,
  nothing: boolean,
): string {
  if (most === undefined || !nothing) return ''
  const nugget = Math.sqrt(variogram?.nugget ?? 0)
  const why =
    transformed || !(nugget > most)
      ? ''
      : `; the nugget alone makes it ${Number(nugget.toPrecision(2))} away from stations`
  return ` Nothing is drawn, for its standard error is above ${most} everywhere${why}.`
}

/** What is said of composites. */
export function compositeSentence(
  { composite }: SurfaceRule,
  { points, partial, lengthUnit }: Pick<FoundPoints, 'points' | 'partial' | 'lengthUnit'>,
): string {
  if (composite === undefined) return ''
  const left =
    partial === 0
      ? ''
      : ` ${partial} of less than half that length ${partial === 1 ? 'was' : 'were'} left out.`
  return ` Stations in holes were joined to lengths of ${composite} ${lengthUnit} first, which leaves ${points.x.length} points.${left}`
}

/** What is said of stations whose places cannot be right. */
export function farSentence(farOff: number): string {
  if (farOff === 0) return ''
  const who = farOff === 1 ? '1 station lies' : `${farOff} stations lie`
  return ` ${who} more than 100 km from the others and ${farOff === 1 ? 'was' : 'were'} left out: check the coordinates.`
}

/** How far a surface can be believed, from its testing. */
export function trust({ testing, blocked, chance }: SurfacePlan, unit: string): string {
  if (!testing) return 'Too few stations to test it.'
  const sentence = trustSentence(testing, blocked, unit)
  if (!chance) return sentence
  const error = Number(chanceError(chance.realisations).toPrecision(1))
  return `${sentence} From ${chance.realisations} realisations a chance is itself known to ±${error}.`
}

const COUNTS_AS = { half: 'half the limit', zero: 'zero', limit: 'the limit', 'leave out': '' }

/** What is said of stations that count by the rule for cells below detection. */
export function belowSentence({ below_detection: rule }: SurfaceRule, stations: number): string {
  if (!rule || stations === 0) return ''
  const who =
    stations === 1
      ? '1 station below detection counts'
      : `${stations} stations below detection count`
  return ` ${who} as ${COUNTS_AS[rule]}.`
}
