/** The page of file contracts names every key that a surface of the recipe may have. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { parseRecipe } from '../../src/project/recipe'

/** The keys that a refusal of an unknown one lists. */
function knownKeys(recipe: object): string[] {
  try {
    parseRecipe(JSON.stringify({ recipe: 1, ...recipe }))
  } catch (error) {
    return (/known here: (.*)$/.exec((error as Error).message)?.[1] ?? '').split(', ')
  }
  throw new Error('The unknown key was taken.')
}

test('keys of a surface', () => {
  const page = readFileSync('docs/contracts.md', 'utf8')
  const section = page.split('\n## What a recipe says of a surface\n')[1].split(/\n## /)[0]
  const told = new Set(Array.from(section.matchAll(/`([a-z_]+)`/g), ([, word]) => word))
  const known = knownKeys({ surfaces: [{ unknown: 1 }] })
  expect(known.length).toBeGreaterThan(20)
  expect(known.filter((key) => !told.has(key))).toEqual([])
})
