/** Residuals as discs on the map. */
import { expect, test } from 'vitest'
import type { Station } from '../../src/places/station'
import { residualDecimals, residualPoints, signed } from '../../src/views/map-view/residual-points'

const at = (easting: number, northing: number) => ({ position: { easting, northing } }) as Station
const frame = {
  toDegrees: (x: number, y: number) => (x < 0 ? null : ([x / 100, y / 100] as const)),
  fromDegrees: () => null,
}

test('a disc’s area is the residual’s size, its filling the sign; the block’s counts before the station’s', () => {
  const residuals = [
    { stations: [2], value: 9, blocked: -4, single: 1 },
    { stations: [0, 1], value: 5, blocked: null, single: 2 },
    { stations: [3], value: 5, blocked: 1, single: 9 },
  ]
  const stations = [at(100, 200), at(100, 200), at(300, 400), at(-1, 0)]
  const { features } = residualPoints(residuals, stations, frame)
  expect(features.map(({ properties }) => properties)).toEqual([
    { size: 1, positive: false, label: '−4.00' },
    { size: 0.5, positive: true, label: '+2.00' },
  ])
  expect(features[0].geometry.coordinates).toEqual([3, 4])
})

test('numbers carry three digits of the largest', () => {
  expect([0.0123, 4, 56, 789, 12345, 0].map(residualDecimals)).toEqual([4, 2, 1, 0, 0, 2])
  expect([signed(-1.25, 1), signed(3, 0), signed(0, 1)]).toEqual(['−1.3', '+3', '0.0'])
})
