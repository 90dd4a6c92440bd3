/**
 * A variogram for points with no word from the user.
 *
 * Nugget plus one or two structures is chosen by restricted likelihood (see `likelihood.ts`) with
 * weak prior opinions that keep few stations from saying too much:
 * - the range is a third of the bounding box's diagonal, give or take a factor of 4.5;
 * - the nugget's share of the sill has logit −2 ± 2 (an eighth, anything from 0.2 to 88 % within
 *   two of those);
 * - there is no anisotropy: the logarithm of minor over major range is 0 ± 0.5 in any direction;
 * - a second, shorter structure has half of the partial sill (logit 0 ± 2) and a fifth of the
 *   range (give or take a factor of 2.7).
 *
 * The correlation is sought on normal scores, so that a few high values do not decide it; the
 * sills are then those that make the values themselves likeliest. Where stations state errors
 * their values are used throughout, for an error has no normal score.
 *
 * A direction is looked for only where each of four directions has at least 30 pairs a lag, and
 * kept only where it lowers −2 log posterior by more than the logarithm of the number of stations
 * for each of its two parameters (Schwarz 1978). So is a second structure, which also has two.
 */
import { experimentalVariogram, suggestLags, type Lags } from './experimental'
import { SHAPES, type Shape } from './fit-variogram'
import { RestrictedLikelihood } from './likelihood'
import type { Lag, Points, Variogram } from './model'
import { normalScores } from './normal-scores'
import { pairsInSight, type PairFilter } from './parted-pairs'
import { boundsOf, mergeDuplicates, spreadOf, thinned } from './points'
import { detrended, type TrendDegree } from './trend'
import { searchSimplex, type Least } from './simplex-search'

export interface AutomaticVariogram {
  readonly variogram: Variogram
  /** Lags for plotting it, and the experimental variogram on them. */
  readonly lags: Lags
  readonly experimental: readonly Lag[]
}

/** Points whose pairs are plotted, and counted by direction; of more, every k-th is taken. */
const MOST_PLOTTED = 4000
const MOST_COUNTED = 800
/** The same where each pair has to be looked for across barriers. */
const MOST_LOOKED_FOR = 1000

/** Pairs that a lag must have in each direction before anisotropy is believed. */
export const PAIRS_A_LAG = 30
export const DIRECTIONS = [0, 45, 90, 135]

/** Standard deviations of the prior opinions. */
const PRIOR = { logRange: 1.5, logit: 2, logRatio: 0.5, logShorter: 1 }
const PRIOR_LOGIT = -2
/** Logarithm of the shorter structure's range over the longer one's, beforehand and at most. */
const PRIOR_SHORTER = -Math.log(5)
const LEAST_SHORTER = -Math.log(2)
/** Shape of the shorter structure: few stations lie within its range, and cannot choose it. */
const SHORTER_SHAPE: Shape = { model: 'spherical' }
/** Stations from which a second structure is looked for: fewer cannot tell it from a nugget. */
const FOR_TWO_STRUCTURES = 60
/** The least ratio of minor to major range that is tried. */
const LEAST_RATIO = 0.05

/**
 * Fits a variogram with every choice made from the points.
 *
 * @param degree of the trend that kriging will take off; the variogram is that of what it leaves
 * @param barriers pairs of stations that these part are not counted; null for none
 * @throws Error in words where fewer than three different places are there, or no spread
 */
export function automaticVariogram(
  input: Points,
  degree: TrendDegree = 0,
  barriers: Float64Array | null = null,
): AutomaticVariogram {
  const points = mergeDuplicates(input)
  if (points.x.length < 3)
    throw new Error('A variogram needs at least 3 stations at different places.')
  const lags = suggestLags(points)
  const plotted = thinned(detrended(points, degree), barriers ? MOST_LOOKED_FOR : MOST_PLOTTED)
  return {
    variogram: likeliestVariogram(points, degree, barriers),
    lags,
    experimental: experimentalVariogram(plotted, lags, { pairs: pairsInSight(plotted, barriers) }),
  }
}

