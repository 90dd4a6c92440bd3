/** The day's marks: what a press and a key mean. */
import { expect, test } from 'vitest'
import { markByKey, nearestMark } from '../../src/views/check/day-marks'

test('a press means the nearest mark within reach, and none beyond', () => {
  const scans = [0, 10, 30].map((seconds, scan) => ({ scan, seconds }))
  const from = (px: number) => (timed: { seconds: number }) => Math.abs(timed.seconds - px)
  expect(nearestMark(scans, from(12), 24)?.scan).toBe(1)
  expect(nearestMark(scans, from(21), 24)?.scan).toBe(2)
  expect(nearestMark(scans, from(54), 24)).toBeNull()
  expect(nearestMark([], from(0), 24)).toBeNull()
})

test('keys walk along the day and stop at its ends', () => {
  expect(markByKey('ArrowRight', 3, 10)).toBe(4)
  expect(markByKey('ArrowLeft', 0, 10)).toBe(0)
  expect(markByKey('PageUp', 3, 10)).toBe(9)
  expect(markByKey('End', 3, 10)).toBe(9)
  expect(markByKey('Home', 3, 10)).toBe(0)
  expect(markByKey('x', 3, 10)).toBeNull()
  expect(markByKey('End', 0, 0)).toBeNull()
})
