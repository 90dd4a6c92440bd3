/**
 * How well a mineral's diagnostic absorptions match: continuum-removed, scaled and offset by
 * least squares with the scale positive, squared correlation, weighed by the reference
 * feature's area (Clark et al. 1990, J. Geophys. Res. 95, 12653; Clark et al. 2003, 108, 5131).
 */
import { upperHull } from '../spectra/hull'
import { GRID, nodesBetween } from './work-grid'

/**
 * The fit, 0 to 1.
 *
 * @param scan ln reflectance on the grid
 * @param reference ln reflectance on the grid
 * @param ranges hull ranges, nm; all from 1300 nm where empty
 */
export function featureFit(
  scan: Float64Array,
  reference: Float64Array,
  ranges: readonly (readonly [from: number, to: number])[],
): number {
  let weighted = 0
  let total = 0
  for (const [from, to] of ranges.length > 0 ? ranges : [[1300, 2500] as const]) {
    const [start, end] = nodesBetween(from, to)
    if (end - start < 5) continue
    const { removed: theirs, area } = featureOf(reference, start, end)
    weighted += area * squaredCorrelation(removedOnGrid(scan, start, end), theirs)
    total += area
  }
  return total > 0 ? weighted / total : 0
}

/** A reference's feature, and its area in nodes. */
interface Feature {
  readonly removed: Float64Array
  readonly area: number
}

/** Features by where they begin and end, for each reference's ln reflectance. */
const features = new WeakMap<Float64Array, Map<number, Feature>>()

/** A reference's feature on the nodes [start, end), worked out once. */
function featureOf(reference: Float64Array, start: number, end: number): Feature {
  const ofReference = features.get(reference) ?? new Map<number, Feature>()
  features.set(reference, ofReference)
  const key = start * GRID.length + end
  let feature = ofReference.get(key)
  if (!feature) {
    const removed = removedOnGrid(reference, start, end)
    let area = 0
    for (const value of removed) area += 1 - value
    feature = { removed, area }
    ofReference.set(key, feature)
  }
  return feature
}

/** Continuum-removed reflectance on the nodes [start, end). */
function removedOnGrid(log: Float64Array, start: number, end: number): Float64Array {
  const reflectance = log.slice(start, end)
  for (let i = 0; i < reflectance.length; i++) reflectance[i] = Math.exp(reflectance[i])
  const hull = upperHull(GRID.subarray(start, end), reflectance)
  for (let i = 0; i < reflectance.length; i++) reflectance[i] /= hull[i]
  return reflectance
}

/** Squared correlation; 0 where the two go opposite ways. */
function squaredCorrelation(a: Float64Array, b: Float64Array): number {
  let meanA = 0
  let meanB = 0
  for (let i = 0; i < a.length; i++) {
    meanA += a[i] / a.length
    meanB += b[i] / a.length
  }
  let ab = 0
  let aa = 0
  let bb = 0
  for (let i = 0; i < a.length; i++) {
    ab += (a[i] - meanA) * (b[i] - meanB)
    aa += (a[i] - meanA) ** 2
    bb += (b[i] - meanB) ** 2
  }
  return ab > 0 ? (ab * ab) / (aa * bb + 1e-20) : 0
}
