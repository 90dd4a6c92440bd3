/** Lines thinned to what can be seen. */
import { expect, test } from 'vitest'
import { thinLine } from '../../src/surfaces/thin-line'

const circle = Float64Array.from({ length: 721 }, (_, i) => (i * Math.PI) / 360)
const x = circle.map((angle) => 100 * Math.cos(angle))
const y = circle.map((angle) => 100 * Math.sin(angle))

test('no place left out lies farther from the line than the tolerance, and most are left out', () => {
  const kept = thinLine(x, y, 0.5)
  expect(kept[0]).toBe(0)
  expect(kept.at(-1)).toBe(720)
  // A chord of a circle of 100 is off by 0.5 at most where it spans 11.5°: 32 chords at least.
  expect(kept.length).toBeGreaterThan(31)
  expect(kept.length).toBeLessThan(100)
  for (let k = 1; k < kept.length; k++) {
    const [a, b] = [kept[k - 1], kept[k]]
    const [dx, dy] = [x[b] - x[a], y[b] - y[a]]
    for (let i = a + 1; i < b; i++) {
      const off = Math.abs(dx * (y[i] - y[a]) - dy * (x[i] - x[a])) / Math.hypot(dx, dy)
      expect(off).toBeLessThanOrEqual(0.5)
    }
  }
})

test('a straight line keeps its ends, a corner stays, a closed line is not one point', () => {
  const line = Float64Array.from([0, 1, 2, 3, 3, 3])
  const turn = Float64Array.from([0, 0, 0, 0, 1, 2])
  expect([...thinLine(line, turn, 0.01)]).toEqual([0, 3, 5])
  const there = Float64Array.from([0, 5, 5, 0, 0])
  const back = Float64Array.from([0, 0, 5, 5, 0])
  expect([...thinLine(there, back, 0.1)]).toEqual([0, 1, 2, 3, 4])
  expect([...thinLine(line.subarray(0, 2), turn.subarray(0, 2), 1)]).toEqual([0, 1])
})
