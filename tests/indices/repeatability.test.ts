/** Repeatability against an analysis of variance by R. */
import { expect, test } from 'vitest'
import { repeatability } from '../../src/indices/repeatability'
import type { Measured } from '../../src/indices/rule'

const measured = (value: number | null, error: number | null = null): Measured => ({
  value,
  error,
  ...(value === null ? { missing: 'no scan' } : {}),
})

/** R's data set InsectSprays (Beall 1942, Biometrika 32, 243), counts by spray. */
const SPRAYS = [
  [10, 7, 20, 14, 14, 12, 10, 23, 17, 20, 14, 13],
  [11, 17, 21, 11, 16, 14, 17, 17, 19, 21, 7, 13],
  [0, 1, 7, 2, 3, 1, 2, 1, 3, 0, 1, 4],
  [3, 5, 12, 6, 4, 3, 5, 5, 5, 5, 2, 4],
  [3, 5, 3, 5, 3, 6, 1, 1, 3, 2, 6, 4],
  [11, 9, 15, 22, 15, 16, 13, 10, 26, 26, 24, 13],
]

test('the deviation is the root of the within-group mean square, aov(count ~ spray) of R', () => {
  const found = repeatability(SPRAYS.map((counts) => counts.map((count) => measured(count))))
  expect(found?.stations).toBe(6)
  expect(found?.deviation).toBeCloseTo(Math.sqrt(15.3813131313), 9)
  expect(found?.error).toBeCloseTo((found?.deviation ?? 0) / Math.sqrt(132), 12)
})

test('pairs give the root of half the mean squared difference; a lone visit adds nothing', () => {
  const pairs = [
    [measured(1), measured(3)],
    [measured(5), measured(null)],
    [measured(8, 0.3), measured(7, 0.4)],
  ]
  const found = repeatability(pairs)
  expect(found?.stations).toBe(2)
  expect(found?.deviation).toBeCloseTo(Math.sqrt((4 + 1) / 4), 12)
  expect(found?.limit).toBeCloseTo(2.8 * Math.sqrt(5 / 4), 12)
  expect(found?.stated).toBeCloseTo(Math.sqrt((0.09 + 0.16) / 2), 12)
})

test('no station visited twice gives nothing', () => {
  expect(repeatability([[measured(1)], []])).toBeNull()
})
