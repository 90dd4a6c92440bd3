/** Repeats by hand. */
import { expect, test } from 'vitest'
import { findRepeats } from '../../src/check/duplicates'

const NAMES = ['A1', 'A2', 'A3']
const like = (hash: string, level: number) => ({ hash, sketch: [level, level + 0.1, NaN] })

test('a repeat names the earlier scan, whichever of the two is the brighter', () => {
  const noises = [0.01, 0.01, 0.01]
  const brighter = findRepeats(
    NAMES,
    [like('a', 0.3), like('b', 0.301), like('c', 0.5)],
    noises,
    0.2,
  )
  const darker = findRepeats(NAMES, [like('a', 0.301), like('b', 0.3), like('c', 0.5)], noises, 0.2)
  for (const repeats of [brighter, darker]) {
    expect(repeats[0]).toBeNull()
    expect(repeats[1]?.of).toBe(0)
    // 0.001 in channels that both have, over a noise of 0.01.
    expect(repeats[1]?.difference).toBeCloseTo(0.1, 9)
    expect(repeats[2]).toBeNull()
  }
})

test('scans that are equal to the last bit are repeats whatever their noise', () => {
  const repeats = findRepeats(['A1', 'A2'], [like('a', 0.3), like('a', 0.3)], [null, null], 0.2)
  expect(repeats).toEqual([null, { of: 0, difference: 0 }])
})
