/** A surface as a coloured picture in the map's plane, made where it holds nobody up. */
import { paint, type Scale } from '../colour/paint'
import { warpToMercator } from '../surfaces/mercator'
import type { Grid } from '../surfaces/model'
import { paintClasses } from './class-picture'
import { standardErrors } from './finish-surface'
import { mapFrame } from './map-frame'

export interface PictureInput {
  readonly grid: Grid
  readonly values: Float64Array
  /** Whether the values are variances, of which the standard error is drawn. */
  readonly root: boolean
  /** What values are painted by; null for class numbers, which have colours of their own. */
  readonly scale: Scale | null
  readonly classes: {
    /** On the same grid, 0 to 1: a class fades with it. */
    readonly doubt: Float64Array
    /** `#rrggbb` by class number. */
    readonly colours: readonly string[]
  } | null
  readonly crs: string
  /** Of what is drawn, working units; matters for local grids alone. */
  readonly centre: readonly [x: number, y: number]
  /** Most pixels along the longer side. */
  readonly maxSize: number
}

export interface SurfacePicture {
  /** West, south, east, north, degrees. */
  readonly bounds: readonly [number, number, number, number]
  readonly width: number
  readonly height: number
  /** RGBA, row-major. */
  readonly pixels: Uint8ClampedArray<ArrayBuffer>
}

/** Paints a surface. Its CRS must be ready. @throws Error where there is nothing to paint by */
export function surfacePicture(input: PictureInput): SurfacePicture {
  const { grid, values, root, scale, classes, crs, centre, maxSize } = input
  const { toDegrees, fromDegrees } = mapFrame(crs, centre)
  const nowhere = [NaN, NaN] as const
  const warp = (band: Float64Array, nearest = false) =>
    warpToMercator(
      grid,
      band,
      (x, y) => toDegrees(x, y) ?? nowhere,
      (longitude, latitude) => fromDegrees(longitude, latitude) ?? nowhere,
      maxSize,
      nearest,
    )
  const warped = warp(root ? standardErrors(values) : values, classes !== null)
  const { bounds, width, height } = warped
  if (classes) {
    const pixels = paintClasses(warped, warp(classes.doubt), classes.colours)
    return { bounds, width, height, pixels }
  }
  if (!scale) throw new Error('A surface of values needs a scale to be painted by.')
  return { bounds, width, height, pixels: paint(warped.values, scale) }
}
