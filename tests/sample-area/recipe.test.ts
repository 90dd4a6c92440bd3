/** The recipe is one that the program takes, and says only what the reference set knows. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { compileClasses } from '../../src/classes/classify'
import { compileIndices } from '../../src/indices/index-set'
import { CATALOGUE } from '../../src/minerals/catalogue'
import { parseRecipe } from '../../src/project/recipe'
import { rowsOf, SAMPLE_AREA } from './truth'

const recipe = parseRecipe(readFileSync(join(SAMPLE_AREA, 'recipe.json'), 'utf8'))
const samples = rowsOf(readFileSync(join(SAMPLE_AREA, 'places/samples.csv'), 'utf8'))
const known = {
  minerals: CATALOGUE.map(({ mineral }) => mineral),
  groups: CATALOGUE.map(({ group }) => group),
  columns: Object.keys(samples[0]),
}

test('every index and every class compiles', () => {
  expect(recipe.indices.length).toBeGreaterThanOrEqual(8)
  expect(recipe.classes.length).toBeGreaterThanOrEqual(8)
  expect(compileIndices(recipe.indices, known).errors).toEqual([])
  const indices = recipe.indices.map(({ name }) => name)
  expect(compileClasses(recipe.classes, { ...known, indices }).errors).toEqual([])
})

test('no two classes share both colour and symbol, and colours are Okabe and Ito’s', () => {
  const looks = recipe.classes.map(({ colour, symbol }) => `${colour} ${symbol}`)
  expect(new Set(looks).size).toBe(looks.length)
  // Okabe and Ito 2008, the eight colours.
  const palette = '#000000 #E69F00 #56B4E9 #009E73 #F0E442 #0072B2 #D55E00 #CC79A7'.split(' ')
  for (const { colour } of recipe.classes) expect(palette).toContain(colour)
})

test('surfaces speak of indices and masks that are there', () => {
  const indices = new Set(recipe.indices.map(({ name }) => name))
  const surfaces = new Set(recipe.surfaces.map(({ name }) => name))
  for (const { value, mask } of recipe.surfaces) {
    if (value !== undefined) expect(indices).toContain(value)
    if (mask) expect(surfaces).toContain(mask.surface)
  }
})

test('place rules name the tables’ own columns', () => {
  const headings = new Set(known.columns)
  const rule = recipe.places.find(({ file }) => file === 'samples.csv')
  for (const column of [rule?.x, rule?.y, rule?.z, rule?.name]) expect(headings).toContain(column)
  expect(recipe.places.find(({ file }) => file === 'day1.gpx')?.clock_offset_s).toBe(23 * 60)
})
