/** A raster as external drift: read from a GeoTIFF, asked for by places of the working CRS. */
import { loadEpsgTable, openCrs } from '../places/crs'
import { firstBand, noDataIn, openGeotiff } from '../readers/geotiff'
import type { InputFile } from '../readers/input'
import type { Drift } from '../surfaces/external-drift'
import { nodeX, nodeY } from '../surfaces/grid'
import type { Grid } from '../surfaces/model'

/** What a worker needs to ask a raster. */
export interface DriftInput {
  readonly file: InputFile
  /** The working CRS. */
  readonly crs: string
}

/** Cells of a raster that may be read at once. */
const MOST_CELLS = 40_000_000
/** Nodes from one projected place to the next; between them places are interpolated. */
const LATTICE = 16

interface Raster {
  readonly crs: string
  /** Of the outer corner of the first cell, in the raster's CRS. */
  readonly west: number
  readonly north: number
  readonly dx: number
  readonly dy: number
  readonly columns: number
  readonly rows: number
  /** NaN where there is none. */
  readonly values: ArrayLike<number>
}

/**
 * Opens a raster's first band as drift; values between cell centres are bilinear.
 *
 * @throws Error in words: no GeoTIFF, turned, too large, without a CRS, a working grid tied to nothing
 */
export async function openDrift({ file, crs }: DriftInput): Promise<Drift> {
  await loadEpsgTable()
  const working = openCrs(crs)
  const raster = await readRaster(file)
  const at = (x: number, y: number) => valueAt(raster, x, y)
  if (raster.crs === working.code) {
    return { file: file.path, at, onGrid: (grid) => onEveryNode(grid, at) }
  }
  if (working.kind === 'local')
    throw new Error(
      `The working grid ${crs} is tied to nothing, so ${file.path}, which is in ${raster.crs}, has ` +
        'no place on it.',
    )
  const other = openCrs(raster.crs)
  const project = (x: number, y: number): readonly [number, number] => {
    const degrees = working.toGeographic(x, y)
    return (degrees && other.fromGeographic(...degrees)) ?? [NaN, NaN]
  }
  return {
    file: file.path,
    at: (x, y) => at(...project(x, y)),
    onGrid: (grid) => throughLattice(grid, project, at),
  }
}

async function readRaster(file: InputFile): Promise<Raster> {
  const { image, crs, ofPoints } = await openGeotiff(file, MOST_CELLS)
  const [dx, down] = image.getResolution()
  const [west, north] = image.getOrigin()
  if (!(dx > 0 && down < 0))
    throw new Error(`${file.path} is turned or mirrored; save it again with north up.`)
  const values = await firstBand(file.path, image)
  const nodata = noDataIn(image, values)
  // A raster whose values stand for points has its first point where others have a cell's corner.
  const half = ofPoints ? 0.5 : 0
  return {
    crs,
    west: west - half * dx,
    north: north - half * down,
    dx,
    dy: -down,
    columns: image.getWidth(),
    rows: image.getHeight(),
    values: nodata === null ? values : Float64Array.from(values, (v) => (v === nodata ? NaN : v)),
  }
}

/** Bilinear between cell centres; NaN outside, and where a cell that counts has no value. */
function valueAt(raster: Raster, x: number, y: number): number {
  const { west, north, dx, dy, columns, rows, values } = raster
  const across = (x - west) / dx - 0.5
  const down = (north - y) / dy - 0.5
  if (!(across >= -0.5 && across <= columns - 0.5 && down >= -0.5 && down <= rows - 0.5)) return NaN
  const column = Math.min(Math.max(0, columns - 2), Math.max(0, Math.floor(across)))
  const row = Math.min(Math.max(0, rows - 2), Math.max(0, Math.floor(down)))
  // In the outer half of an edge's cell, and all over a lone one, its own value holds.
  const right = Math.min(1, columns - 1 - column, Math.max(0, across - column))
  const lower = Math.min(1, rows - 1 - row, Math.max(0, down - row))
  let sum = 0
  for (let i = 0; i < 4; i++) {
    const [stepX, stepY] = [i & 1, i >> 1]
    const weight = (stepX ? right : 1 - right) * (stepY ? lower : 1 - lower)
    if (weight > 0) sum += weight * values[(row + stepY) * columns + column + stepX]
  }
  return sum
}

function onEveryNode(grid: Grid, at: (x: number, y: number) => number): Float64Array {
  const out = new Float64Array(grid.columns * grid.rows)
  for (let row = 0, node = 0; row < grid.rows; row++)
    for (let column = 0; column < grid.columns; column++)
      out[node++] = at(nodeX(grid, column), nodeY(grid, row))
  return out
}

/** Projects every sixteenth node of every sixteenth row and interpolates the places between. */
function throughLattice(
  grid: Grid,
  project: (x: number, y: number) => readonly [number, number],
  at: (x: number, y: number) => number,
): Float64Array {
  const wide = Math.ceil(grid.columns / LATTICE) + 1
  const high = Math.ceil(grid.rows / LATTICE) + 1
  const places = Array.from({ length: wide * high }, (_, i) =>
    project(nodeX(grid, LATTICE * (i % wide)), nodeY(grid, LATTICE * Math.floor(i / wide))),
  )
  const out = new Float64Array(grid.columns * grid.rows)
  for (let row = 0, node = 0; row < grid.rows; row++) {
    const top = Math.floor(row / LATTICE)
    const lower = row / LATTICE - top
    for (let column = 0; column < grid.columns; column++) {
      const left = Math.floor(column / LATTICE)
      const right = column / LATTICE - left
      const first = top * wide + left
      const of = (k: 0 | 1) =>
        (1 - lower) * ((1 - right) * places[first][k] + right * places[first + 1][k]) +
        lower * ((1 - right) * places[first + wide][k] + right * places[first + wide + 1][k])
      out[node++] = at(of(0), of(1))
    }
  }
  return out
}
