/** A scan's shape at the scale that its noise asks for. */
import { sumOf } from './likeness'
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
  const noiseEnergy = shapeVariance(onGrid.variance, scale).map((value) => noise * noise * value)
  return {
    ...shapeFrom(linear, coarseLinear),
    coarseLinear,
    scale,
    known,
    clarity: clarityOf(linear, noiseEnergy),
    noiseEnergy: sumOf(noiseEnergy),
  }
}

const TELLING = nodesBetween(2080, 2500)

/** The cosine that noise leaves beyond 2080 nm between a scan and what it would be without. */
function clarityOf(linear: Float64Array, noiseEnergy: Float64Array): number {
  let energy = 0
  let ofNoise = 0
  for (let node = TELLING[0]; node < TELLING[1]; node++) {
    energy += linear[node] * linear[node]
    ofNoise += noiseEnergy[node]
  }
  return energy > 0 ? Math.sqrt(Math.max(0, 1 - ofNoise / energy)) : 0
}
