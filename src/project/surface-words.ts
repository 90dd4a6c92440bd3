/** What is said of a surface in plain words. */
import { chanceError } from '../surfaces/chance'
import type { Spread } from '../jobs/finish-surface'
import type { SurfacePlan } from '../surfaces/compute'
import { MOST_LEVELS } from '../surfaces/contours'
import type { SurfaceRule, Testing } from '../surfaces/model'
import { spreadOf } from '../surfaces/points'
import { trustSentence } from '../surfaces/testing'
import { totalSill } from '../surfaces/variogram-models'
import type { FoundPoints } from './surface-points'

const TRANSFORMED = {
  log: ' Kriged in logarithms and brought back as a mean; the variogram is that of the logarithms.',
  'normal-score':
    ' Kriged as normal scores and brought back as a mean, never beyond the stations’ least and greatest value; the variogram is that of the scores.',
  rank: ' Kriged as ranks and brought back as a mean, never beyond the stations’ least and greatest value; the variogram is that of the ranks.',
}

const ABOUT_A_MEAN = {
  log: ' A trend or drift of logarithms multiplies values: away from the stations they soon run off, so keep it inside their hull.',
  'normal-score':
    ' A trend or drift of scores cannot lead beyond the stations’ values, so that where it should, the surface is too flat.',
  rank: '',
}

/** What is said of a transform. */
export function transformSentence({ transform, trend, drift }: SurfaceRule): string {
  if (!transform) return ''
  const about = trend || drift !== undefined ? ABOUT_A_MEAN[transform] : ''
  return TRANSFORMED[transform] + about
}

/** What is said of a simulation beside barriers. */
export function partedSentence({ chance }: Pick<SurfacePlan, 'chance'>): string {
  return chance?.barriers
    ? ' Neither stations nor simulated nodes are used across its barriers; the scores and their mean are common to all sides.'
    : ''
}

