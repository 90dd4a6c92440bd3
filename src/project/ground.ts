/** The ground under the stations: elevation models. */
import { firstBand, noDataIn, openGeotiff } from '../readers/geotiff'
import type { InputFile, Problem } from '../readers/input'
import type { Grid } from '../surfaces/model'

/** Elevations in metres on a square grid of some CRS; NaN where there is none. */
export interface ElevationModel {
  readonly file: string
  /** `EPSG:n` */
  readonly crs: string
  readonly grid: Grid
  readonly values: Float32Array
}

/** A model larger than this is read at a coarser step, cells along a side. */
const MAX_SIDE = 2000
/** Cells of a model that is read. */
const MOST_CELLS = 100_000_000

/**
 * Reads an elevation model from a GeoTIFF.
 *
 * @throws Error that says what is missing or wrong
 */
export async function readElevations(file: InputFile): Promise<ElevationModel> {
  const { image, crs } = await openGeotiff(file, MOST_CELLS)
  const [west, south, east, north] = image.getBoundingBox()
  const [width, height] = [image.getWidth(), image.getHeight()]
  const step = Math.max(1, Math.max(width, height) / MAX_SIDE)
  const cell = Math.max((east - west) / width, (north - south) / height) * step
  if (!(cell > 0 && Number.isFinite(cell)))
    throw new Error(`${file.path} does not say where it lies; save it again with its place.`)
  const columns = Math.max(1, Math.round((east - west) / cell))
  const rows = Math.max(1, Math.round((north - south) / cell))
  const band = await firstBand(file.path, image, { width: columns, height: rows })
  const nodata = noDataIn(image, band)
  const values = Float32Array.from({ length: columns * rows }, (_, i) =>
    band[i] === nodata ? NaN : band[i],
  )
  return { file: file.path, crs, grid: { west, north, cell, columns, rows }, values }
}

/** A problem with a ground file, in the words of `problems.csv`. */
export function groundProblem(file: InputFile, error: unknown): Problem {
  return {
    file: file.path,
    line: null,
    problem: error instanceof Error ? error.message : String(error),
    done: 'left off the map; everything else goes on',
  }
}
