/** Ticks of a plot. */
import { expect, test } from 'vitest'
import { ticks } from '../../src/views/charts/axis'

test('ticks are round numbers within the limits', () => {
  expect(ticks(350, 2500, 5)).toEqual([500, 1000, 1500, 2000, 2500])
  expect(ticks(0.02, 0.11, 4)).toEqual([0.05, 0.1])
})

test.each([
  [1e20, 1e20 + 49_152],
  [1, 1 + Number.EPSILON],
  [2, 2],
])('a range from %d to %d has none, and that is seen at once', (from, to) => {
  expect(ticks(from, to, 5)).toEqual([])
})