/** Whether pairs suffice in each of four directions, on five lags or more. */
export function supportsDirections(input: Points, barriers: Float64Array | null = null): boolean {
  const points = thinned(input, MOST_COUNTED)
  const { cutoff } = suggestLags(points)
  const lags = { cutoff, width: cutoff / 5 }
  const pairs = pairsInSight(points, barriers)
  return DIRECTIONS.every((azimuth) => {
    const found = experimentalVariogram(points, lags, { azimuth, tolerance: 22.5, pairs })
    return found.length === 5 && found.every((lag) => lag.pairs >= PAIRS_A_LAG)
  })
}

/** What is searched: the shapes, and whether a direction is looked for. */
interface Form {
  readonly shape: Shape
  readonly turned: boolean
  /** Of the shorter of two structures; null where there is one. */
  readonly shorter: Shape | null
}

/** The likeliest variables of a form. */
interface Found extends Least {
  readonly form: Form
}

/** The most probable variogram of points without duplicates. */
function likeliestVariogram(
  points: Points,
  degree: TrendDegree,
  barriers: Float64Array | null,
): Variogram {
  const search = new Search(points, degree, pairsInSight(points, barriers))
  const isotropic = SHAPES.map((shape) => search.isotropic(shape)).sort((a, b) => a.value - b.value)
  let best = isotropic[0]
  if (supportsDirections(points, barriers)) {
    const turned = isotropic.slice(0, 2).map((found) => search.anisotropic(found))
    best = likelier(best, turned, points.x.length)
  }
  if (points.x.length >= FOR_TWO_STRUCTURES)
    best = likelier(best, search.nested(best), points.x.length)
  return search.variogramOf(best)
}

/** The best of the others if it is worth its two further variables, else the simpler one. */
function likelier(simpler: Found, others: readonly Found[], stations: number): Found {
  const [other] = others.toSorted((a, b) => a.value - b.value)
  return other.value < simpler.value - 2 * Math.log(stations) ? other : simpler
}

/**
 * Variables of the search: the logarithm of the range over a third of the diagonal, the logit of
 * the nugget's share, the logarithm of the total sill over the values' variance (only where
 * stations state errors, else it follows); for anisotropy the logarithm of major over minor
 * range times cosine and sine of twice the azimuth, which has no seam at any direction; for two
 * structures the logit of the shorter one's part of the partial sill and the logarithm of its
 * range over the longer one's.
 */
class Search {
  /** Of the values, for the sills. */
  private readonly likelihood: RestrictedLikelihood
  /** Of what the correlation is sought on. */
  private readonly sought: RestrictedLikelihood
  private readonly unit: number
  private readonly variance: number
  /** Variables of an isotropic model. */
  private readonly plain: number

  constructor(points: Points, degree: TrendDegree, pairs: PairFilter | null) {
    const [west, south, east, north] = boundsOf(points)
    const rest = detrended(points, degree)
    this.unit = Math.hypot(east - west, north - south) / 3
    this.variance = spreadOf(rest.value).variance
    this.likelihood = new RestrictedLikelihood(points, degree, pairs)
    const scored = { ...points, value: normalScores(rest.value).scores }
    this.sought = this.likelihood.absolute
      ? this.likelihood
      : new RestrictedLikelihood(scored, degree, pairs)
    this.plain = this.likelihood.absolute ? 3 : 2
  }

  isotropic(shape: Shape): Found {
    const start = [0, PRIOR_LOGIT, 0].slice(0, this.plain)
    const steps = [-0.7, 1, -0.5].slice(0, this.plain)
    return this.search({ shape, turned: false, shorter: null }, start, steps, 90)
  }

  /** The best anisotropic model from an isotropic one, begun in the best of six directions. */
  anisotropic(from: Found): Found {
    const form = { ...from.form, turned: true }
    const starts = Array.from({ length: 6 }, (_, direction) => {
      const turn = (direction * Math.PI) / 3
      const at = [...from.at, 0.6 * Math.cos(turn), 0.6 * Math.sin(turn)]
      at[0] += 0.3
      return at
    })
    const steps = [0.4, 0.7, 0.3].slice(0, this.plain).concat([0.25, 0.25])
    return this.search(form, this.bestOf(form, starts), steps, 180)
  }

