/** The error of a part of stations by blocks. */
import { expect, test } from 'vitest'
import { blockedPartError } from '../../src/surfaces/block-error'

test('blocks of one have the binomial error, √(p (1 − p)/(n − 1))', () => {
  const holds = Float64Array.from({ length: 50 }, (_, i) => (i % 5 === 0 ? 0 : 1))
  const each = Int32Array.from(holds, (_, i) => i)
  expect(blockedPartError(holds, each)).toBeCloseTo(Math.sqrt((0.8 * 0.2) / 49), 12)
})

test('blocks that go together make it larger; stations that do not count change nothing', () => {
  // Parts without each block, by hand: 3/4, 5/6 and 4/6 of 6/8; √(2/3 · 2/144).
  const holds = Float64Array.of(1, 1, 1, 0, NaN, 1, 0, 1, 1, NaN)
  const blocks = Int32Array.of(7, 7, 7, 7, 7, 9, 9, 4, 4, 5)
  expect(blockedPartError(holds, blocks)).toBeCloseTo(Math.sqrt(1 / 108), 12)
  const together = Float64Array.from({ length: 40 }, (_, i) => (i < 8 ? 0 : 1))
  const tens = Int32Array.from(together, (_, i) => Math.floor(i / 8))
  const mixed = Int32Array.from(together, (_, i) => i % 5)
  const [apart, alike] = [blockedPartError(together, mixed), blockedPartError(together, tens)]
  expect(alike).toBeGreaterThan(3 * (apart ?? NaN) + 0.1)
})

test('there is none where all lie in one block', () => {
  expect(blockedPartError(Float64Array.of(1, 0), Int32Array.of(3, 3))).toBeNull()
})
