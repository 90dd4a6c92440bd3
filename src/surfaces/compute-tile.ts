/**
 * Computes the nodes of a plan, whatever its method.
 *
 * A node's numbers do not depend on the tile that it is computed in, so that the number of workers
 * changes nothing.
 */
import { keepWithin } from './boundaries'
import { chancesOf } from './chance'
import type { Choice } from './chosen-neighbours'
import { ChosenEstimator, PASSED_OVER, type ChosenValues } from './chosen-rows'
import { choosingMethod, krigedPoints, type SurfacePlan } from './compute'
import { driftOfRows } from './external-drift'
import { clippedProbabilities } from './indicator'
import { inverseDistanceRows } from './inverse-distance'
import { Kriger } from './kriging'
import { prepareField } from './kriging-field'
import type { Grid, SurfaceBands, Variogram } from './model'
import { naturalNeighbours, type NaturalNeighbours } from './natural-neighbour'
import { keepInHull, keepWithinError, withinReach } from './reach'
import {
  assemble,
  cutTile,
  tilesOf,
  wholeRows,
  type Part,
  type SurfaceTile,
  type TilesDone,
} from './tiles'
import { restorerOf } from './transformed-surface'

const choosers = new WeakMap<SurfacePlan, ChosenEstimator>()

/** The plan's stations prepared for choosing, kept for its next tile. */
function chooserOf(plan: SurfacePlan, choice: Choice): ChosenEstimator {
  const known = choosers.get(plan)
  if (known) return known
  const chooser = new ChosenEstimator(krigedPoints(plan), choosingMethod(plan), choice)
  choosers.set(plan, chooser)
  return chooser
}

const naturals = new WeakMap<SurfacePlan, NaturalNeighbours>()

/** The plan's triangulated stations, kept for its next tile. */
function naturalOf(plan: SurfacePlan): NaturalNeighbours {
  const known = naturals.get(plan)
  if (known) return known
  const field = naturalNeighbours(plan.points)
  naturals.set(plan, field)
  return field
}

const krigers = new WeakMap<SurfacePlan, Kriger>()

/** The plan's prepared stations, kept for its next tile. */
function krigerOf(plan: SurfacePlan, variogram: Variogram): Kriger {
  const known = krigers.get(plan)
  if (known) return known
  const { neighbours, trend } = plan
  const options = { neighbours, trend, lagrange: plan.transformed?.kind === 'log' }
  const kriger = new Kriger(prepareField(krigedPoints(plan), variogram), options)
  krigers.set(plan, kriger)
  return kriger
}

/**
 * Computes rows [from, to) of a plan; nodes outside the reach are NaN.
 *
 * @param grid other than the plan's own: a coarser one
 */
export function computeRows(
  plan: SurfacePlan,
  [from, to]: readonly [from: number, to: number],
  grid: Grid = plan.grid,
): SurfaceTile {
  return computeTile(plan, wholeRows(grid, from, to), grid)
}

/**
 * Prepares a plan's stations for its tiles, which would do so themselves: with many stations that
 * takes as long as a tile.
 */
export function preparePlan(plan: SurfacePlan): void {
  const { choice, variogram } = plan
  if (choice) chooserOf(plan, choice)
  else if (variogram) krigerOf(plan, variogram)
  else if (plan.method === 'natural-neighbour') naturalOf(plan)
}

/** Computes a part of a plan, on a grid of its own as `computeRows` has it. */
export function computeTile(plan: SurfacePlan, part: Part, grid: Grid = plan.grid): SurfaceTile {
  return compute(plan, part, grid, () => false).tile
}

/**
 * The same for as long as there is time. Where stations are chosen one node may take hundreds of
 * times as long as another, so that there the part is left at the nodes where time is up; elsewhere
 * it is computed whole.
 *
 * @param isOver whether time is up
 */
export function computeUntil(
  plan: SurfacePlan,
  part: Part,
  grid: Grid = plan.grid,
  isOver: () => boolean,
): TilesDone {
  const { tile, wanted } = compute(plan, part, grid, isOver)
  return wanted.includes(PASSED_OVER)
    ? cutTile(tile, columnsOf(wanted, grid.columns, part.left, part.right))
    : { tiles: [tile], left: [] }
}