  /** The best models of two structures from one of one, in the two forms that begin best. */
  nested(from: Found): readonly Found[] {
    const begun = SHAPES.map((shape) => {
      const form = { ...from.form, shape, shorter: SHORTER_SHAPE }
      const starts = [0, 0.7].map((longer) => {
        const at = [...from.at, 0, PRIOR_SHORTER]
        at[0] += longer
        return at
      })
      const at = this.bestOf(form, starts)
      return { form, at, value: this.deviance(form, at) }
    })
    begun.sort((a, b) => a.value - b.value)
    const steps = [0.4, 0.7, 0.3].slice(0, this.plain)
    const turn = from.form.turned ? [0.2, 0.2] : []
    return begun
      .slice(0, 2)
      .map(({ form, at }) => this.search(form, at, [...steps, ...turn, 0.7, -0.5], 100))
  }

  private search(
    form: Form,
    start: readonly number[],
    steps: readonly number[],
    most: number,
  ): Found {
    return { form, ...searchSimplex((at) => this.deviance(form, at), start, steps, 0.02, most) }
  }

  private bestOf(form: Form, starts: readonly (readonly number[])[]): readonly number[] {
    const values = starts.map((at) => this.deviance(form, at))
    return starts[values.indexOf(Math.min(...values))]
  }

  /** −2 log posterior, up to a constant. */
  private deviance(form: Form, at: readonly number[]): number {
    const { turn, split, shorter } = this.variablesOf(form, at)
    const [logRange, logit] = at
    return (
      this.sought.of(this.modelOf(form, at)).deviance +
      (logRange / PRIOR.logRange) ** 2 +
      ((logit - PRIOR_LOGIT) / PRIOR.logit) ** 2 +
      (turn[0] ** 2 + turn[1] ** 2) / PRIOR.logRatio ** 2 +
      (split / PRIOR.logit) ** 2 +
      ((shorter - PRIOR_SHORTER) / PRIOR.logShorter) ** 2
    )
  }

  /** The variables beyond the plain ones; as the priors have them where a form has none. */
  private variablesOf({ turned, shorter }: Form, at: readonly number[]) {
    const rest = at.slice(this.plain)
    const turn = turned ? rest.slice(0, 2) : [0, 0]
    const [split, logShorter] = shorter ? rest.slice(-2) : [0, PRIOR_SHORTER]
    return { turn, split, shorter: logShorter }
  }

  private modelOf(form: Form, at: readonly number[]): Variogram {
    const { turn, split, shorter } = this.variablesOf(form, at)
    const total = this.likelihood.absolute ? this.variance * Math.exp(at[2]) : 1
    const range = this.unit * Math.exp(at[0])
    const nugget = total * logistic(at[1])
    const sill = total - nugget
    const part = form.shorter ? logistic(split) : 0
    const structures = [{ ...form.shape, sill: sill * (1 - part), range }]
    if (form.shorter) {
      const times = Math.exp(Math.min(LEAST_SHORTER, shorter))
      structures.unshift({ ...form.shorter, sill: sill * part, range: range * times })
    }
    if (!form.turned) return { nugget, structures }
    const [a, b] = turn
    const degrees = (Math.atan2(b, a) * 90) / Math.PI
    return {
      nugget,
      structures,
      azimuth: (degrees + 180) % 180,
      ratio: Math.max(LEAST_RATIO, Math.exp(-Math.hypot(a, b))),
    }
  }

  /** A found model with its sills in squared units of the value. */
  variogramOf({ form, at }: Found): Variogram {
    const model = this.modelOf(form, at)
    const { scale } = this.likelihood.of(model)
    return {
      ...model,
      nugget: model.nugget * scale,
      structures: model.structures.map((s) => ({ ...s, sill: s.sill * scale })),
    }
  }
}

function logistic(logit: number): number {
  return 1 / (1 + Math.exp(-logit))
}
