/** Handles of a variogram model. */
import { describe, expect, test } from 'vitest'
import { checkVariogram, totalSill } from '../../src/surfaces/variogram-models'
import {
  gammaAlong,
  handleLimits,
  HANDLES,
  handleValue,
  moved,
} from '../../src/views/surfaces/model-handles'

const limits = { far: 1000, high: 50 }
const one = { nugget: 5, structures: [{ model: 'spherical' as const, sill: 20, range: 400 }] }
const two = {
  nugget: 2,
  structures: [
    { model: 'exponential' as const, sill: 4, range: 80 },
    { model: 'spherical' as const, sill: 10, range: 500 },
  ],
}

describe('a handle', () => {
  test('reads the nugget, the total sill and the longest structure’s range', () => {
    expect(HANDLES.map((handle) => handleValue(one, handle))).toEqual([5, 25, 400])
    expect(HANDLES.map((handle) => handleValue(two, handle))).toEqual([2, 16, 500])
  })

  test('moves its number alone: a raised nugget leaves the sill where it was', () => {
    const raised = moved(one, 'nugget', 12, limits)
    expect([raised.nugget, raised.structures[0].sill, totalSill(raised)]).toEqual([12, 13, 25])
    const higher = moved(two, 'sill', 30, limits)
    expect(higher.structures.map(({ sill }) => sill)).toEqual([4, 24])
    expect(higher.nugget).toBe(2)
    expect(moved(two, 'range', 612.34, limits).structures.map(({ range }) => range)).toEqual([
      80, 612.3,
    ])
  })

  test('stops where the model would be none, or leave the plot', () => {
    for (const handle of HANDLES)
      for (const value of [-1e9, 1e9]) {
        const end = moved(two, handle, value, limits)
        expect(() => checkVariogram(end)).not.toThrow()
        const [least, most] = handleLimits(two, handle, limits)
        expect(handleValue(end, handle)).toBeCloseTo(value < 0 ? least : most, 9)
      }
    expect(handleLimits(two, 'sill', limits)).toEqual([6, 50])
    expect(handleLimits(one, 'nugget', limits)).toEqual([0, 25])
  })
})

test('along the azimuth the range is the model’s, across it the ratio’s part of it', () => {
  const turned = { ...one, nugget: 0, azimuth: 30, ratio: 0.5 }
  expect(gammaAlong(turned, 399)).toBeLessThan(20)
  expect(gammaAlong(turned, 400)).toBeCloseTo(20, 9)
  expect(gammaAlong(turned, 200, true)).toBeCloseTo(20, 9)
  expect(gammaAlong(turned, 200)).toBeCloseTo(20 * (1.5 * 0.5 - 0.5 * 0.125), 9)
})
