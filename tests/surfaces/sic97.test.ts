/**
 * Spatial Interpolation Comparison 97 (Dubois 1998): 100 observed rain gauges predict 367 others.
 * Every setting is chosen from the observed points. gstat's isotropic ordinary kriging gives an
 * RMSE of 55.1 and inverse distance 68.7 (../shared/README.md).
 */
import { expect, test } from 'vitest'
import { planSurface } from '../../src/surfaces/compute'
import { krigeAt } from '../../src/surfaces/kriging'
import { noSpatial, spatial } from './shared-data'

test.skipIf(noSpatial)('SIC97 with every setting automatic', () => {
  const observed = spatial('sic97-observed.csv')
  const validation = spatial('sic97-validation.csv')
  const points = { x: observed.X, y: observed.Y, value: observed.rainfall }
  const plan = planSurface({ name: 'rain', value: 'rain', method: 'kriging', cell: 5000 }, points)
  if (plan.variogram === null) throw new Error('kriging without a variogram')
  const targets = { x: validation.X, y: validation.Y }
  const { estimate } = krigeAt(plan.points, plan.variogram, targets, {
    neighbours: plan.neighbours,
  })
  const squares = estimate.map((e, i) => (e - validation.rainfall[i]) ** 2)
  const rmse = Math.sqrt(squares.reduce((a, b) => a + b, 0) / squares.length)
  expect(rmse).toBeLessThanOrEqual(53)
  // Rain lay in bands from south-west to north-east that day.
  expect(plan.variogram.azimuth).toBeGreaterThan(25)
  expect(plan.variogram.azimuth).toBeLessThan(60)
})
