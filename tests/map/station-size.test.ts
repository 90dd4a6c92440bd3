/** Symbols shrink where stations crowd, and never beyond telling. */
import { describe, expect, test } from 'vitest'
import { medianSpacing, sizeFor } from '../../src/map/station-size'

describe('the median spacing', () => {
  test('of a square lattice is its side', () => {
    const lattice = Array.from({ length: 900 }, (_, i) => [5 * (i % 30), 5 * Math.floor(i / 30)])
    expect(medianSpacing(lattice.flat())).toBe(5)
  })

  test('passes over stations on one spot, and lone ones have none', () => {
    expect(medianSpacing([0, 0, 0, 0, 3, 4])).toBe(5)
    expect(medianSpacing([1, 1])).toBe(Infinity)
    expect(medianSpacing([])).toBe(Infinity)
  })
})

test('symbols are whole where there is room, smaller where there is not, and stay legible', () => {
  expect(sizeFor(6.5, Infinity)).toBe(1)
  expect(sizeFor(6.5, 30)).toBe(1)
  expect(sizeFor(11, 27)).toBeCloseTo(0.736, 3)
  expect(sizeFor(11, 1)).toBe(0.55)
})
