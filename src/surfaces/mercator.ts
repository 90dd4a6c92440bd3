/**
 * A gridded surface resampled to an upright rectangle of the Web Mercator plane (EPSG:3857), cell
 * by cell: a map stretches an image between its corners in that plane, which would bend any other.
 */
import type { Grid } from './model'

/** Degrees of a place in working units, and back. */
export type ToGeographic = (x: number, y: number) => readonly [longitude: number, latitude: number]
export type FromGeographic = (
  longitude: number,
  latitude: number,
) => readonly [x: number, y: number]

export interface WarpedSurface {
  /** West, south, east, north, degrees; the rectangle's outer edges. */
  readonly bounds: readonly [number, number, number, number]
  readonly width: number
  readonly height: number
  /** Row-major, row 0 the northernmost; NaN where the surface has no value. */
  readonly values: Float32Array
}

/** Pixels between places that are projected exactly; those between are interpolated. */
const LATTICE = 16
/** Most that interpolation may be off, in cells of the surface, before a square is done exactly. */
const TOLERANCE = 0.05
/** Places on each edge of the grid that are projected to find the rectangle. */
const EDGE_STEPS = 64
/** Latitudes past this have no place in the plane. */
const MOST_LATITUDE = 85.0511287798066

const mercatorX = (longitude: number): number => longitude / 360 + 0.5
const longitudeOf = (mx: number): number => (mx - 0.5) * 360
const mercatorY = (latitude: number): number =>
  0.5 - Math.asinh(Math.tan((latitude * Math.PI) / 180)) / (2 * Math.PI)
const latitudeOf = (my: number): number =>
  (Math.atan(Math.sinh((0.5 - my) * 2 * Math.PI)) * 180) / Math.PI

/**
 * Resamples a surface to the Mercator plane: bilinear between nodes, except that a pixel whose
 * nearest node is a gap is a gap, and that gaps around a pixel are left out of its mean.
 *
 * @param values row-major on the grid
 * @param maxSize most pixels along the longer side
 * @param nearest whether a pixel takes its nearest node's value, for numbers that stand for names
 * @throws Error where the grid's edges have no place on the map
 */
export function warpToMercator(
  grid: Grid,
  values: Float64Array | Float32Array,
  toGeographic: ToGeographic,
  fromGeographic: FromGeographic,
  maxSize = 2048,
  nearest = false,
): WarpedSurface {
  const [west, north, east, south] = rectangleOf(grid, toGeographic)
  const longer = Math.max(grid.columns, grid.rows)
  // Near the grid's own number of cells: a pixel a cell, a half more for the turn between planes.
  const size = Math.max(1, Math.min(maxSize, Math.ceil(longer * 1.5)))
  const pixel = Math.max(east - west, south - north) / size
  const width = Math.max(1, Math.min(maxSize, Math.ceil((east - west) / pixel - 1e-9)))
  const height = Math.max(1, Math.min(maxSize, Math.ceil((south - north) / pixel - 1e-9)))
  const place = (column: number, row: number): readonly [number, number] => {
    const [x, y] = fromGeographic(
      longitudeOf(west + column * pixel),
      latitudeOf(north + row * pixel),
    )
    return [(x - grid.west) / grid.cell - 0.5, (grid.north - y) / grid.cell - 0.5]
  }
  const out = new Float32Array(width * height)
  const between = nearest ? nearestOf : bilinear
  const valueAt = (column: number, row: number) => between(grid, values, column, row)
  for (let top = 0; top < height; top += LATTICE)
    for (let left = 0; left < width; left += LATTICE)
      warpSquare(place, { left, top, width, height }, out, valueAt)
  return {
    bounds: [
      longitudeOf(west),
      latitudeOf(north + height * pixel),
      longitudeOf(west + width * pixel),
      latitudeOf(north),
    ],
    width,
    height,
    values: out,
  }
}

