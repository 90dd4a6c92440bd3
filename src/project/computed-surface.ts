/** A surface's result, once its nodes are known: figures, and what is said of it. */
import type { Finished } from '../jobs/finish-surface'
import type { SurfacePlan } from '../surfaces/compute'
import { givesChance, type SurfaceBands } from '../surfaces/model'
import type { AskedClasses, AskedValue } from './asked-surface'
import { likeliestWords, type joinOutcomes } from './likeliest'
import { residualsOf } from './residuals'
import type { SurfaceResult } from './results'
import type { Cover } from './surface-masks'
import {
  belowSentence,
  compositeSentence,
  contoursSentence,
  evenSentence,
  declusteringSentence,
  driftSentence,
  farSentence,
  nowhereSentence,
  partedSentence,
  swingSentence,
  transformSentence,
  trust,
  variogramSentence,
} from './surface-words'

/** A plan with its nodes. */
export interface Computed {
  readonly plan: SurfacePlan
  readonly bands: SurfaceBands
  /** What was drawn of it last. */
  drawn: (Finished & { readonly cover: Cover; readonly bands: SurfaceBands }) | null
}

/** Classes that were joined last, by what they were joined from. */
export interface Joined extends ReturnType<typeof joinOutcomes> {
  readonly kriged: readonly (Computed | null)[]
  readonly cover: Cover
  /** The limit on its doubt. */
  readonly most: number | undefined
}

/** What is known of a surface before it is computed. */
export const WAITING: Omit<SurfaceResult, 'rule'> = {
  unit: '',
  state: 'waiting',
  failure: null,
  bands: null,
  variogram: null,
  experimental: null,
  testing: null,
  used: null,
  stations: 0,
  reach: null,
  contours: [],
  sentence: '',
}

/** A chance has no unit. */
export function unitOf({ rule, found }: AskedValue): string {
  return givesChance(rule.method) ? '' : found.unit
}

/** The result of a value's surface as it was drawn. */
export function valueOf(
  asked: AskedValue,
  plan: SurfacePlan,
  { bands, contours, crowded, spread, even }: NonNullable<Computed['drawn']>,
): SurfaceResult {
  const { rule, found, names, lengthUnit } = asked
  const unit = unitOf(asked)
  const without = plan.drift?.without ?? []
  return {
    ...WAITING,
    rule,
    unit,
    state: 'ready',
    bands,
    variogram: plan.variogram,
    experimental: plan.experimental,
    testing: plan.testing,
    blocked: plan.blocked,
    residuals: residualsOf(plan, found.points, found.stations),
    points: plan.points,
    used: { neighbours: plan.neighbours, power: plan.power, choice: plan.choice },
    stations: found.points.value.length - without.length,
    belowDetection: found.belowDetection,
    reach: finite(plan.reach),
    contours,
    spread,
    sentence:
      trust(plan, unit) +
      evenSentence(even, unit) +
      swingSentence(plan, spread, unit) +
      contoursSentence(rule, crowded) +
      variogramSentence(plan, { length: lengthUnit, value: rule.transform ? '' : unit }) +
      driftSentence(
        rule,
        without.flatMap((i) => found.stations[i].map((station) => names[station])),
      ) +
      transformSentence(rule) +
      declusteringSentence(plan, found.unit, lengthUnit) +
      partedSentence(plan) +
      compositeSentence(rule, found) +
      belowSentence(rule, found.belowDetection) +
      nowhereSentence(rule, plan, spread.estimate === null) +
      farSentence(found.farOff),
  }
}

/** No limit is none. */
function finite(reach: number): number | null {
  return Number.isFinite(reach) ? reach : null
}

/** The result of classes that were joined. */
export function classesOf(
  { rule, found }: AskedClasses,
  { bands, result, kriged }: Joined,
): SurfaceResult {
  const plan = kriged.find((each) => each !== null)?.plan
  return {
    ...WAITING,
    rule,
    state: 'ready',
    bands,
    likeliest: result,
    testing: result.single?.testing ?? null,
    blocked: result.blocked?.testing ?? null,
    used: { neighbours: plan?.neighbours ?? null, power: null },
    stations: found.points.x.length,
    reach: finite(plan?.reach ?? Infinity),
    sentence:
      likeliestWords(result, rule) + compositeSentence(rule, found) + farSentence(found.farOff),
  }
}
