/** Where a surface is drawn: near enough to data, and where another surface allows it. */
import type { Grid, Points, SurfaceBands, SurfaceRule } from './model'
import { convexHull, meanSpacing, nodeX, nodeY } from './grid'
import { nearestDistances } from './neighbours'
import type { Part } from './tiles'

/**
 * A reach suggested for points, working units: one and a half times their mean spacing, and at
 * least twice the spacing along the walk that nine in ten stations keep, so that neighbouring
 * traverses join and far ground stays blank (common practice; the user sets it).
 */
export function suggestReach(points: Pick<Points, 'x' | 'y'>): number {
  const distances = nearestDistances(points.x, points.y).filter((d) => d > 0 && d < Infinity)
  distances.sort()
  const most = distances[Math.floor(0.9 * (distances.length - 1))] ?? 0
  const reach = Math.max(1.5 * meanSpacing(points), 2 * most)
  return reach > 0 ? Number(reach.toPrecision(2)) : 1
}

/**
 * 1 for the nodes of a part that lie no farther than the reach from a point, or from so many of
 * them; else 0. Row-major from the part's first row in all the grid's width; 0 beyond the part's
 * columns.
 *
 * @param least points that have to be within reach, 1 at least
 */
export function withinReach(
  points: Pick<Points, 'x' | 'y'>,
  grid: Grid,
  part: Part,
  reach: number,
  least = 1,
): Uint8Array {
  const { from, to, left: first, right: end } = part
  const { columns, cell, west } = grid
  const inside = new Uint8Array((to - from) * columns)
  const near = nearPart(points, grid, part, reach)
  const changes = new Int32Array(columns + 1)
  for (let row = from; row < to; row++) {
    changes.fill(0, first, end + 1)
    const y = nodeY(grid, row)
    for (const i of near) {
      const rest = reach * reach - (y - points.y[i]) ** 2
      if (!(rest >= 0)) continue
      const half = Math.sqrt(rest)
      const left = Math.max(first, Math.ceil((points.x[i] - half - west) / cell - 0.5))
      const right = Math.min(end - 1, Math.floor((points.x[i] + half - west) / cell - 0.5))
      if (left > right) continue
      if (least === 1 && left === first && right === end - 1) {
        changes.fill(0, first, end + 1)
        changes[first] = 1
        break
      }
      changes[left]++
      changes[right + 1]--
    }
    const start = (row - from) * columns
    let around = 0
    for (let column = first; column < end; column++) {
      around += changes[column]
      if (around >= least) inside[start + column] = 1
    }
  }
  return inside
}

/** Points that can be within reach of a part's nodes. */
function nearPart(
  { x, y }: Pick<Points, 'x' | 'y'>,
  grid: Grid,
  { from, to, left, right }: Part,
  reach: number,
): number[] {
  const far = reach + grid.cell
  const [west, east] = [nodeX(grid, left) - far, nodeX(grid, right) + far]
  const [south, north] = [nodeY(grid, to) - far, nodeY(grid, from) + far]
  const near: number[] = []
  for (let i = 0; i < x.length; i++)
    if (x[i] >= west && x[i] <= east && y[i] >= south && y[i] <= north) near.push(i)
  return near
}

/**
 * Takes the nodes farther than a margin outside the places' convex hull off those that are wanted.
 *
 * @param wanted 1 for wanted nodes, row-major from the first row; changed in place
 */
export function keepInHull(
  places: Pick<Points, 'x' | 'y'>,
  margin: number,
  grid: Grid,
  [from, to]: readonly [from: number, to: number],
  wanted: Uint8Array,
): void {
  const corners = convexHull(places)
  const x = corners.map((i) => places.x[i])
  const y = corners.map((i) => places.y[i])
  // A node on the hull's edge, but for rounding, is inside.
  const nearby = (margin + 1e-9 * grid.cell) ** 2
  for (let row = from; row < to; row++) {
    const py = nodeY(grid, row)
    const start = (row - from) * grid.columns
    for (let column = 0; column < grid.columns; column++) {
      if (wanted[start + column] === 0) continue
      if (awayFromHull(x, y, nodeX(grid, column), py) > nearby) wanted[start + column] = 0
    }
  }
}

/** Squared distance of a place from a convex counterclockwise polygon; 0 inside it. */
function awayFromHull(x: readonly number[], y: readonly number[], px: number, py: number): number {
  let inside = x.length > 2
  let least = Infinity
  for (let i = 0; i < x.length; i++) {
    const j = i + 1 < x.length ? i + 1 : 0
    const [ex, ey] = [x[j] - x[i], y[j] - y[i]]
    const [dx, dy] = [px - x[i], py - y[i]]
    if (ex * dy - ey * dx < 0) inside = false
    const along = Math.min(1, Math.max(0, (dx * ex + dy * ey) / (ex * ex + ey * ey)))
    least = Math.min(least, (dx - along * ex) ** 2 + (dy - along * ey) ** 2)
  }
  return inside ? 0 : least
}

/** Blanks nodes whose standard error is larger than a limit, in place. */
export function keepWithinError(
  estimate: Float64Array,
  variance: Float64Array,
  errorAtMost: number,
): void {
  const most = errorAtMost * errorAtMost
  for (let node = 0; node < estimate.length; node++) {
    if (variance[node] <= most) continue
    estimate[node] = NaN
    variance[node] = NaN
  }
}

/**
 * A surface's estimate at a place: that of the node whose cell holds it (a place on an edge
 * belongs to the cell east or south of it). NaN outside the grid.
 */
export function nearestNode(bands: SurfaceBands, x: number, y: number): number {
  const { grid } = bands
  const column = Math.floor((x - grid.west) / grid.cell)
  const row = Math.floor((grid.north - y) / grid.cell)
  if (column < 0 || row < 0 || column >= grid.columns || row >= grid.rows) return NaN
  return bands.estimate[row * grid.columns + column]
}

/**
 * A surface blanked where another one is outside limits or has no value. The other may stand on
 * a grid of its own: its nearest node decides.
 */
export function applyMask(
  bands: SurfaceBands,
  mask: SurfaceBands,
  limits: Pick<NonNullable<SurfaceRule['mask']>, 'at_least' | 'at_most'>,
): SurfaceBands {
  const least = limits.at_least ?? -Infinity
  const most = limits.at_most ?? Infinity
  const { grid } = bands
  const estimate = bands.estimate.slice()
  const variance = bands.variance?.slice() ?? null
  for (let node = 0; node < estimate.length; node++) {
    const x = nodeX(grid, node % grid.columns)
    const y = nodeY(grid, Math.floor(node / grid.columns))
    const value = nearestNode(mask, x, y)
    if (value >= least && value <= most) continue
    estimate[node] = NaN
    if (variance) variance[node] = NaN
  }
  return { ...bands, estimate, variance }
}
