/** Grids: a cell for given points, and the grid that covers them. */
import type { Grid, Points } from './model'
import { boundsOf } from './points'

/** Most columns and most rows of a grid. */
export const MOST_NODES_A_SIDE = 4000

type Places = Pick<Points, 'x' | 'y'>

/**
 * Area of the convex hull of places, squared working units; of a band a tenth as wide as long
 * where they lie on or near a line.
 */
export function hullArea(places: Places): number {
  const hull = convexHull(places)
  let twice = 0
  for (let i = 0; i < hull.length; i++) {
    const a = hull[i]
    const b = hull[(i + 1) % hull.length]
    twice += places.x[a] * places.y[b] - places.x[b] * places.y[a]
  }
  const [west, south, east, north] = boundsOf(places)
  const diagonal = Math.hypot(east - west, north - south)
  return Math.max(Math.abs(twice) / 2, 0.1 * diagonal * diagonal)
}

/** Numbers of the corners of places' convex hull, counterclockwise; a lone place gives none. */
export function convexHull(places: Places): number[] {
  const order = Array.from(places.x, (_, i) => i).sort(
    (a, b) => places.x[a] - places.x[b] || places.y[a] - places.y[b],
  )
  return [...halfHull(order, places), ...halfHull(order.reverse(), places)]
}

/** One chain of Andrew's hull, without its last corner. */
function halfHull(order: readonly number[], { x, y }: Places): number[] {
  const chain: number[] = []
  for (const i of order) {
    for (;;) {
      const a = chain[chain.length - 2]
      const b = chain[chain.length - 1]
      if (chain.length < 2) break
      if ((x[b] - x[a]) * (y[i] - y[a]) - (y[b] - y[a]) * (x[i] - x[a]) > 0) break
      chain.pop()
    }
    chain.push(i)
  }
  return chain.slice(0, -1)
}

/** Mean spacing of places: the side of the square that each has to itself. 0 for a lone place. */
export function meanSpacing(places: Places): number {
  return Math.sqrt(hullArea(places) / places.x.length)
}

/**
 * A cell suggested for points: about an eighth of their mean spacing, rounded to 1, 2 or 5 times
 * a power of ten (common practice asks for a half to a tenth of it), and large enough that the
 * bounding box takes at most a thousand cells a side.
 */
export function suggestCell(points: Places): number {
  const [west, south, east, north] = boundsOf(points)
  const side = Math.max(east - west, north - south)
  const wanted = Math.max(meanSpacing(points) / 8, side / 1000)
  return wanted > 0 ? roundNumber(wanted) : 1
}

/** The number 1, 2 or 5 times a power of ten that is nearest on a logarithmic scale. */
export function roundNumber(wanted: number): number {
  const power = 10 ** Math.floor(Math.log10(wanted))
  const part = wanted / power
  // Geometric means of 1·2, 2·5 and 5·10.
  const factor = part < Math.SQRT2 ? 1 : part < Math.sqrt(10) ? 2 : part < Math.sqrt(50) ? 5 : 10
  // Through text, so that 0.1 · 2 is the number that people write.
  return Number((factor * power).toPrecision(1))
}

/**
 * The grid that covers points and a reach around them; its edges are multiples of the cell.
 *
 * @throws Error where the cell is not above 0 or the grid would exceed 4000 nodes a side
 */
export function gridFor(points: Places, cell: number, reach: number): Grid {
  if (!(cell > 0) || !Number.isFinite(cell))
    throw new Error(`A grid's cell must be above 0; it is ${cell}.`)
  if (points.x.length === 0) throw new Error('A grid needs at least one station.')
  const [west, south, east, north] = boundsOf(points)
  const left = Math.floor((west - reach) / cell)
  const right = Math.max(left + 1, Math.ceil((east + reach) / cell))
  const bottom = Math.floor((south - reach) / cell)
  const top = Math.max(bottom + 1, Math.ceil((north + reach) / cell))
  const columns = right - left
  const rows = top - bottom
  if (!(columns <= MOST_NODES_A_SIDE && rows <= MOST_NODES_A_SIDE)) {
    const least = Math.max(east - west, north - south) + 2 * reach
    throw new Error(
      `A cell of ${cell} makes a grid of ${columns} by ${rows} nodes; at most ` +
        `${MOST_NODES_A_SIDE} a side can be drawn. Choose a cell of at least ` +
        `${Number((least / (MOST_NODES_A_SIDE - 2)).toPrecision(2))}, or leave out stray stations.`,
    )
  }
  return { west: left * cell, north: top * cell, cell, columns, rows }
}

/** Easting of a column's nodes. */
export function nodeX(grid: Grid, column: number): number {
  return grid.west + (column + 0.5) * grid.cell
}

/** Northing of a row's nodes. */
export function nodeY(grid: Grid, row: number): number {
  return grid.north - (row + 0.5) * grid.cell
}
