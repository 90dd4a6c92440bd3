/** What workers do for a walk: lay it out, seek ways, choose. */
import type { Polygon } from '../surfaces/boundaries'
import { layOut, type Layout, type LayoutInput } from '../traverse/layout'
import type { Leg } from '../traverse/timetable'
import { lengthOf, waysFrom, wayTo, type WalkGrid } from '../traverse/walk-grid'
import { nodeX, nodeY } from '../surfaces/grid'
import { openDrift, type DriftInput } from './drift-raster'

export interface TraverseInput extends Omit<LayoutInput, 'elevations'> {
  /** The raster of elevations, metres; null where no terrain is known. */
  readonly terrain: DriftInput | null
  readonly avoided: readonly Polygon[]
}

/** Lays a walk out on its terrain. @throws Error in words where that cannot be */
export async function layOutWalk({ terrain, ...input }: TraverseInput): Promise<Layout> {
  const raster = terrain && (await openDrift(terrain))
  return layOut({ ...input, elevations: raster && ((grid) => raster.onGrid(grid)) })
}

export interface WalkFromInput {
  /** The key under which the ground was provided. */
  readonly ground: string
  readonly from: number
  readonly to: Int32Array
}

/** Seconds of walking from a node to others; Infinity where no way leads. */
export function walkFrom(ground: WalkGrid, { from, to }: WalkFromInput): Float64Array {
  const { seconds } = waysFrom(ground, from)
  return Float64Array.from(to, (node) => seconds[node])
}

export interface WalkLegInput {
  /** The key under which the ground was provided. */
  readonly ground: string
  readonly from: number
  readonly to: number
}

/** A leg with the nodes that it is walked over, working units. */
export interface WalkedLeg extends Leg {
  readonly x: Float64Array
  readonly y: Float64Array
  /** Elevation of each node, m; 0 all over where no terrain is known. */
  readonly z: Float64Array
}

/** The quickest way from a node to another. */
export function walkLeg(ground: WalkGrid, { from, to }: WalkLegInput): WalkedLeg {
  const ways = waysFrom(ground, from)
  const nodes = wayTo(ways, to)
  const { grid } = ground
  return {
    ...lengthOf(ground, nodes),
    seconds: ways.seconds[to],
    x: Float64Array.from(nodes, (node) => nodeX(grid, node % grid.columns)),
    y: Float64Array.from(nodes, (node) => nodeY(grid, Math.floor(node / grid.columns))),
    z: Float64Array.from(nodes, (node) => ground.elevation[node]),
  }
}
