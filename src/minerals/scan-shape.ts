/** A scan's shape at the scale that its noise asks for. */
import type { ScanShape } from './match'
import { linearShapes, shapeFrom } from './prepare'
import { scaleForNoise, shapeVariance } from './shape'
import { GRID, nodesBetween, type OnGrid } from './work-grid'

const AT_2200 = GRID.findIndex((nm) => nm >= 2200)

/**
 * The shape that is matched.
 *
 * @param noise one standard deviation of reflectance a channel
 */
export function scanShapeOf(onGrid: OnGrid, noise: number): ScanShape {
  const scale = scaleForNoise(noise * Math.sqrt(onGrid.variance[AT_2200]))
  const { log, known } = onGrid
  const { linear, coarseLinear } = linearShapes(log, known, scale)
  const clarity = clarityOf(onGrid, linear, noise, scale)
  return { ...shapeFrom(linear, coarseLinear), coarseLinear, scale, known, clarity }
}

const TELLING = nodesBetween(2080, 2500)

/** The cosine that noise leaves beyond 2080 nm between a scan and what it would be without. */
function clarityOf(onGrid: OnGrid, linear: Float64Array, noise: number, scale: number): number {
  const variance = shapeVariance(onGrid.variance, scale)
  let energy = 0
  let noiseEnergy = 0
  for (let node = TELLING[0]; node < TELLING[1]; node++) {
    energy += linear[node] * linear[node]
    noiseEnergy += noise * noise * variance[node]
  }
  return energy > 0 ? Math.sqrt(Math.max(0, 1 - noiseEnergy / energy)) : 0
}

/** The energy that noise alone gives a scan's shape, on average. */
export function noiseEnergyOf(onGrid: OnGrid, noise: number, scale: number): number {
  let sum = 0
  for (const value of shapeVariance(onGrid.variance, scale)) sum += value
  return noise * noise * sum
}