function compute(
  plan: SurfacePlan,
  part: Part,
  grid: Grid,
  isOver: () => boolean,
): { readonly tile: SurfaceTile; readonly wanted: Uint8Array } {
  const { from, to, left, right } = part
  const wanted = withinReach(plan.points, grid, part, plan.reach, plan.stationsAtLeast ?? 1)
  if (plan.within) keepWithin(plan.within, grid, [from, to], wanted)
  if (typeof plan.hull === 'number') keepInHull(plan.points, plan.hull, grid, [from, to], wanted)
  const drift = plan.drift ? driftOfRows(plan.grid, plan.drift.nodes, grid, [from, to]) : null
  drift?.forEach((value, node) => {
    if (Number.isNaN(value)) wanted[node] = 0
  })
  const asked = { grid, rows: [from, to] as const, wanted, drift, isOver }
  const { estimate, variance } = computeWanted(plan, asked)
  if (typeof plan.errorAtMost === 'number' && variance)
    keepWithinError(estimate, variance, plan.errorAtMost)
  const chance = plan.method === 'class-probability'
  const cut = (values: Float64Array) => columnsOf(values, grid.columns, left, right)
  const tile = {
    ...part,
    estimate: cut(chance ? clippedProbabilities(estimate) : estimate),
    variance: variance && cut(variance),
  }
  return { tile, wanted }
}

/** Nodes of rows, 1 where they are wanted. */
interface Wanted {
  readonly grid: Grid
  readonly rows: readonly [from: number, to: number]
  readonly wanted: Uint8Array
  readonly drift: Float64Array | null
  readonly isOver: () => boolean
}

function computeWanted(
  plan: SurfacePlan,
  { grid, rows, wanted, drift, isOver }: Wanted,
): { estimate: Float64Array; variance: Float64Array | null } {
  const { points, choice, variogram } = plan
  if (choice) {
    const chooser = chooserOf(plan, choice)
    return inOwnUnit(plan, chooser.rows(grid, rows, wanted, plan.reach, drift, isOver))
  }
  if (variogram) {
    const kriger = krigerOf(plan, variogram)
    kriger.driftAtTargets = drift
    return inOwnUnit(plan, kriger.krigeRows(grid, rows, wanted))
  }
  if (plan.method === 'natural-neighbour')
    return { estimate: naturalOf(plan).rows(grid, rows, wanted), variance: null }
  if (plan.method !== 'inverse-distance' && plan.method !== 'nearest')
    throw new Error(`Nothing here computes "${plan.name}" by ${plan.method}.`)
  const { power, neighbours } = plan
  const options = { power: power ?? undefined, neighbours, wanted }
  return { estimate: inverseDistanceRows(points, grid, rows, options), variance: null }
}

/**
 * Kriged transformed values brought back, kriged scores as chances, which a simulation's approach;
 * others as they are.
 */
function inOwnUnit(
  { transformed, points, chance }: SurfacePlan,
  { estimate, variance, lagrange }: ChosenValues,
): Pick<SurfaceTile, 'estimate' | 'variance'> {
  if (chance && variance) return { estimate: chancesOf(chance, estimate, variance), variance: null }
  if (!transformed || !variance) return { estimate, variance }
  return restorerOf(transformed, points.value)({ estimate, variance, lagrange })
}

/** Columns [left, right) of row-major values. */
function columnsOf<T extends Float64Array | Uint8Array>(
  values: T,
  columns: number,
  left: number,
  right: number,
): T {
  const width = right - left
  if (width === columns) return values
  const out = values.slice(0, (values.length / columns) * width) as T
  for (let at = 0, row = 0; at < out.length; at += width, row += columns)
    out.set(values.subarray(row + left, row + right), at)
  return out
}

/** All tiles one after another, for a caller that has no workers. The mask is not yet applied. */
export function computeSurface(plan: SurfacePlan): SurfaceBands {
  return assemble(
    plan,
    tilesOf(plan).map((part) => computeTile(plan, part)),
  )
}
