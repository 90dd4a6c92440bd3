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
