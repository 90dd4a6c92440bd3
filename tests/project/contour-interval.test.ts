/** Contours at an interval that someone chose. */
import { expect, test } from 'vitest'
import { Chain } from '../../src/project/chain'
import { scaleOf } from '../../src/views/map-view/surface-picture'
import { pool, recipeOf, run } from './field'
import { THREE } from './pools'

const RULE = { method: 'kriging', cell: 50, reach: 300 }

test('stand at its multiples, and nothing is computed again for them', async () => {
  const chain = new Chain(pool, THREE)
  const usual = await run([RULE], undefined, chain)
  pool.reset()
  const chosen = await run([{ ...RULE, contour_interval: 7.5 }], undefined, chain)
  expect([pool.count('plan surface'), pool.count('surface tile')]).toEqual([0, 0])
  const [surface] = chosen.results.surfaces
  expect(surface.bands?.estimate).toEqual(usual.results.surfaces[0].bands?.estimate)
  const levels = [...new Set(surface.contours.map(({ level }) => level))]
  const known = (surface.bands?.estimate ?? []).filter((value) => !Number.isNaN(value))
  const [low, high] = [Math.min(...known), Math.max(...known)]
  const multiples = Array.from({ length: 40 }, (_, k) => 7.5 * (k - 10))
  expect(levels).toEqual(multiples.filter((level) => level > low && level < high))
  expect(chosen.report[0]).toMatchObject({ contour_interval: 7.5 })
  expect(usual.report[0]).toMatchObject({ contour_interval: null })
  const scale = scaleOf(surface.spread, false, false, 'bands', 7.5)
  expect(scale?.levels).toEqual(levels)
})

test('too many are not drawn, and the sentence says what to do', async () => {
  const { results } = await run([{ ...RULE, contour_interval: 0.001 }])
  const [{ failure, contours, sentence, bands }] = results.surfaces
  expect([failure, contours]).toEqual([null, []])
  expect(bands).not.toBeNull()
  expect(sentence).toMatch(/Contours every 0.001 .* 200 .* choose a larger interval/)
})

test('goes with values and chances, and is above 0', () => {
  expect(() => recipeOf({ method: 'kriging', contour_interval: 0 })).toThrow(/contour_interval/)
  const classes = { value: undefined, classes: 'all', method: 'likeliest-class' }
  expect(() => recipeOf({ ...classes, contour_interval: 1 })).toThrow(/no contours/)
})
