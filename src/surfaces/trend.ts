/** Trends of the coordinates: the functions that a mean may be made of. */
import { factorPacked, forward, backward, packedLength } from './cholesky'
import type { Points } from './model'
import { boundsOf, spreadOf } from './points'

/** Degree of a trend: 0 for an unknown mean, 1 for a plane, 2 for a quadratic surface. */
export type TrendDegree = 0 | 1 | 2

/** How many functions a trend has. */
export function trendCount(degree: TrendDegree): number {
  return [1, 3, 6][degree]
}

/** Writes a trend's functions 1, a, b, a², ab, b² at a place, `stride` apart from `at` on. */
export function writeTrend(
  degree: TrendDegree,
  a: number,
  b: number,
  out: Float64Array,
  at: number,
  stride: number,
): void {
  out[at] = 1
  if (degree === 0) return
  out[at + stride] = a
  out[at + 2 * stride] = b
  if (degree === 1) return
  out[at + 3 * stride] = a * a
  out[at + 4 * stride] = a * b
  out[at + 5 * stride] = b * b
}

/**
 * Points with the ordinary-least-squares trend and external drift taken off their values, for
 * plotting variograms of what these leave; the points themselves where there are none.
 */
export function detrended(points: Points, degree: TrendDegree): Points {
  const { drift } = points
  if (degree === 0 && !drift) return points
  const count = points.x.length
  const functions = trendCount(degree) + (drift ? 1 : 0)
  const scaled = drift && spreadOf(drift)
  const [west, south, east, north] = boundsOf(points)
  const scale = 1 / Math.max(east - west, north - south, Number.MIN_VALUE * 1e10)
  const rows = new Float64Array(count * functions)
  for (let i = 0; i < count; i++) {
    const a = (points.x[i] - west) * scale
    const b = (points.y[i] - south) * scale
    writeTrend(degree, a, b, rows, i * functions, 1)
    if (drift && scaled)
      rows[(i + 1) * functions - 1] = (drift[i] - scaled.mean) / Math.sqrt(scaled.variance || 1)
  }
  const gram = new Float64Array(packedLength(functions))
  const inverse = new Float64Array(functions)
  const beta = new Float64Array(functions)
  for (let i = 0; i < count; i++) {
    const row = rows.subarray(i * functions, (i + 1) * functions)
    for (let k = 0, entry = 0; k < functions; k++) {
      beta[k] += row[k] * points.value[i]
      for (let l = 0; l <= k; l++) gram[entry++] += row[k] * row[l]
    }
  }
  factorPacked(gram, inverse, functions)
  forward(gram, inverse, functions, beta)
  backward(gram, inverse, functions, beta)
  const value = points.value.map((z, i) => {
    let rest = z
    for (let k = 0; k < functions; k++) rest -= beta[k] * rows[i * functions + k]
    return rest
  })
  return { ...points, value }
}
