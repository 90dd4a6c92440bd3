/** Which points an outline takes in. */
import { expect, test } from 'vitest'
import { isDrawn, isInOutline } from '../../src/views/map-view/outline-hits'

const at = (x: number, y: number) => ({ x, y })

test('a bay of the outline is outside, whichever way round it was drawn', () => {
  // A square of 10 with a notch from above down to the middle.
  const outline = [
    [0, 0],
    [4, 0],
    [4, 5],
    [6, 5],
    [6, 0],
    [10, 0],
    [10, 10],
    [0, 10],
  ].map(([x, y]) => at(x, y))
  for (const drawn of [outline, [...outline].reverse()]) {
    expect(isInOutline(drawn, at(5, 2))).toBe(false)
    expect(isInOutline(drawn, at(5, 7))).toBe(true)
    expect(isInOutline(drawn, at(2, 2))).toBe(true)
    expect(isInOutline(drawn, at(11, 5))).toBe(false)
  }
})

test('a trembling finger draws nothing', () => {
  expect(isDrawn([at(100, 100), at(104, 97), at(99, 103)])).toBe(false)
  expect(isDrawn([at(100, 100), at(120, 100), at(100, 100)])).toBe(true)
})
