/**
 * What the scans of one white reference say together of their detectors' steps.
 *
 * Steps come for the most part from the temperature of the detectors, which such scans share, so
 * that other rocks tell what noise hides in a dark one.
 */
import type { StepEstimate } from './step-places'

/** A normal distribution with its weight among others. */
export interface NormalPart {
  readonly weight: number
  readonly mean: number
  readonly variance: number
}

/** The step that a scan may be expected to have by the others. */
export interface SharedStep {
  /** nm */
  readonly position: number
  /** What the step may be, in ln reflectance; weights sum to 1. */
  readonly parts: readonly NormalPart[]
  /** How many rocks speak. */
  readonly rocks: number
}

/** The steps that a scan may be expected to have, a list a join. */
export type SharedAtJoins = readonly (readonly SharedStep[])[]

/** Fewer other rocks say too little of how steps scatter. */
const LEAST_ROCKS = 3

/**
 * By how much the steps of one white reference may scatter: standard deviations of ln reflectance
 * that are weighed, and the scale of their half-Cauchy prior (Gelman 2006, Bayesian Analysis 1,
 * 515; the scale was set here: a quarter of what is doubted).
 */
const SCATTERS = [
  0, 0.0002, 0.0004, 0.0007, 0.001, 0.0014, 0.002, 0.003, 0.0045, 0.007, 0.01, 0.015, 0.025, 0.05,
] as const
const SCATTER_SCALE = 0.004

/** A scan in so many has a step of its own, which may be this large (set here). */
const OWN_STEPS = 0.05
const OWN_SIZE = 0.05

/**
 * The steps at one join that a scan may be expected to have, by scans of other rocks: one a place
 * at which three rocks and half of them say anything.
 *
 * @param rocks an entry a rock: what each of its scans says of each place where the step may be
 */
export function sharedSteps(
  rocks: readonly (readonly (readonly StepEstimate[])[])[],
): SharedStep[] {
  const all = rocks.map((scans) =>
    scans.flat().filter(({ liftError }) => Number.isFinite(liftError)),
  )
  const least = Math.max(LEAST_ROCKS, rocks.length / 2)
  return [...new Set(all.flat().map(({ position }) => position))].flatMap((position) => {
    const estimates = all.flatMap((places) => {
      const here = places.filter((place) => place.position === position)
      return here.length === 0 ? [] : [ofOneRock(here)]
    })
    if (estimates.length < least) return []
    return [{ position, parts: expected(estimates), rocks: estimates.length }]
  })
}

interface Estimate {
  readonly lift: number
  readonly error: number
}

/**
 * The scans of a rock as one. Their errors are as large as one's: what a rock's own curve adds is
 * the same in each.
 */
function ofOneRock(scans: readonly StepEstimate[]): Estimate {
  let weights = 0
  let sum = 0
  for (const { lift, liftError } of scans) {
    weights += liftError ** -2
    sum += lift * liftError ** -2
  }
  return { lift: sum / weights, error: Math.sqrt(scans.length / weights) }
}

/**
 * Where the next of some estimates will be, for each scatter that they may have (the normal
 * hierarchical model: Gelman et al. 2013, Bayesian Data Analysis, section 5.4).
 */
export function expected(estimates: readonly Estimate[]): NormalPart[] {
  const parts = SCATTERS.map((scatter, i) => {
    const variances = estimates.map(({ error }) => error ** 2 + scatter ** 2)
    const total = variances.reduce((sum, variance) => sum + 1 / variance, 0)
    const mean = estimates.reduce((sum, { lift }, k) => sum + lift / variances[k], 0) / total
    let log = Math.log(priorOf(i)) - Math.log(total) / 2
    estimates.forEach(({ lift }, k) => {
      log -= (Math.log(variances[k]) + (lift - mean) ** 2 / variances[k]) / 2
    })
    return { log, mean, variance: 1 / total, scatter }
  })
  const most = Math.max(...parts.map(({ log }) => log))
  const all = parts.reduce((sum, { log }) => sum + Math.exp(log - most), 0)
  return parts.map(({ log, mean, variance, scatter }) => ({
    weight: Math.exp(log - most) / all,
    mean,
    variance: variance + scatter ** 2,
  }))
}

/** The prior of a scatter: its density over the stretch of scatters that it stands for. */
function priorOf(i: number): number {
  const low = i === 0 ? 0 : (SCATTERS[i - 1] + SCATTERS[i]) / 2
  const high = i + 1 === SCATTERS.length ? 2 * SCATTERS[i] : (SCATTERS[i] + SCATTERS[i + 1]) / 2
  return Math.atan(high / SCATTER_SCALE) - Math.atan(low / SCATTER_SCALE)
}

/** What a scan's own estimate and the others' say together: the mean and one standard error. */
export function joined(own: StepEstimate, { position, parts }: SharedStep): StepEstimate {
  const ownVariance = own.liftError ** 2
  const { mean: middle } = momentsOf(parts)
  const all = [
    ...parts.map((part) => ({ ...part, weight: (1 - OWN_STEPS) * part.weight })),
    { weight: OWN_STEPS, mean: middle, variance: OWN_SIZE ** 2 },
  ]
  const logs = all.map(({ weight, mean, variance }) => {
    const spread = variance + ownVariance
    // A scan that says nothing of its own leaves what the others say as it is.
    if (spread === Infinity) return Math.log(weight)
    return Math.log(weight) - (Math.log(spread) + (own.lift - mean) ** 2 / spread) / 2
  })
  const most = Math.max(...logs)
  const total = logs.reduce((sum, log) => sum + Math.exp(log - most), 0)
  const { mean, variance } = momentsOf(
    all.map((part, i) => {
      const precision = 1 / part.variance + 1 / ownVariance
      const at = (part.mean / part.variance + own.lift / ownVariance) / precision
      return { weight: Math.exp(logs[i] - most) / total, mean: at, variance: 1 / precision }
    }),
  )
  return { position, lift: mean, liftError: Math.sqrt(variance), below: own.below }
}

/** Mean and variance of a mixture. */
function momentsOf(parts: readonly NormalPart[]): { mean: number; variance: number } {
  const mean = parts.reduce((sum, part) => sum + part.weight * part.mean, 0)
  const variance = parts.reduce(
    (sum, part) => sum + part.weight * (part.variance + (part.mean - mean) ** 2),
    0,
  )
  return { mean, variance }
}