/** West, north, east and south of the grid in the plane, whose y runs south from 0 to 1. */
function rectangleOf(grid: Grid, toGeographic: ToGeographic): [number, number, number, number] {
  let [west, north, east, south] = [Infinity, Infinity, -Infinity, -Infinity]
  const right = grid.west + grid.columns * grid.cell
  const bottom = grid.north - grid.rows * grid.cell
  for (let step = 0; step <= EDGE_STEPS; step++) {
    const x = grid.west + ((right - grid.west) * step) / EDGE_STEPS
    const y = grid.north + ((bottom - grid.north) * step) / EDGE_STEPS
    const edges = [
      [x, grid.north],
      [x, bottom],
      [grid.west, y],
      [right, y],
    ]
    for (const [ex, ey] of edges) {
      const [longitude, latitude] = toGeographic(ex, ey)
      if (!Number.isFinite(longitude) || !(Math.abs(latitude) <= MOST_LATITUDE))
        throw new Error(`The surface's edge at ${ex}, ${ey} has no place on the map.`)
      west = Math.min(west, mercatorX(longitude))
      east = Math.max(east, mercatorX(longitude))
      north = Math.min(north, mercatorY(latitude))
      south = Math.max(south, mercatorY(latitude))
    }
  }
  return [west, north, east, south]
}

interface Square {
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

/** Fills a square of pixels, projecting its corners and, where that does, interpolating between. */
function warpSquare(
  place: (column: number, row: number) => readonly [number, number],
  { left, top, width, height }: Square,
  out: Float32Array,
  valueAt: (column: number, row: number) => number,
): void {
  const right = left + LATTICE
  const bottom = top + LATTICE
  const nw = place(left, top)
  const ne = place(right, top)
  const sw = place(left, bottom)
  const se = place(right, bottom)
  const between = (column: number, row: number): readonly [number, number] => {
    const a = (column - left) / LATTICE
    const b = (row - top) / LATTICE
    const at = (k: 0 | 1) =>
      (nw[k] * (1 - a) + ne[k] * a) * (1 - b) + (sw[k] * (1 - a) + se[k] * a) * b
    return [at(0), at(1)]
  }
  const middle = place(left + LATTICE / 2, top + LATTICE / 2)
  const guess = between(left + LATTICE / 2, top + LATTICE / 2)
  const near = Math.hypot(middle[0] - guess[0], middle[1] - guess[1]) <= TOLERANCE
  for (let row = top; row < Math.min(height, bottom); row++) {
    for (let column = left; column < Math.min(width, right); column++) {
      const [c, r] = (near ? between : place)(column + 0.5, row + 0.5)
      out[row * width + column] = valueAt(c, r)
    }
  }
}

/** The value of the node nearest to a fractional node position; NaN outside the grid. */
function nearestOf(
  { columns, rows }: Grid,
  values: Float64Array | Float32Array,
  column: number,
  row: number,
): number {
  const c = Math.round(column)
  const r = Math.round(row)
  return c >= 0 && r >= 0 && c < columns && r < rows ? values[r * columns + c] : NaN
}

/** The value at a fractional node position; see `warpToMercator` for gaps. */
export function bilinear(
  grid: Grid,
  values: Float64Array | Float32Array,
  column: number,
  row: number,
): number {
  const { columns, rows } = grid
  const nearColumn = Math.round(column)
  const nearRow = Math.round(row)
  if (!(nearColumn >= 0 && nearRow >= 0 && nearColumn < columns && nearRow < rows)) return NaN
  const near = values[nearRow * columns + nearColumn]
  if (Number.isNaN(near)) return NaN
  const left = Math.floor(column)
  const top = Math.floor(row)
  let sum = 0
  let weights = 0
  for (let dr = 0; dr <= 1; dr++) {
    for (let dc = 0; dc <= 1; dc++) {
      const c = left + dc
      const r = top + dr
      if (c < 0 || r < 0 || c >= columns || r >= rows) continue
      const value = values[r * columns + c]
      if (Number.isNaN(value)) continue
      const weight = (1 - Math.abs(column - c)) * (1 - Math.abs(row - r))
      sum += weight * value
      weights += weight
    }
  }
  return weights > 0 ? sum / weights : near
}
