/**
 * From a surface's rule and its stations to the plan that the app and the command line share.
 *
 * A plan is plain data and can be sent to a worker (see `compute-tile.ts`).
 */
import { automaticVariogram } from './automatic-variogram'
import type { Boundaries, Polygon } from './boundaries'
import { chanceSetting, MOST_CHANCE_NODES, testChance, type ChanceSetting } from './chance'
import type { Choice } from './chosen-neighbours'
import { withDrift, type Drift } from './external-drift'
import { gridFor, suggestCell } from './grid'
import { checkIndicators } from './indicator'
import type { Grid, Lag, Points, SurfaceRule, Testing, Variogram } from './model'
import { checkPoints, checkSpread, mergeDuplicates } from './points'
import { suggestReach } from './reach'
import {
  leaveBlocksOut,
  leaveOneOut,
  type ChoosingMethod,
  type Tested,
  type TestedMethod,
} from './testing'
import { testTransformed } from './transformed-surface'
import { NO_RANKS_WITH_MEAN, transformedPoints, type Transformed } from './transforms'
import { trendCount, type TrendDegree } from './trend'
import { checkVariogram } from './variogram-models'

/** Everything that computing a surface needs, defaults resolved. */
export interface SurfacePlan {
  readonly name: string
  readonly method: SurfaceRule['method']
  readonly grid: Grid
  /** Stations, duplicates merged. */
  readonly points: Points
  /** Working units; Infinity where other limits stand in its place. */
  readonly reach: number
  /** Stations that have to be within reach of a node; null or absent for one. */
  readonly stationsAtLeast?: number | null
  /** Largest standard error that is drawn; null or absent for any. */
  readonly errorAtMost?: number | null
  /** How far outside the stations' convex hull it is drawn; null or absent for no such limit. */
  readonly hull?: number | null
  /** Nearest stations that a node uses; null for all. */
  readonly neighbours: number | null
  /** Of inverse distance; null for the others. */
  readonly power: number | null
  /** Null for inverse distance. */
  readonly variogram: Variogram | null
  /** The experimental variogram where the model was fitted to it; else null. */
  readonly experimental: readonly Lag[] | null
  /** Leave-one-station-out with the plan's settings; null under three stations. */
  readonly testing: Testing | null
  /** The same with whole blocks of stations left out; null where they lie in one block. */
  readonly blocked: Testing | null
  /** Observed minus predicted at each of `points`, of both tests; null where there was none. */
  readonly residual: Float64Array | null
  readonly blockedResidual: Float64Array | null
  /** Degree of the trend that kriging takes off; 0 for none. */
  readonly trend: TrendDegree
  /** The external drift at the grid's nodes, and the points left out that have none; null for none. */
  readonly drift?: {
    readonly nodes: Float64Array
    readonly without: readonly number[]
  } | null
  readonly mask: NonNullable<SurfaceRule['mask']> | null
  /** What is kriged in place of the values; null or absent for the values themselves. */
  readonly transformed?: Transformed | null
  /** Polygons that it is drawn within; null for no such limit. */
  readonly within: readonly Polygon[] | null
  /** How stations are chosen where more than distance decides; null where it does not. */
  readonly choice: Choice | null
  /** What `chance-above` is simulated from; null for the other methods. */
  readonly chance: ChanceSetting | null
}

type Untested = Omit<SurfacePlan, 'testing' | 'blocked' | 'residual' | 'blockedResidual'>

/** Kriging under this many stations is refused. */
export const LEAST_FOR_KRIGING = 5
/** Up to this many stations every node uses all of them; beyond, some of the nearest. */
const ALL_UP_TO = 100
/** Walks are lines: the nearest thirty often lie along one, and sixty see the next as well. */
const KRIGED_FROM = 64
const WEIGHED_FROM = 32

/** What a surface is planned with besides its rule and its stations. */
export interface PlanOptions {
  /** In place of the grid that would follow from points, cell and reach. */
  readonly grid?: Grid
  /** The polygons and lines of the files that the rule names. */
  readonly boundaries?: Boundaries | null
  /** The raster that the rule names. */
  readonly drift?: Drift | null
  /** Side of the blocks that are left out, working units; suggested where absent. */
  readonly blockSide?: number | null
}

/**
 * Resolves every default of a surface: cell, reach, neighbours, variogram, grid and testing.
 *
 * @param points the stations' values; for a class or group indicators or shares in 0…1
 * @throws Error in words: too few stations, no spread, missing values, a grid too large
 */
