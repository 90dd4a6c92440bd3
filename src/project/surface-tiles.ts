/** Computes a plan's nodes in tiles of workers, coarse first where someone looks on. */
import type { Pool } from '../jobs/pool'
import { coarseSteps, everyNode, Picture, TileJoiner } from '../surfaces/coarse'
import type { SurfacePlan } from '../surfaces/compute'
import type { Grid, SurfaceBands } from '../surfaces/model'
import { tilesOf, type Part, type SurfaceTile } from '../surfaces/tiles'

/** A surface on its way. */
export interface SoFar {
  /** On a coarser grid than the plan's. */
  readonly bands: SurfaceBands
  /** Where it is coarse it has every so-manieth node. */
  readonly step: number
  /** Part of the nodes that are computed. */
  readonly part: number
  /** Of a simulated chance: from how many realisations of how many; absent before the first. */
  readonly realisations?: readonly [drawn: number, all: number]
}

export interface TilesOptions {
  readonly signal: AbortSignal
  readonly progress: (done: number, total: number) => void
  /** Told of coarse pictures of a large surface and of their refining; null to go without. */
  readonly soFar: ((soFar: SoFar) => void) | null
}

/** A picture is told of again after so many more nodes, and an eighth of all at least. */
const NODES_PER_PICTURE = 50_000

/** A surface at every step-th node of every step-th row, for looking at. */
export async function coarsePass(
  pool: Pool,
  plan: SurfacePlan,
  name: string,
  step: number,
  signal: AbortSignal,
): Promise<SurfaceBands> {
  const grid = everyNode(plan.grid, step)
  const joined = new TileJoiner(plan.name, grid, hasVarianceOf(plan))
  pool.provide(name, plan)
  try {
    const one = async (part: Part, urgent: boolean): Promise<void> => {
      const input = { plan: name, part, grid }
      const { tiles, left } = await pool.run('surface tile', input, { signal, urgent })
      for (const tile of tiles) joined.add(tile)
      await Promise.all(left.map((rest) => one(rest, true)))
    }
    await Promise.all(tilesOf({ ...plan, grid }).map((part) => one(part, false)))
    return joined.bands()
  } finally {
    pool.withdraw(name)
  }
}

/** Whether tiles have a variance: a simulated chance has a model and none. */
function hasVarianceOf({ variogram, chance }: SurfacePlan): boolean {
  return variogram !== null && chance === null
}

/**
 * A surface's bands. The passes that come first are for looking at: every node is computed anew on
 * the plan's own grid, so that nothing in the result depends on them or on the number of workers.
 *
 * @param name under which the plan is given to workers, a new one each time
 */
export async function computeInTiles(
  pool: Pool,
  plan: SurfacePlan,
  name: string,
  { signal, progress, soFar }: TilesOptions,
): Promise<SurfaceBands> {
  const hasVariance = hasVarianceOf(plan)
  const steps = soFar ? coarseSteps(plan.grid) : []
  const grids = [...steps.map((step) => everyNode(plan.grid, step)), plan.grid]
  const picture = steps.length > 0 ? new Picture(plan.grid, hasVariance) : null
  const passes = grids.map((grid) => tilesOf({ ...plan, grid }))
  const total = grids.reduce((sum, { columns, rows }) => sum + columns * rows, 0)
  const nodes = plan.grid.columns * plan.grid.rows
  const perPicture = Math.max(NODES_PER_PICTURE, nodes / 8)
  let [done, known, told, coarsest] = [0, 0, 0, Infinity]

  const pass = async (grid: Grid, tiles: readonly Part[]) => {
    const joined = new TileJoiner(plan.name, grid, hasVariance)
    const full = grid === plan.grid
    const take = (tile: SurfaceTile) => {
      joined.add(tile)
      const count = (tile.to - tile.from) * (tile.right - tile.left)
      done += count
      if (!full || !picture) return
      picture.take(tile)
      known += count
    }
    // What a worker gives back goes first, or a coarse pass would end behind all that follows it.
    const one = async (part: Part, urgent: boolean): Promise<void> => {
      const input = { plan: name, part, ...(full ? {} : { grid }) }
      const { tiles: computed, left } = await pool.run('surface tile', input, { signal, urgent })
      computed.forEach(take)
      if (known - told >= perPicture && known < nodes && coarsest < Infinity) tell()
      progress(done, total)
      await Promise.all(left.map((rest) => one(rest, true)))
    }
    await Promise.all(tiles.map((part) => one(part, false)))
    return joined.bands()
  }

  const coarse = async (step: number, grid: Grid, tiles: readonly Part[]) => {
    const bands = await pass(grid, tiles)
    // A finer pass may have been quicker.
    if (step >= coarsest) return
    coarsest = step
    picture?.spread(bands)
    tell(known === 0 ? bands : undefined)
  }

  const tell = (bands = picture?.bands()) => {
    told = known
    if (bands) soFar?.({ bands, step: coarsest, part: known / nodes })
  }

  pool.provide(name, plan)
  try {
    // All are asked for at once, coarse ones first: no worker waits for a pass to come to its end.
    const first = steps.map((step, i) => coarse(step, grids[i], passes[i]))
    const last = pass(plan.grid, passes[steps.length])
    const [bands] = await Promise.all([last, ...first])
    return bands
  } finally {
    pool.withdraw(name)
  }
}
