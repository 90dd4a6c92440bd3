/** A recipe from the window on the command line, where paths begin inside the folder that is named. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { recipeInFolders } from '../../src/batch/recipe-in-folders'
import { EMPTY_RECIPE, parseRecipe } from '../../src/project/recipe'
import { Layers, runMap, Scratch } from './command'

const IN_FIELD = [
  { path: 'samples.csv', folder: 'field' },
  { path: 'day-1/a.txt', folder: 'field' },
]

describe('the files of a recipe', () => {
  const placesFor = (file: string, files = IN_FIELD) =>
    recipeInFolders({ ...EMPTY_RECIPE, places: [{ file, crs: 'EPSG:32719' }] }, files).places.map(
      (rule) => rule.file,
    )

  test('that begin with the named folder are found inside it', () => {
    expect(placesFor('field/samples.csv')).toEqual(['samples.csv'])
    expect(placesFor('field/day-1/')).toEqual(['day-1/a.txt'])
    expect(placesFor('field/')).toEqual(['./'])
  })

  test('stay where they fit as they stand, or nothing at all: another folder is not guessed', () => {
    for (const file of ['samples.csv', 'day-1/', 'other/samples.csv', 'other/', './'])
      expect(placesFor(file)).toEqual([file])
  })

  test('of one of two folders speak of that one alone', () => {
    const files = [...IN_FIELD, { path: 'b.txt', folder: 'core' }]
    expect(placesFor('core/', files)).toEqual(['b.txt'])
  })

  test('are those of surfaces, of the walk and of the wavelength standard too', () => {
    const surface = { name: 's', value: 'a', method: 'kriging', drift: 'field/day-1/a.txt' }
    const recipe = parseRecipe(
      JSON.stringify({
        recipe: 1,
        surfaces: [surface],
        traverse: {
          surface: 's',
          start: { longitude: -69, latitude: -24 },
          ...{ leave: '07:00', back: '09:00', stop_minutes: 5 },
          ...{ terrain: 'field/day-1/a.txt', avoid: 'field/samples.csv' },
        },
        check: { standard: { scan: 'p', record: 'field/day-1/a.txt', bands: [[1000, 1100]] } },
      }),
    )
    const here = recipeInFolders(recipe, IN_FIELD)
    expect(here.surfaces[0].drift).toBe('day-1/a.txt')
    expect(here.traverse).toMatchObject({ terrain: 'day-1/a.txt', avoid: 'samples.csv' })
    expect(here.check?.standard?.record).toBe('day-1/a.txt')
  })
})

describe('on the command line', () => {
  let scratch: Scratch
  beforeEach(() => {
    scratch = new Scratch()
  })
  afterEach(() => scratch.remove())

  test('a recipe that the window saved places the same table, named as a folder or as a file', () => {
    const table = scratch.put('field/samples.csv', 'Sample,East,North\nA1,470000,7240000\n')
    const places = [{ file: 'field/samples.csv', crs: 'EPSG:32719' }]
    const recipe = scratch.json('recipe.json', { recipe: 1, places })
    for (const named of [scratch.path('field'), table]) {
      const out = scratch.path('out')
      expect(runMap('--places', named, '--recipe', recipe, '--out', out).code).toBe(0)
      expect(new Layers(out).rows('stations.csv')).toMatchObject([{ station: 'A1' }])
    }
  })
})
