/**
 * A tile within the time for which a worker may be deaf to Stop (50 ms).
 *
 * What a node takes is known only roughly beforehand. So a tile is computed in pieces, none begun
 * that is expected to take long by what the pieces before it took, and left inside a piece where
 * nodes differ too much to be foreseen; what is left when time is up goes back to be asked for
 * again. A node's numbers do not depend on the piece that it is computed in.
 */
import type { SurfacePlan } from '../surfaces/compute'
import { computeUntil, preparePlan } from '../surfaces/compute-tile'
import type { Grid } from '../surfaces/model'
import { halvesOf, nodeCost, type Part, type SurfaceTile, type TilesDone } from '../surfaces/tiles'

/** Milliseconds after which nothing more is begun, and that a piece should take at most. */
const ENOUGH = 16
const PIECE = 16
/** What a piece takes, however few its nodes, and how little of it tells nothing; milliseconds. */
const LEAST = 0.4
const TELLING = 1
/** How much longer than expected a fresh worker takes, before the engine has made its code fast. */
const FRESH = 4
/** After a slow piece the expectation comes down again by this a piece. */
const CALMING = 0.8
const SLOWEST = 50

/** How much longer than expected a plan's pieces take here. */
const paces = new WeakMap<SurfacePlan, number>()

/**
 * Computes what there is time for of a part: one piece at least, unless the plan is new here and its
 * stations took all the time.
 *
 * @param grid other than the plan's own: a coarser one; absent for the plan's
 * @param clock milliseconds
 */
export function timedTiles(
  plan: SurfacePlan,
  part: Part,
  grid: Grid | undefined,
  clock: () => number,
): TilesDone {
  const tiles: SurfaceTile[] = []
  const left: Part[] = [part]
  const began = clock()
  const isOver = () => clock() - began > ENOUGH
  if (!paces.has(plan)) {
    preparePlan(plan)
    paces.set(plan, FRESH)
    if (isOver()) return { tiles, left }
  }
  const perNode = nodeCost(plan) / 1e6
  let pace = paces.get(plan) ?? FRESH
  for (let next = left.pop(); next; next = left.pop()) {
    if (tiles.length > 0 && isOver()) {
      left.push(next)
      break
    }
    const expected = LEAST + perNode * (next.to - next.from) * (next.right - next.left)
    const halves = pace * expected > PIECE ? halvesOf(next) : null
    if (halves) {
      left.push(halves[1], halves[0])
      continue
    }
    const start = clock()
    const done = computeUntil(plan, next, grid, isOver)
    const took = clock() - start
    tiles.push(...done.tiles)
    left.push(...done.left)
    const calmed = Math.max(1, pace * CALMING)
    pace = took > TELLING ? Math.min(SLOWEST, Math.max(calmed, took / expected)) : calmed
  }
  paces.set(plan, pace)
  return { tiles, left }
}
