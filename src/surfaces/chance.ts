/** The chance of exceeding a value, by sequential Gaussian simulation of normal scores. */
import { keepWithin } from './boundaries'
import type { SurfacePlan } from './compute'
import type { Points, SurfaceBands, Variogram } from './model'
import { normalBelow } from './normal-scores'
import { keepInHull, withinReach } from './reach'
import { scoreTable, type Declustering } from './score-table'
import { wholeRows } from './tiles'
import { scoreVariogram, SimulationWalk } from './simulation'
import { leaveBlocksOut, leaveOneOut, testedOf, type Tested, type TestedMethod } from './testing'

/** What a chance is simulated from. */
export interface ChanceSetting {
  /** Stations' normal scores. */
  readonly scored: Points
  /** Of the scores; its sill is 1. */
  readonly variogram: Variogram
  /** The score above which a value counts. */
  readonly threshold: number
  readonly realisations: number
  readonly seed: number
  /** Straight pieces across which nothing is used; null for none. */
  readonly barriers: Float64Array | null
  /** How the scores were declustered; null where stations count alike. */
  readonly declustering: Declustering | null
}

export const REALISATIONS = 200
/** More would take minutes: every node is drawn in every realisation. */
export const MOST_CHANCE_NODES = 250_000
/** Realisations that are drawn together. */
const BATCH = 50
/** Nodes of a stretch, about 30 ms. */
const STRETCH = 800

/**
 * Prepares a chance.
 *
 * @param points stations without duplicates
 * @param realisations how many; 200 where absent
 * @param options whether crowded stations count less in the scores, and the barriers
 * @throws Error in words where no station, or every one, lies above the value
 */
export function chanceSetting(
  points: Points,
  above: number,
  realisations = REALISATIONS,
  options: { readonly declustered?: boolean; readonly barriers?: Float64Array | null } = {},
): ChanceSetting {
  const { declustered = false, barriers = null } = options
  const { scores, above: scoreAbove, declustering } = scoreTable(points, declustered)
  const over = points.value.filter((value) => value > above).length
  if (over === 0 || over === points.value.length)
    throw new Error(
      `${over === 0 ? 'No station lies' : 'All stations lie'} above ${above}, so that nothing ` +
        'can be told of the chance; choose a value between them.',
    )
  const scored: Points = { x: points.x, y: points.y, value: scores }
  return {
    scored,
    variogram: scoreVariogram(scored, barriers),
    threshold: scoreAbove(above),
    realisations,
    seed: 1,
    barriers,
    declustering,
  }
}

/** A stretch of the path in a batch of realisations. */
export interface Stretch {
  /** The realisations, from the first up to but without the second. */
  readonly batch: readonly [from: number, to: number]
  /** Places on the path. */
  readonly from: number
  readonly to: number
}

/** The batches of a chance, each as its stretches in the order in which they have to be drawn. */
export function stretchesOf({ grid, chance }: SurfacePlan): Stretch[][] {
  const realisations = chance?.realisations ?? 0
  const nodes = grid.columns * grid.rows
  const batches: Stretch[][] = []
  for (let first = 0; first < realisations; first += BATCH) {
    const batch = [first, Math.min(realisations, first + BATCH)] as const
    const stretches: Stretch[] = []
    for (let from = 0; from < nodes; from += STRETCH)
      stretches.push({ batch, from, to: Math.min(nodes, from + STRETCH) })
    batches.push(stretches)
  }
  return batches
}

/** Fields as far as they are drawn and, once they are whole, how many of them exceed at each node. */
export interface Drawn {
  readonly fields: readonly Float32Array<ArrayBuffer>[]
  readonly exceeding: Uint16Array | null
}

const walks = new WeakMap<SurfacePlan, SimulationWalk>()

/**
 * Draws a stretch.
 *
 * @param fields what the stretches before gave; null for the first, as new ones are begun
 * @throws Error where the plan is not of a chance
 */
export function drawStretch(
  plan: SurfacePlan,
  { batch, from, to }: Stretch,
  fields: readonly Float32Array<ArrayBuffer>[] | null,
): Drawn {
  const { grid, chance } = plan
  if (!chance) throw new Error(`"${plan.name}" is no chance.`)
  const nodes = grid.columns * grid.rows
  const [first, end] = batch
  const drawn = fields ?? Array.from({ length: end - first }, () => new Float32Array(nodes))
  let walk = walks.get(plan)
  if (!walk) {
    const { scored, variogram, seed, barriers } = chance
    walk = new SimulationWalk(scored, variogram, grid, { seed, barriers })
    walks.set(plan, walk)
  }
  walk.advance(drawn, first, [from, to])
  if (to < nodes) return { fields: drawn, exceeding: null }
  const exceeding = new Uint16Array(nodes)
  for (const field of drawn)
    for (let node = 0; node < nodes; node++) if (field[node] > chance.threshold) exceeding[node]++
  return { fields: [], exceeding }
}

