/** Limits as fields: what is shown, and what of it goes into the recipe. */
import { expect, test } from 'vitest'
import { DEFAULT_LIMITS, LIMIT_KINDS } from '../../src/check/limits'
import { parseRecipe, writeRecipe, EMPTY_RECIPE } from '../../src/project/recipe'
import { limitFields, readPositions, withLimit } from '../../src/views/check/limit-fields'

test('fractions are shown in percent, and a limit set to what is shown changes nothing', () => {
  const step = limitFields({}).find(({ name }) => name === 'detectorStep')
  expect(step).toMatchObject({ value: 1.5, usual: 1.5, low: 0.1, high: 100, unit: '%' })
  for (const { name, value } of limitFields({})) expect(withLimit({}, name, value)).toBeUndefined()
})

test('every limit set within its bounds is one that a recipe may hold', () => {
  for (const { name, low, high } of limitFields({})) {
    for (const shown of [low, high, (low + high) / 3]) {
      const check = withLimit({}, name, shown)
      const recipe = { ...EMPTY_RECIPE, ...(check ? { check } : {}) }
      expect(parseRecipe(writeRecipe(recipe))).toEqual(recipe)
      const scale = LIMIT_KINDS[name].unit === 'fraction' ? 100 : 1
      const value = check?.limits?.[name] ?? DEFAULT_LIMITS[name]
      expect(Math.abs(value * scale - shown)).toBeLessThanOrEqual(1e-8 * shown)
    }
  }
})

test('an empty field is the usual limit again and leaves the rest of the check alone', () => {
  const check = { limits: { drift: 0.05, warmUp: 5 }, rock: 'granite' }
  expect(withLimit(check, 'drift', null)).toEqual({ limits: { warmUp: 5 }, rock: 'granite' })
  expect(withLimit({ limits: { drift: 0.05 } }, 'drift', null)).toBeUndefined()
})

test('positions are numbers within the range, a decimal comma is none', () => {
  expect(readPositions('1132.6, 1534.1;1983')).toEqual([1132.6, 1534.1, 1983])
  for (const text of ['', 'about 1400', '1132,6', '1.4']) expect(readPositions(text)).toBeNull()
})
