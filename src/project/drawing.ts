/** What the map shows of grids, made by workers before all tiles that wait. */
import type { LinesInput, LinesOnMap } from '../jobs/lines-on-map'
import type { Pool } from '../jobs/pool'
import type { PictureInput, SurfacePicture } from '../jobs/surface-picture'
import type { WarpedSurface } from '../surfaces/mercator'
import type { Grid } from '../surfaces/model'

/** Asks the workers for pictures and lines; each call answers once, with an AbortError where it is stopped. */
export class Drawing {
  constructor(private readonly pool: Pool) {}

  /** A grid of the working CRS as an upright picture in the map's plane. */
  warp(
    grid: Grid,
    values: Float64Array | Float32Array,
    crs: string,
    centre: readonly [x: number, y: number],
    maxSize: number,
  ): Promise<WarpedSurface> {
    return this.pool.run('warp', { grid, values, crs, centre, maxSize })
  }

  /** A surface as a coloured picture. */
  picture(input: PictureInput): Promise<SurfacePicture> {
    return this.pool.run('surface picture', input, { urgent: true })
  }

  /** Contours in degrees. */
  lines(input: LinesInput): Promise<LinesOnMap> {
    return this.pool.run('lines on map', input, { urgent: true })
  }
}