const drawnNodes = new WeakMap<SurfacePlan, Uint8Array>()

/** 1 for nodes within the reach and the limits; kept for the next picture. */
function wantedNodes(plan: SurfacePlan): Uint8Array {
  const known = drawnNodes.get(plan)
  if (known) return known
  const { grid, points, reach } = plan
  const rows = [0, grid.rows] as const
  const wanted = withinReach(points, grid, wholeRows(grid, ...rows), reach)
  if (plan.within) keepWithin(plan.within, grid, rows, wanted)
  if (typeof plan.hull === 'number') keepInHull(points, plan.hull, grid, rows, wanted)
  drawnNodes.set(plan, wanted)
  return wanted
}

/**
 * The chance from batches; NaN outside the reach and the limits.
 *
 * @param drawn realisations of these batches; null where they are all
 * @param seen NaN at nodes from which no station within the reach is seen; null for none
 */
export function chanceBands(
  plan: SurfacePlan,
  exceeding: readonly Uint16Array[],
  drawn: number | null = null,
  seen: Float64Array | null = null,
): SurfaceBands {
  const { grid } = plan
  const wanted = wantedNodes(plan)
  const estimate = new Float64Array(grid.columns * grid.rows)
  for (const counts of exceeding)
    for (let node = 0; node < estimate.length; node++) estimate[node] += counts[node]
  const realisations = drawn ?? plan.chance?.realisations ?? 1
  for (let node = 0; node < estimate.length; node++)
    estimate[node] =
      wanted[node] === 1 && !(seen && Number.isNaN(seen[node]))
        ? estimate[node] / realisations
        : NaN
  return { grid, estimate, variance: null }
}

/**
 * All stretches one after another, for a caller that has no workers.
 *
 * @param seen see `chanceBands`
 */
export function computeChance(plan: SurfacePlan, seen: Float64Array | null = null): SurfaceBands {
  const counts = stretchesOf(plan).map((stretches) => {
    let drawn: Drawn = { fields: [], exceeding: null }
    stretches.forEach((stretch, i) => {
      drawn = drawStretch(plan, stretch, i === 0 ? null : drawn.fields)
    })
    return drawn.exceeding ?? new Uint16Array(0)
  })
  return chanceBands(plan, counts, null, seen)
}

/**
 * Stations left out and the chance at each told from the others' scores, in blocks and one by one:
 * 1 or 0 where the station lies above the value or not, minus the chance. That chance is the
 * kriging one, which simulation approaches.
 */
export function testChance(
  points: Points,
  setting: ChanceSetting,
  neighbours: number | null,
): { readonly single: Tested; readonly blocks: Tested | null } {
  const { scored, variogram, threshold, barriers } = setting
  const method: TestedMethod = {
    method: 'kriging',
    variogram,
    neighbours,
    choice: barriers && { barriers, sectors: null, neighbours },
  }
  const indicators = {
    ...points,
    value: scored.value.map((score) => (score > threshold ? 1 : 0)),
  }
  const chances = ({ predicted, variance }: Tested): Tested =>
    testedOf(indicators, chancesOf(setting, predicted, variance), null)
  const blocks = leaveBlocksOut(scored, method)
  return { single: chances(leaveOneOut(scored, method)), blocks: blocks && chances(blocks) }
}

/** Chances of lying above the value by kriging: of a score's mean and variance at each place. */
export function chancesOf(
  { threshold }: ChanceSetting,
  mean: Float64Array,
  variance: Float64Array | null,
): Float64Array {
  return mean.map((each, i) =>
    Number.isNaN(each) ? NaN : normalBelow((each - threshold) / Math.sqrt(variance?.[i] ?? 1)),
  )
}

/** How far a chance may be off from the number of realisations alone, one standard error at most. */
export function chanceError(realisations: number): number {
  return Math.sqrt(0.25 / realisations)
}

/**
 * How far a simulated chance may be off from its number of realisations alone, one standard error:
 * the standard deviation of a chance of which so many in so many draws are known and nothing
 * beforehand (Laplace's rule of succession), √(p (1 − p)/n) but for the ends, where that would say
 * that 0 or all of a few draws are certain.
 *
 * @param part of the realisations that exceed, 0 to 1
 */
export function simulatedError(part: number, realisations: number): number {
  const expected = (part * realisations + 1) / (realisations + 2)
  return Math.sqrt((expected * (1 - expected)) / (realisations + 3))
}
