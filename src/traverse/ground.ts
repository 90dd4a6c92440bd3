/** The ground of a day's walk: a grid of elevations about its places, with what is avoided closed. */
import { keepWithin, type Polygon } from '../surfaces/boundaries'
import type { Grid } from '../surfaces/model'
import type { WalkGrid } from './walk-grid'
import type { Spots } from './worth'

/** Nodes along the longer side: a way over them is found in some tens of milliseconds. */
const NODES_A_SIDE = 180
/** Room about the places for ways around, as a part of their extent. */
const ROOM = 0.15
/** Places within this are taken for one spot, whose grid would be finer than numbers are, metres. */
const LEAST_EXTENT = 10

/** How the ground is walked. */
export interface GroundInput {
  /** Places that the grid must hold. */
  readonly places: Spots
  /** Metres at every node, NaN where the terrain has none; null where no terrain is known. */
  readonly elevations: ((grid: Grid) => Float64Array) | null
  /** Polygons that are not walked through. */
  readonly avoided: readonly Polygon[]
  readonly metresPerUnit: number
  /** Part of the speed on a path. */
  readonly pace: number
  /** Steepest slope that is walked, degrees. */
  readonly steepest: number
}

/** The ground about some places; flat where no terrain is known. */
export function groundOf(input: GroundInput): WalkGrid {
  const grid = gridAbout(input.places, LEAST_EXTENT / input.metresPerUnit)
  const nodes = grid.columns * grid.rows
  const elevation = input.elevations?.(grid) ?? new Float64Array(nodes)
  for (const polygon of input.avoided) {
    const inside = new Uint8Array(nodes).fill(1)
    keepWithin([polygon], grid, [0, grid.rows], inside)
    for (let node = 0; node < nodes; node++) if (inside[node]) elevation[node] = NaN
  }
  const { metresPerUnit, pace, steepest } = input
  return { grid, elevation, metresPerUnit, pace, steepest: Math.tan((steepest * Math.PI) / 180) }
}

function gridAbout({ x, y }: Spots, least: number): Grid {
  const [west, east] = extentOf(x)
  const [south, north] = extentOf(y)
  const extent = Math.max(east - west, north - south, least)
  const room = ROOM * extent
  const cell = (extent + 2 * room) / NODES_A_SIDE
  return {
    west: west - room,
    north: north + room,
    cell,
    columns: Math.max(1, Math.ceil((east - west + 2 * room) / cell)),
    rows: Math.max(1, Math.ceil((north - south + 2 * room) / cell)),
  }
}

function extentOf(values: Float64Array): [least: number, most: number] {
  let least = Infinity
  let most = -Infinity
  for (const value of values) {
    if (value < least) least = value
    if (value > most) most = value
  }
  return [least, most]
}
