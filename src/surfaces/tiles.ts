/**
 * How a surface is cut into tiles that workers compute, and how they are joined.
 *
 * A tile takes well under the 50 ms for which a worker may be deaf to Stop, so that where nodes are
 * dear it is part of some rows only. Its first cut depends on the plan alone; a worker that finds
 * it dearer gives a part of it back. A node's numbers do not depend on its tile.
 */
import { TileJoiner } from './coarse'
import type { Choice } from './chosen-neighbours'
import type { SurfacePlan } from './compute'
import type { Grid, SurfaceBands } from './model'

/** Rows [from, to) and columns [left, right) of a grid. */
export interface Part {
  readonly from: number
  readonly to: number
  readonly left: number
  readonly right: number
}

/** A part of a surface, row-major. */
export interface SurfaceTile extends Part {
  readonly estimate: Float64Array
  readonly variance: Float64Array | null
}

/** Tiles that are computed, and the parts that there was no time for. */
export interface TilesDone {
  readonly tiles: readonly SurfaceTile[]
  readonly left: readonly Part[]
}

/**
 * A tile without some of its nodes: what is computed and what is not, each in rectangles of rows
 * that are alike.
 *
 * @param missing above 1 for nodes that are not computed, as the tile has them
 */
export function cutTile(tile: SurfaceTile, missing: Uint8Array): TilesDone {
  const { from, to, left, right, estimate, variance } = tile
  const width = right - left
  const tiles: SurfaceTile[] = []
  const rest: Part[] = []
  const isMissing = (row: number, column: number) => missing[row * width + column] > 1
  const alike = (row: number, other: number) => {
    for (let c = 0; c < width; c++) if (isMissing(row, c) !== isMissing(other, c)) return false
    return true
  }
  const band = (values: Float64Array, top: number, end: number, a: number, b: number) => {
    const out = new Float64Array((end - top) * (b - a))
    for (let row = top; row < end; row++)
      out.set(values.subarray(row * width + a, row * width + b), (row - top) * (b - a))
    return out
  }
  for (let top = 0, end = 1; top < to - from; top = end++) {
    while (end < to - from && alike(top, end)) end++
    for (let a = 0, b = 1; a < width; a = b++) {
      while (b < width && isMissing(top, b) === isMissing(top, a)) b++
      const part = { from: from + top, to: from + end, left: left + a, right: left + b }
      if (isMissing(top, a)) rest.push(part)
      else
        tiles.push({
          ...part,
          estimate: band(estimate, top, end, a, b),
          variance: variance && band(variance, top, end, a, b),
        })
    }
  }
  return { tiles, left: rest }
}

/** Some rows in all their width. */
export function wholeRows({ columns }: Grid, from: number, to: number): Part {
  return { from, to, left: 0, right: columns }
}

/** Nanoseconds that a tile should take. */
const TILE_NANOSECONDS = 15e6
/** Rows of a tile that is not as wide as the grid. */
const TALLEST = 32

/** About how long a node takes, nanoseconds, wherever it lies. */
export function nodeCost(plan: SurfacePlan): number {
  return estimateCost(plan) + (plan.transformed ? RESTORING : 0)
}

/** What bringing a transformed value back takes. */
const RESTORING = 3000

function estimateCost({ points, neighbours, variogram, choice, method }: SurfacePlan): number {
  if (method === 'natural-neighbour') return 3000
  const count = points.x.length
  const used = neighbours ?? count
  const near = neighbours !== null
  if (choice)
    return choosingCost(choice, used, count) + (variogram === null ? 0 : factorCost(choice, used))
  if (variogram === null) return near ? 400 + 40 * used + 0.2 * count : 100 + 6 * used
  return 100 + 20 * used + 0.6 * used ** 2 + (near ? used ** 3 / 10 + 0.2 * count : 0)
}

/**
 * Choosing a node's stations, as it is mostly: beside a fault, where a sector holds hidden ones
 * alone, one node may take two hundred times as long (see `partCost`).
 */
function choosingCost({ sectors, barriers }: Choice, used: number, count: number): number {
  const far = (barriers ? 0.5 : 0) + (sectors ? 0.5 : 0) + (barriers && sectors ? 1 : 0)
  return 1500 + 200 * used + far * count
}

/** A factor of the node's own, which it may need beside a fault. */
function factorCost({ sectors }: Choice, used: number): number {
  const chosen = Math.min(used, sectors ? sectors.count * sectors.most : used)
  return 1000 + 50 * chosen + chosen ** 2 + chosen ** 3 / 6
}

/** The halves of a part across its longer side; null where it is a single node. */
export function halvesOf(part: Part): readonly [Part, Part] | null {
  const { from, to, left, right } = part
  if (to - from > 1 && to - from >= right - left) {
    const middle = (from + to) >> 1
    return [
      { ...part, to: middle },
      { ...part, from: middle },
    ]
  }
  if (right - left < 2) return null
  const middle = (left + right) >> 1
  return [
    { ...part, right: middle },
    { ...part, left: middle },
  ]
}

/** The tiles of a plan in order: some rows from the north down, each from west to east. */
export function tilesOf(plan: SurfacePlan): Part[] {
  const { columns, rows } = plan.grid
  const nodes = Math.max(1, TILE_NANOSECONDS / nodeCost(plan))
  const tall = Math.min(rows, TALLEST, Math.max(1, Math.round(Math.sqrt(nodes))))
  const across = Math.max(1, Math.ceil(columns / Math.max(1, nodes / tall)))
  const width = Math.ceil(columns / across)
  const height = across > 1 ? tall : Math.min(rows, Math.max(1, Math.floor(nodes / columns)))
  const tiles: Part[] = []
  for (let from = 0; from < rows; from += height)
    for (let left = 0; left < columns; left += width)
      tiles.push({
        from,
        to: Math.min(rows, from + height),
        left,
        right: Math.min(columns, left + width),
      })
  return tiles
}

/**
 * Joins tiles, in whatever order they came.
 *
 * @throws Error where nodes are missing or given twice
 */
export function assemble(plan: SurfacePlan, tiles: readonly SurfaceTile[]): SurfaceBands {
  const joiner = new TileJoiner(plan.name, plan.grid, plan.variogram !== null)
  for (const tile of tiles) joiner.add(tile)
  return joiner.bands()
}
