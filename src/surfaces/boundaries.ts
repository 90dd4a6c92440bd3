/** Boundaries of a surface: polygons that it is drawn within, and lines that it does not reach across. */
import type { Grid } from './model'
import { nodeY } from './grid'

/** A closed line as x, y, x, y …, in working units; the last corner need not repeat the first. */
export type Ring = Float64Array

/** Rings of one polygon, the outer one and its holes, in any order and direction. */
export type Polygon = readonly Ring[]

export interface Boundaries {
  /** The surface is drawn inside any of these alone; null for no such limit. */
  readonly within: readonly Polygon[] | null
  /**
   * Straight pieces of faults and contacts as x1, y1, x2, y2 …: nothing is used across them;
   * null for none.
   */
  readonly barriers: Float64Array | null
}

/**
 * Takes the nodes outside all polygons off those that are wanted. A node is inside a polygon where
 * a line from it to the west crosses its rings an odd number of times, so that rings inside the
 * outer one are holes. West and north edges belong to the polygon, as in GDAL's rasters.
 *
 * @param wanted 1 for wanted nodes, row-major from the first row; changed in place
 */
export function keepWithin(
  polygons: readonly Polygon[],
  grid: Grid,
  [from, to]: readonly [from: number, to: number],
  wanted: Uint8Array,
): void {
  const { columns, west, cell } = grid
  const inside = new Uint8Array(columns)
  for (let row = from; row < to; row++) {
    inside.fill(0)
    for (const polygon of polygons) {
      const crossings = crossingsAt(polygon, nodeY(grid, row))
      for (let i = 0; i + 1 < crossings.length; i += 2) {
        const first = Math.max(0, Math.ceil((crossings[i] - west) / cell - 0.5))
        const end = Math.min(columns, Math.ceil((crossings[i + 1] - west) / cell - 0.5))
        if (first < end) inside.fill(1, first, end)
      }
    }
    const start = (row - from) * columns
    for (let column = 0; column < columns; column++) wanted[start + column] &= inside[column]
  }
}

/** Eastings at which a polygon's rings cross a northing, ascending. */
function crossingsAt(polygon: Polygon, y: number): Float64Array {
  const found: number[] = []
  for (const ring of polygon) {
    const count = ring.length / 2
    for (let i = 0; i < count; i++) {
      const j = (i + 1) % count
      const y1 = ring[2 * i + 1]
      const y2 = ring[2 * j + 1]
      if (y1 > y === y2 > y) continue
      found.push(ring[2 * i] + ((y - y1) / (y2 - y1)) * (ring[2 * j] - ring[2 * i]))
    }
  }
  return Float64Array.from(found).sort()
}

/** A rectangle of places. */
export interface Box {
  readonly west: number
  readonly south: number
  readonly east: number
  readonly north: number
}

/**
 * Says which stations are cut off from which nodes. It works block by block: for each station only
 * the pieces that can lie between it and the block's nodes are looked at.
 */
export class Sight {
  private box: Box = { west: 0, south: 0, east: 0, north: 0 }
  /** Pieces between a station and the block, once asked for. */
  private between = new Map<number, Int32Array>()

  constructor(
    private readonly x: Float64Array,
    private readonly y: Float64Array,
    private readonly barriers: Float64Array,
  ) {}

  /** Turns to the nodes of a rectangle. */
  face(box: Box): void {
    this.box = box
    this.between.clear()
  }

  /**
   * Whether the straight line from a place of the block to a station crosses no barrier. A station
   * exactly on a barrier is seen from both of its sides.
   */
  sees(x: number, y: number, station: number): boolean {
    let pieces = this.between.get(station)
    if (!pieces) {
      pieces = this.piecesBetween(station)
      this.between.set(station, pieces)
    }
    const dx = this.x[station] - x
    const dy = this.y[station] - y
    for (const piece of pieces) if (this.cuts(piece, x, y, dx, dy)) return false
    return true
  }

  private piecesBetween(station: number): Int32Array {
    const { box, barriers } = this
    const west = Math.min(box.west, this.x[station])
    const east = Math.max(box.east, this.x[station])
    const south = Math.min(box.south, this.y[station])
    const north = Math.max(box.north, this.y[station])
    const found: number[] = []
    for (let at = 0; at < barriers.length; at += 4) {
      if (Math.max(barriers[at], barriers[at + 2]) < west) continue
      if (Math.min(barriers[at], barriers[at + 2]) > east) continue
      if (Math.max(barriers[at + 1], barriers[at + 3]) < south) continue
      if (Math.min(barriers[at + 1], barriers[at + 3]) > north) continue
      found.push(at)
    }
    return Int32Array.from(found)
  }

  /**
   * Whether a piece lies across the step (dx, dy) from (x, y). A piece's end that lies exactly on
   * the step counts to one side, so that no gap opens where two pieces of a line meet.
   */
  private cuts(piece: number, x: number, y: number, dx: number, dy: number): boolean {
    const { barriers } = this
    const ax = barriers[piece] - x
    const ay = barriers[piece + 1] - y
    const bx = barriers[piece + 2] - x
    const by = barriers[piece + 3] - y
    if (dx * ay - dy * ax >= 0 === dx * by - dy * bx >= 0) return false
    const px = bx - ax
    const py = by - ay
    const here = px * -ay - py * -ax
    const there = px * (dy - ay) - py * (dx - ax)
    return (here < 0 && there > 0) || (here > 0 && there < 0)
  }
}
