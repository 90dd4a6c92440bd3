/** A variogram model written by hand. */
import { describe, expect, test } from 'vitest'
import type { Variogram } from '../../src/surfaces/model'
import { checkVariogram, totalSill } from '../../src/surfaces/variogram-models'
import { parseRecipe } from '../../src/project/recipe'
import {
  formWords,
  numberTrouble,
  withDirection,
  withOneMore,
  withoutStructure,
  withStructure,
} from '../../src/views/surfaces/model-form'

const ONE: Variogram = {
  nugget: 5,
  structures: [{ model: 'spherical', sill: 20, range: 400 }],
}

/** A recipe takes the model as it is written. */
function isTaken(variogram: Variogram): Variogram | 'fit' | undefined {
  checkVariogram(variogram)
  const surface = { name: 's', value: 'v', method: 'kriging', variogram }
  return parseRecipe(JSON.stringify({ recipe: 1, surfaces: [surface] })).surfaces[0].variogram
}

describe('a form', () => {
  test('is changed alone; a smoothness comes with Matérn and goes with it', () => {
    const matern = withStructure(ONE, 0, { model: 'matern' })
    expect(matern.structures).toEqual([{ model: 'matern', sill: 20, range: 400, smoothness: 1.5 }])
    const rough = withStructure(matern, 0, { smoothness: 0.5 })
    expect(rough.structures[0].smoothness).toBe(0.5)
    expect(formWords(rough.structures[0])).toBe('Matérn of smoothness 0.5')
    expect(isTaken(rough)).toEqual({ ...rough, azimuth: undefined, ratio: undefined })
    const gaussian = withStructure(rough, 0, { model: 'gaussian' })
    expect(gaussian.structures).toEqual([{ model: 'gaussian', sill: 20, range: 400 }])
  })
})

describe('a second structure', () => {
  test('is the shorter one, stands first, and leaves the sill as it was', () => {
    const two = withOneMore(ONE, 100)
    expect(two.structures).toEqual([
      { model: 'spherical', sill: 10, range: 80 },
      { model: 'spherical', sill: 10, range: 400 },
    ])
    expect(totalSill(two)).toBe(25)
    expect(isTaken(two)).toMatchObject(two)
    expect(withoutStructure(two, 0)).toEqual(ONE)
    expect(withoutStructure(two, 1)).toEqual({
      nugget: 5,
      structures: [{ model: 'spherical', sill: 20, range: 80 }],
    })
  })

  test('of a model that is all nugget is its first', () => {
    const { nugget, structures } = withOneMore({ nugget: 8, structures: [] }, 120)
    expect([nugget, structures]).toEqual([4, [{ model: 'spherical', sill: 4, range: 120 }]])
  })
})

test('a direction comes with a ratio under 1 and goes with one of 1', () => {
  const turned = withDirection(ONE, 45, 0.4)
  expect(isTaken(turned)).toEqual({ ...ONE, azimuth: 45, ratio: 0.4 })
  expect(withDirection(turned, 45, 1)).toEqual(ONE)
})

test('a number that no model can have is refused in words', () => {
  expect(numberTrouble('nugget', 0)).toBe('')
  expect(numberTrouble('nugget', -1)).toMatch(/0 or more/)
  expect(numberTrouble('sill', NaN)).toMatch(/stays as it was/)
  expect(numberTrouble('sill', Infinity)).toMatch(/0 or more/)
  expect(numberTrouble('range', 0)).toMatch(/above 0/)
  expect(numberTrouble('ratio', 1.5)).toMatch(/between 0.001 and 1/)
  expect(numberTrouble('smoothness', 0.05)).toMatch(/between 0.1 and 10/)
})
