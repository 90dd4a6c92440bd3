/** The course of drift by hand: lines between scans of the panel. */
import { expect, test } from 'vitest'
import type { DayScan } from '../../src/check/day'
import { driftsOf } from '../../src/check/drift'

const scan = (age: number, level: number | null = null): DayScan => ({
  seconds: 1.7e9 + age,
  age,
  panel: level === null ? null : { level, range: 0 },
})

test('a panel right after its reference dates no drift; the next one does', () => {
  // At 60 s the panel shows how it was laid down, not how the instrument drifted.
  const drifts = driftsOf([scan(60, 0.9), scan(300), scan(600, 0.94)])
  expect(drifts[1]?.even).toBeCloseTo(-0.03, 12)
  expect(driftsOf([scan(60, 0.9), scan(300)])[1]).toBeNull()
})