export function planSurface(
  rule: SurfaceRule,
  points: Points,
  options: PlanOptions = {},
): SurfacePlan {
  const what = `"${rule.name}"`
  const barriers = options.boundaries?.barriers ?? null
  checkPoints(points, 1, what)
  const drifted = options.drift ? withDrift(points, options.drift, what) : null
  const merged = checkedPoints(rule, drifted?.points ?? points, what)
  const { reach, margin } = reachOf(rule, merged, what)
  refuseMixed(rule, barriers, what)
  const neighbours = neighboursUsed(rule, merged.x.length)
  const kriged = krigedBy(rule, merged, barriers, what)
  const grid = options.grid ?? gridFor(merged, rule.cell ?? suggestCell(merged), margin)
  if (kriged.chance) refuseManyNodes(grid, what)
  const plan: Untested = {
    name: rule.name,
    method: rule.method,
    grid,
    drift:
      options.drift && drifted
        ? { nodes: options.drift.onGrid(grid), without: drifted.without }
        : null,
    points: merged,
    reach,
    stationsAtLeast: rule.stations_at_least ?? null,
    errorAtMost: rule.error_at_most ?? null,
    hull: rule.hull ?? null,
    neighbours,
    power: rule.method === 'inverse-distance' ? (rule.power ?? 2) : null,
    ...kriged,
    mask: rule.mask ?? null,
    within: options.boundaries?.within ?? null,
    choice: choiceOf(rule, barriers, neighbours),
  }
  return withTests(plan, options.blockSide ?? undefined)
}

/** How far from stations a surface is drawn, and by how much the grid surrounds them. */
function reachOf(
  rule: SurfaceRule,
  points: Points,
  what: string,
): { readonly reach: number; readonly margin: number } {
  const margin = rule.reach ?? rule.hull ?? suggestReach(points)
  const isLimited = rule.error_at_most !== undefined || rule.hull !== undefined
  const reach = rule.reach ?? (isLimited ? Infinity : margin)
  if (!(reach > 0)) throw new Error(`The reach of ${what} must be above 0; it is ${reach}.`)
  return { reach, margin }
}

/** What is kriged or simulated, and by which variogram; nothing for the other methods. */
function krigedBy(
  rule: SurfaceRule,
  points: Points,
  barriers: Float64Array | null,
  what: string,
): Pick<Untested, 'trend' | 'chance' | 'transformed' | 'variogram' | 'experimental'> {
  const trend = rule.method === 'kriging' ? (rule.trend ?? 0) : 0
  const chance =
    rule.method === 'chance-above'
      ? chanceSetting(points, rule.above ?? NaN, rule.realisations, {
          declustered: rule.declustered,
          barriers,
        })
      : null
  const transformed = rule.transform
    ? transformedPoints(rule.transform, points, what, rule.declustered)
    : null
  const fit = chance
    ? { variogram: chance.variogram, experimental: null }
    : variogramFor(rule, transformed?.points ?? points, trend, barriers)
  const { variogram = null, experimental = null } = fit ?? {}
  return { trend, chance, transformed, variogram, experimental }
}

/** A plan with what its stations tell of it when they are left out. */
function withTests(plan: Untested, blockSide: number | undefined): SurfacePlan {
  const { single, blocks } = tests(plan, blockSide)
  return {
    ...plan,
    testing: told(single),
    blocked: told(blocks),
    residual: single?.residual ?? null,
    blockedResidual: blocks?.residual ?? null,
  }
}

/** How many of the nearest stations a node uses where nobody says; null for all of them. */
export function usualNeighbours(stations: number, method: SurfaceRule['method']): number | null {
  if (stations <= ALL_UP_TO) return null
  return method === 'inverse-distance' ? WEIGHED_FROM : KRIGED_FROM
}

/** How many of the nearest stations a node uses; null for all of them. */
function neighboursUsed({ method, neighbours }: SurfaceRule, count: number): number | null {
  if (method === 'natural-neighbour') return null
  const asked = method === 'nearest' ? 1 : (neighbours ?? usualNeighbours(count, method))
  return asked === null || asked >= count ? null : asked
}