/** What is said of how stations weigh in normal scores. */
export function declusteringSentence(
  { transformed, chance }: Pick<SurfacePlan, 'transformed' | 'chance'>,
  unit: string,
  lengthUnit: string,
): string {
  const scored = chance ?? (transformed?.kind === 'normal-score' ? transformed : null)
  if (!scored) return ''
  if (!scored.declustering) return ' All stations count alike in the scores, crowded ones too.'
  const { cell, mean, plain } = scored.declustering
  const of = (value: number) => `${Number(value.toPrecision(4))}${unit && ` ${unit}`}`
  return (
    ` Stations count by cells of ${Number(cell.toPrecision(2))} ${lengthUnit} in the scores: ` +
    `their mean is ${of(mean)} so, and ${of(plain)} where all count alike.`
  )
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

/** A surface whose nodes differ by less than this part of the stations' spread is even. */
const EVEN = 0.01

/**
 * Below this difference of its nodes a plan's surface shows nothing, in the value's unit; of a
 * chance in parts of 1, whatever the unit of the value that is exceeded.
 */
export function evenBelow({ points, chance }: Pick<SurfacePlan, 'points' | 'chance'>): number {
  return chance ? EVEN : EVEN * Math.sqrt(spreadOf(points.value).variance)
}

/** What is said of a surface that is nearly the same everywhere. */
export function evenSentence(even: readonly [number, number] | null, unit: string): string {
  if (!even) return ''
  const middle = Number(((even[0] + even[1]) / 2).toPrecision(4))
  return ` It is nearly the same everywhere (${middle}${unit && ` ${unit}`}): these stations show no pattern that reaches from one to the next, so it has one colour and no contours.`
}

/** A surface that spans this many times what its stations span has left them. */
const SWINGS = 3

/**
 * What is said of a surface that runs far beyond its stations' values: models that are flat at
 * their origin, without a nugget, make kriging all but singular (Posa 1989, Math. Geol. 21, 755).
 */
export function swingSentence(
  { points, variogram }: Pick<SurfacePlan, 'points' | 'variogram'>,
  { estimate }: Spread,
  unit: string,
): string {
  if (!variogram || !estimate) return ''
  const [low, high] = [estimate[0], estimate[estimate.length - 1]]
  const least = points.value.reduce((a, b) => Math.min(a, b))
  const most = points.value.reduce((a, b) => Math.max(a, b))
  if (!(high - low > SWINGS * (most - least))) return ''
  const between = (from: number, to: number) =>
    `from ${Number(from.toPrecision(2))} to ${Number(to.toPrecision(2))}${unit && ` ${unit}`}`
  return ` It runs ${between(low, high)} where stations hold ${between(least, most)}: its model cannot be right, whatever its standard error says. A gaussian or very smooth model wants a nugget; else take another form.`
}

/** What is said where a chosen interval would make too many contours. */
export function contoursSentence(
  { contour_interval: interval }: SurfaceRule,
  crowded: boolean,
): string {
  if (!crowded || interval === undefined) return ''
  return ` Contours every ${interval} would be more than the ${MOST_LEVELS} that are drawn, so none are: choose a larger interval.`
}

/** A fitted range this many times as far as the lags reach, or a sill so far above them, is a guess. */
const BEYOND_LAGS = { range: 2, sill: 2 }

/**
 * What is said of a fitted variogram: pairs that were left out, and a range that no lag shows.
 *
 * @param units of distances and of values; empty for none
 */
export function variogramSentence(
  { variogram, experimental, choice }: Pick<SurfacePlan, 'variogram' | 'experimental' | 'choice'>,
  units: { readonly length: string; readonly value: string },
): string {
  if (!variogram || !experimental || experimental.length === 0) return ''
  const parted = choice?.barriers
    ? ' Pairs of stations that a barrier parts were left out of the variogram.'
    : ''
  const reached = experimental[experimental.length - 1].distance
  const highest = Math.max(...experimental.map(({ gamma }) => gamma))
  const range = Math.max(0, ...variogram.structures.map((structure) => structure.range))
  const sill = totalSill(variogram)
  if (range < BEYOND_LAGS.range * reached && sill < BEYOND_LAGS.sill * highest) return parted
  const of = (value: number, unit: string) => `${Number(value.toPrecision(2))}${unit && ` ${unit}`}`
  const [far, shown] = [of(range, units.length), of(reached, units.length)]
  const top = of(sill, units.value && `${units.value}²`)
  return `${parted} The variogram’s range (${far}) is longer than the data can show (pairs are compared out to ${shown}): values drift across all of the ground. Compare the methods, a trend among them, and do not read its sill (${top}) as the values’ variance.`
}

/** Names that a sentence tells one by one. */
const MOST_NAMED = 5

/** What is said of a drift and of the stations where it has no value. */
export function driftSentence({ drift }: SurfaceRule, without: readonly string[]): string {
  if (drift === undefined) return ''
  const said = ` Its mean follows ${drift}; nothing is drawn where that has no value.`
  if (without.length === 0) return said
  const more = without.length > MOST_NAMED ? ` and ${without.length - MOST_NAMED} more` : ''
  return `${said} It has none at ${without.slice(0, MOST_NAMED).join(', ')}${more}, left out here.`
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
export function trust({ testing, blocked, chance, method }: SurfacePlan, unit: string): string {
  if (!testing) return 'Too few stations to test it.'
  const sentence = trustSentence(testing, blocked, unit)
  // The interval of a class's chance is a form alone: a station is of it or not.
  if (!chance) return sentence + (method === 'kriging' ? intervalSentence(blocked) : '')
  const error = Number(chanceError(chance.realisations).toPrecision(1))
  return `${sentence} From ${chance.realisations} realisations a chance is itself known to ±${error}.`
}

/**
 * What is said of standard errors that do not hold what they should, where more than two errors of
 * that part speak against them.
 */
export function intervalSentence(blocked: Testing | null): string {
  const { count = 0, coverage90: part, coverage90Error: error } = blocked ?? {}
  if (typeof part !== 'number' || typeof error !== 'number') return ''
  const off = part - 0.9
  // Where all lie inside the blocks do not differ, and only their number tells.
  const known = Math.max(error, Math.sqrt((0.9 * 0.1) / count))
  if (!(Math.abs(off) > 2 * known)) return ''
  const [is, so] = off < 0 ? ['small', 'further off'] : ['large', 'nearer']
  return ` Its standard errors are too ${is}: with blocks left out ${Math.round(100 * part)} % of the stations lie in their 90 % interval (± ${Math.round(100 * known)}). Expect values to be ${so} than the ± says.`
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
