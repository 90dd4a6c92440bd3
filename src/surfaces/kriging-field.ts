/** Points prepared for kriging: moved into the plane where their variogram is isotropic. */
import { kernelOf, type CovarianceKernel } from './covariance-kernel'
import { driftScale, type DriftScale } from './external-drift'
import type { Points, Variogram } from './model'
import { boundsOf, checkPoints, mergeDuplicates } from './points'
import { checkVariogram, planeOf, type IsotropicPlane } from './variogram-models'

export interface KrigingField {
  /** Merged points, working units. */
  readonly points: Points
  /** Where the plane's origin lies, working units; near the data, so that squares keep their digits. */
  readonly originX: number
  readonly originY: number
  readonly plane: IsotropicPlane
  /** The points in the plane. */
  readonly u: Float64Array
  readonly v: Float64Array
  /** Squared error of each value; 0 where none is stated. */
  readonly noise: Float64Array
  readonly kernel: CovarianceKernel
  /** Brings the plane's coordinates to about one, so that a trend's equations are well conditioned. */
  readonly trendScale: number
  /** The external drift of the points, scaled, and its scale; null for none. */
  readonly drift: { readonly values: Float64Array; readonly scale: DriftScale } | null
}

/**
 * Checks and merges points (duplicates are averaged, see `mergeDuplicates`) and prepares them.
 *
 * @throws Error in words where points or variogram cannot be used
 */
export function prepareField(input: Points, variogram: Variogram): KrigingField {
  checkPoints(input, 1)
  checkVariogram(variogram)
  const points = mergeDuplicates(input)
  const [west, south, east, north] = boundsOf(points)
  const originX = (west + east) / 2
  const originY = (south + north) / 2
  const plane = planeOf(variogram)
  const u = new Float64Array(points.x.length)
  const v = new Float64Array(points.x.length)
  for (let i = 0; i < u.length; i++) {
    const dx = points.x[i] - originX
    const dy = points.y[i] - originY
    u[i] = plane.uu * dx + plane.uv * dy
    v[i] = plane.vu * dx + plane.vv * dy
  }
  const noise = new Float64Array(u.length)
  points.error?.forEach((error, i) => {
    if (error > 0) noise[i] = error * error
  })
  const [left, bottom, right, top] = boundsOf({ x: u, y: v })
  const trendScale = 1 / Math.max(right - left, top - bottom, Number.MIN_VALUE * 1e10)
  const kernel = kernelOf(variogram)
  const drift = points.drift ? scaledDrift(points.drift) : null
  return { points, originX, originY, plane, u, v, noise, kernel, trendScale, drift }
}

function scaledDrift(drift: Float64Array): KrigingField['drift'] {
  const scale = driftScale(drift)
  return { values: drift.map((value) => (value - scale.mean) / scale.unit), scale }
}

/**
 * A place in the field's plane, by the same arithmetic as its points, so that a place which is
 * exactly a station's is at distance 0 from it.
 */
export function toPlaneU(field: KrigingField, x: number, y: number): number {
  return field.plane.uu * (x - field.originX) + field.plane.uv * (y - field.originY)
}

/** See `toPlaneU`. */
export function toPlaneV(field: KrigingField, x: number, y: number): number {
  return field.plane.vu * (x - field.originX) + field.plane.vv * (y - field.originY)
}

/**
 * Nodes along the side of a block that is worked together: wide enough to share factors, small
 * beside the neighbourhood of so many points.
 */
export function blockSide(field: KrigingField, neighbours: number, cell: number): number {
  const { u, v } = field
  const { uu, uv, vu, vv } = field.plane
  const step = cell * Math.max(Math.hypot(uu, vu), Math.hypot(uv, vv))
  const [left, bottom, right, top] = boundsOf({ x: u, y: v })
  const area = (right - left) * (top - bottom)
  const neighbourhood = Math.sqrt((neighbours * area) / (Math.PI * u.length))
  return Math.min(32, Math.max(4, Math.round((0.3 * neighbourhood) / step)))
}
