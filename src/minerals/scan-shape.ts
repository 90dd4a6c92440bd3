/** A scan's shape at the scale that its noise asks for. */
import type { ScanShape } from './match'
import { weightedShape } from './prepare'
import { scaleForNoise, shapeOf, shapeVariance } from './shape'
import { GRID, type OnGrid } from './work-grid'

const AT_2200 = GRID.findIndex((nm) => nm >= 2200)

/**
 * The shape that is matched.
 *
 * @param noise one standard deviation of reflectance a channel
 */
export function scanShapeOf(onGrid: OnGrid, noise: number): ScanShape {
  const scale = scaleForNoise(noise * Math.sqrt(onGrid.variance[AT_2200]))
  const shape = weightedShape(shapeOf(onGrid.log, scale), onGrid.known)
  return { ...shape, scale, known: onGrid.known, whole: !onGrid.known.includes(0) }
}

/** The energy that noise alone gives a scan's shape, on average. */
export function noiseEnergyOf(onGrid: OnGrid, noise: number, scale: number): number {
  let sum = 0
  for (const value of shapeVariance(onGrid.variance, scale)) sum += value
  return noise * noise * sum
}
