/**
 * How well a mineral's diagnostic absorptions match: continuum-removed, scaled and offset by
 * least squares with the scale positive, squared correlation, weighed by the reference
 * feature's area (Clark et al. 1990, J. Geophys. Res. 95, 12653; Clark et al. 2003, 108, 5131).
 */
import { upperHull } from '../spectra/hull'
import { GRID } from './work-grid'

/**
 * The fit, 0 to 1.
 *
 * @param scan ln reflectance on the grid
 * @param reference ln reflectance on the grid
 * @param ranges hull ranges, nm; the whole range from 1300 nm where empty
 */
export function featureFit(
  scan: Float64Array,
  reference: Float64Array,
  ranges: readonly (readonly [from: number, to: number])[],
): number {
  let weighted = 0
  let total = 0
  for (const [from, to] of ranges.length > 0 ? ranges : [[1300, 2500] as const]) {
    const ours = removedOnGrid(scan, from, to)
    const theirs = removedOnGrid(reference, from, to)
    if (!ours || !theirs) continue
    const area = theirs.reduce((sum, value) => sum + (1 - value), 0)
    weighted += area * squaredCorrelation(ours, theirs)
    total += area
  }
  return total > 0 ? weighted / total : 0
}

function removedOnGrid(log: Float64Array, from: number, to: number): Float64Array | null {
  const nodes = [...GRID.keys()].filter((node) => GRID[node] >= from && GRID[node] <= to)
  if (nodes.length < 5) return null
  const reflectance = Float64Array.from(nodes, (node) => Math.exp(log[node]))
  const hull = upperHull(
    Float64Array.from(nodes, (node) => GRID[node]),
    reflectance,
  )
  return reflectance.map((value, i) => value / hull[i])
}

/** Squared correlation; 0 where the two go opposite ways. */
function squaredCorrelation(a: Float64Array, b: Float64Array): number {
  const meanA = a.reduce((sum, value) => sum + value, 0) / a.length
  const meanB = b.reduce((sum, value) => sum + value, 0) / b.length
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