function refuseManyNodes({ columns, rows }: Grid, what: string): void {
  if (columns * rows <= MOST_CHANCE_NODES) return
  throw new Error(
    `${what} has ${columns} by ${rows} nodes; a chance can be simulated at ` +
      `${MOST_CHANCE_NODES} at most. Choose a larger cell.`,
  )
}

function tests(
  plan: Untested,
  blockSide?: number,
): { single: Tested | null; blocks: Tested | null } {
  const { points, chance, neighbours } = plan
  if (points.x.length < 3) return { single: null, blocks: null }
  if (chance) return testChance(points, chance, neighbours)
  const method = testedMethod(plan)
  if (plan.transformed && method.method === 'kriging')
    return testTransformed(plan.transformed, points, method)
  return { single: leaveOneOut(points, method), blocks: leaveBlocksOut(points, method, blockSide) }
}

/** What does not go together is refused rather than left aside. */
function refuseMixed(rule: SurfaceRule, barriers: Float64Array | null, what: string): void {
  if (rule.transform === 'rank' && (rule.trend || rule.drift !== undefined))
    throw new Error(`${what} is kriged as ranks: ${NO_RANKS_WITH_MEAN}.`)
  const chooses = barriers !== null || rule.octants !== undefined
  if (rule.method === 'natural-neighbour' && chooses)
    throw new Error(
      `${what} is of natural neighbours, which keep to no barriers and octants; take them off, or ` +
        'choose another method.',
    )
  if (rule.method === 'chance-above' && rule.octants !== undefined)
    throw new Error(`${what} is simulated, which keeps to no octants; take them off, or krige.`)
}

/** Where barriers leave too few stations to predict from, nothing is told. */
function told(tested: Tested | null): Testing | null {
  return tested && tested.testing.count >= 3 ? tested.testing : null
}

function choiceOf(
  { octants }: SurfaceRule,
  barriers: Float64Array | null,
  neighbours: number | null,
): Choice | null {
  if (octants === undefined && !barriers) return null
  return { barriers, sectors: octants ? { count: 8 as const, most: octants } : null, neighbours }
}

function checkedPoints(rule: SurfaceRule, points: Points, what: string): Points {
  checkPoints(points, 1, what)
  const merged = mergeDuplicates(points)
  if (rule.method === 'class-probability') checkIndicators(merged, what)
  else {
    const kriged = rule.method === 'kriging' || rule.method === 'chance-above'
    const least = LEAST_FOR_KRIGING - 1 + trendCount(rule.trend ?? 0)
    checkPoints(merged, kriged ? least : rule.method === 'natural-neighbour' ? 3 : 2, what)
    checkSpread(merged, what)
  }
  return merged
}

function variogramFor(
  rule: SurfaceRule,
  points: Points,
  trend: TrendDegree,
  barriers: Float64Array | null,
): { variogram: Variogram; experimental: readonly Lag[] | null } | null {
  if (!BY_VARIOGRAM[rule.method]) return null
  if (rule.variogram === undefined || rule.variogram === 'fit')
    return automaticVariogram(points, trend, barriers)
  checkVariogram(rule.variogram)
  return { variogram: rule.variogram, experimental: null }
}

/** Whether a method works by a variogram. */
const BY_VARIOGRAM: Readonly<Record<SurfaceRule['method'], boolean>> = {
  kriging: true,
  'inverse-distance': false,
  nearest: false,
  'natural-neighbour': false,
  'class-probability': true,
  'chance-above': true,
  'likeliest-class': true,
}

/** How a plan's stations are predicted when they are left out. */
function testedMethod(plan: Untested): TestedMethod {
  const { name, method, variogram } = plan
  if (method === 'natural-neighbour') return { method }
  if (variogram === null && method !== 'inverse-distance' && method !== 'nearest')
    throw new Error(`Nothing here tests "${name}" by ${method}.`)
  return choosingMethod(plan)
}

/** The same for a method that can choose its stations by more than distance. */
export function choosingMethod(plan: Untested): ChoosingMethod {
  if (plan.variogram === null)
    return {
      method: 'inverse-distance',
      power: plan.power ?? undefined,
      neighbours: plan.neighbours,
      choice: plan.choice,
    }
  const { variogram, neighbours, trend, choice } = plan
  return { method: 'kriging', variogram, neighbours, trend, choice }
}

/** The stations that are kriged: transformed or scored where that is asked for. */
export function krigedPoints({ points, transformed, chance }: Untested): Points {
  return chance?.scored ?? transformed?.points ?? points
}
