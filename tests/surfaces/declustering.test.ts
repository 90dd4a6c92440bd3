import { expect, test } from 'vitest'
import { decluster } from '../../src/surfaces/declustering'
import { inverseDistanceAt } from '../../src/surfaces/inverse-distance'
import { leaveOneOut } from '../../src/surfaces/testing'
import { noSpatial, spatial } from './shared-data'
import { scatter } from './scatter'

test.skipIf(noSpatial)(
  'Walker Lake: declustering comes most of the way to the exhaustive mean',
  () => {
    // Isaaks and Srivastava 1989: the 470 samples' plain mean is 435.3, the exhaustive one 277.98.
    const { X, Y, V } = spatial('walker.csv')
    const { mean, weights } = decluster({ x: X, y: Y, value: V })
    expect(V.reduce((a, b) => a + b, 0) / V.length).toBeCloseTo(435.3, 1)
    expect(weights.reduce((a, b) => a + b, 0)).toBeCloseTo(470, 6)
    expect(mean).toBeLessThan(277.98 + 0.3 * (435.3 - 277.98))
    expect(mean).toBeGreaterThan(277.98 - 0.3 * (435.3 - 277.98))
  },
)

test('inverse distance left out one by one equals estimating without each', () => {
  const points = scatter(40, 100)
  for (const neighbours of [8, null]) {
    const { predicted } = leaveOneOut(points, { method: 'inverse-distance', neighbours })
    for (const left of [0, 21]) {
      const keep = (_: number, i: number) => i !== left
      const [x, y, value] = [points.x, points.y, points.value].map((c) => c.filter(keep))
      const at = { x: points.x.slice(left, left + 1), y: points.y.slice(left, left + 1) }
      const expected = inverseDistanceAt({ x, y, value }, at, { neighbours })[0]
      expect(predicted[left]).toBeCloseTo(expected, 12)
    }
  }
})
