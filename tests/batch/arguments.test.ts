/** The command line's words and its exit codes: 0, 2 when nothing could be read, 64 for wrong words. */
import { existsSync } from 'node:fs'
import { platform } from 'node:os'
import { afterAll, describe, expect, test } from 'vitest'
import { ArgumentError, parseArguments } from '../../src/batch/arguments'
import { Layers, runMap, Scratch } from './command'
import { degreesAt, scanText } from './made-scans'

const scratch = new Scratch()
afterAll(() => scratch.remove())

describe('words', () => {
  test('lists and single values in any order', () => {
    const words = '--out O --places a b --recipe r.json --scans s --references lib --threads 3'
    expect(parseArguments(words.split(' '))).toEqual({
      scans: ['s'],
      places: ['a', 'b'],
      recipe: 'r.json',
      decisions: null,
      references: 'lib',
      out: 'O',
      threads: 3,
    })
  })

  test.each([
    ['--scans s', /--out is missing/],
    ['--out O', /Neither --scans nor --places/],
    ['--scans s --out O --fast', /no option --fast/],
    ['s --out O', /‘s’ stands before any option/],
    ['--scans s --scans t --out O', /--scans is given twice/],
    ['--scans --out O', /--scans names no file/],
    ['--scans s --out O P', /--out takes exactly one/],
    ['--scans s --out O --recipe', /--recipe takes exactly one/],
    ['--scans s --out O --threads 0', /1 to 64, not ‘0’/],
    ['--scans s --out O --threads two', /not ‘two’/],
    ['--scans s --out O --threads 1e1', /not ‘1e1’/],
    ['--scans=s --out O', /are two words: --scans s$/],
    ['--fast=s --out O', /no option --fast=s/],
  ])('%s', (words, why) => {
    expect(() => parseArguments(words.split(' '))).toThrow(ArgumentError)
    expect(() => parseArguments(words.split(' '))).toThrow(why)
  })

  test('an empty name, as a shell makes of a variable that is not set', () => {
    expect(() => parseArguments(['--scans', '', '--out', 'O'])).toThrow(/--scans is given an empty/)
    expect(() => parseArguments(['--scans', 's', '--out', ' '])).toThrow(/--out is given an empty/)
  })

  test('one with blanks is one name', () => {
    expect(parseArguments(['--scans', 'day one', '--out', 'my layers'])).toMatchObject({
      scans: ['day one'],
      out: 'my layers',
    })
  })
})

describe('64, with what is wrong and nothing written', () => {
  const scan = () =>
    scratch.put('one.txt', scanText({ group: 'alunite', seed: 1, header: degreesAt(0, 0) }))
  const recipe = (value: unknown) => scratch.json('recipe.json', value)
  const cases: readonly [string, () => string[], RegExp][] = [
    ['an unknown option', () => ['--fast'], /no option --fast[^]*Usage: npm run map/],
    ['a recipe that is not there', () => ['--recipe', scratch.path('none.json')], /ENOENT/],
    [
      'a recipe that is no JSON',
      () => ['--recipe', scratch.put('r.json', '{')],
      /is wrong: it is not JSON/,
    ],
    [
      'a recipe with a misspelt key',
      () => ['--recipe', recipe({ recipe: 1, indexes: [] })],
      /at indexes: no such key/,
    ],
    [
      'a working CRS that does not exist',
      () => ['--recipe', recipe({ recipe: 1, crs: 'EPSG:999999' })],
      /at crs: .*999999/,
    ],
    [
      'a working CRS in degrees',
      () => ['--recipe', recipe({ recipe: 1, crs: 'EPSG:4326' })],
      /at crs: .*degrees/,
    ],
    [
      'decisions that are none',
      () => ['--decisions', scratch.json('d.json', { decisions: 1, list: [{}] })],
      /decisions.*list\[0\]/,
    ],
    ['references that are not there', () => ['--references', scratch.path('none')], /references/i],
  ]

  test.each(cases)('%s', (_, more, why) => {
    const out = scratch.path('refused')
    const ran = runMap('--scans', scan(), '--out', out, ...more())
    expect(ran.complained).toMatch(why)
    expect(ran.complained).not.toMatch(/^\s+at .*:\d+:\d+/m)
    expect(ran.code).toBe(64)
    expect(existsSync(scratch.path('refused', 'scans.csv'))).toBe(false)
  })

  test('an --out that is a file', () => {
    const ran = runMap('--scans', scan(), '--out', scratch.put('taken', ''))
    expect([ran.code, ran.complained]).toEqual([64, expect.stringMatching(/taken.*cannot be made/)])
  })

  test.skipIf(platform() !== 'linux')('an --out that cannot be written to (Linux alone)', () => {
    const ran = runMap('--scans', scan(), '--out', '/proc')
    expect([ran.code, ran.said]).toEqual([64, ''])
    expect(ran.complained).toMatch(
      /^The folder \/proc of --out cannot be made or written to: .*\.$/m,
    )
  })
})

test.each(['--help', '-h'])('0, and how it is used, where %s asks for that', (word) => {
  const ran = runMap('--scans', 'somewhere', word)
  expect([ran.code, ran.complained]).toEqual([0, ''])
  expect(ran.said).toMatch(/^Usage: npm run map/)
  for (const option of ['scans', 'places', 'recipe', 'decisions', 'references', 'threads', 'out'])
    expect(ran.said).toMatch(new RegExp(`^  --${option} +\\S`, 'm'))
})

describe('2, when nothing could be read', () => {
  test.each([
    [
      'a folder that is not there',
      () => scratch.path('nowhere'),
      /cannot be opened: there is no such file or folder \(ENOENT\)/,
    ],
    ['a folder of broken files', () => scratch.put('broken/a.txt', ''), /empty/],
  ])('%s: the problem is written all the same', (name, path, why) => {
    const out = new Layers(scratch.path(`out of ${name}`))
    const ran = runMap('--scans', path(), '--out', out.folder)
    expect(ran.code).toBe(2)
    expect(out.rows('problems.csv').map(({ problem }) => problem)).toEqual([
      expect.stringMatching(why) as string,
    ])
    expect(out.rows('scans.csv')).toEqual([])
    expect(out.report.read.scans).toBe(0)
  })

  test('one file that is not there does not stop another', () => {
    const out = new Layers(scratch.path('half'))
    const scan = scratch.put('good.txt', scanText({ group: 'kaolin', seed: 2 }))
    const ran = runMap('--scans', scan, scratch.path('nowhere'), '--out', out.folder)
    expect(ran.code).toBe(0)
    expect(out.rows('scans.csv').map(({ group }) => group)).toEqual(['kaolin'])
    expect(out.rows('problems.csv').map(({ problem }) => problem)).toContainEqual(
      expect.stringContaining('cannot be opened'),
    )
  })
})
