/** What the pages quote of recipes, decisions and formulas is understood as it stands there. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { FUNCTIONS } from '../../src/indices/functions'
import { parseFormula } from '../../src/indices/parse'
import { parseDecisions } from '../../src/project/decisions'
import { parseRecipe } from '../../src/project/recipe'

/** The blocks of a page, in one language or in none. */
function blocks(page: string, language: string): string[] {
  const text = readFileSync(page, 'utf8')
  const found = text.matchAll(/^```(\w*)\n([\s\S]*?)^```$/gm)
  return Array.from(found).flatMap(([, told, block]) => (told === language ? [block] : []))
}

test('parts of a recipe in the page of contracts', () => {
  const parts = blocks('docs/contracts.md', 'json')
  expect(parts.length).toBeGreaterThan(1)
  for (const part of parts) {
    const key = /^"(\w+)"/.exec(part)?.[1] ?? ''
    expect(parseRecipe(`{ "recipe": 1, ${part} }`)).toHaveProperty(key)
  }
})

test('decisions in the guide', () => {
  const [text] = blocks('docs/guide.md', 'json')
  expect(parseDecisions(text).list).toHaveLength(1)
})

/** What a refusal says is known, for a decision about which something unknown is said. */
function knownAbout(about: object): string[] {
  const decision = { file: 'f', scan: 's', about, who: 'w', when: 't', why: 'y' }
  try {
    parseDecisions(JSON.stringify({ decisions: 1, list: [decision] }))
  } catch (error) {
    return /(?:none of|known here:) (.*)$/.exec((error as Error).message)?.[1].split(', ') ?? []
  }
  throw new Error('What is unknown was taken.')
}

test('every kind of decision in the guide, with all that it says', () => {
  const guide = readFileSync('docs/guide.md', 'utf8').split('\n## The decisions file\n')[1]
  const kinds = knownAbout({ kind: 'unknown' })
  expect(kinds.length).toBeGreaterThan(10)
  for (const kind of kinds) {
    const row = guide.split('\n').find((line) => line.startsWith(`| \`${kind}\` |`)) ?? ''
    const keys = knownAbout({ kind, unknown: 1 }).slice(1)
    expect(keys.length).toBeGreaterThan(0)
    // That a station without scans is named beside its record stands under the table.
    const told = keys.filter((key) => row.includes(`\`${key}\``) || key === 'station')
    expect([kind, ...told]).toEqual([kind, ...keys])
  }
  expect(guide).toContain('"station": "its name"')
})

test('formulas in the guide', () => {
  const formulas = blocks('docs/guide.md', '').filter((block) => !block.startsWith('npm '))
  expect(formulas.length).toBeGreaterThan(1)
  for (const formula of formulas) expect(() => parseFormula(formula.trim())).not.toThrow()
})

test('formulas and functions in the page of formulas', () => {
  const page = readFileSync('docs/methods/formulas.md', 'utf8')
  const quoted = Array.from(page.matchAll(/`([^`\n]+)`/g), ([, words]) => words)
  for (const { name } of FUNCTIONS) expect(page).toMatch(new RegExp(`\\b${name}\\b`))
  const whole = quoted.filter((words) => /^\[|^group\(|^2\^|^-2|^if\(condition/.test(words))
  expect(whole.length).toBeGreaterThan(5)
  for (const formula of whole) {
    expect(() => parseFormula(formula.replace('(condition, a, b)', '(1 < 2, 3, 4)'))).not.toThrow()
  }
})
