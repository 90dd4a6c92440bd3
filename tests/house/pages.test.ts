/** The pages speak of what there is: links, files, names of the code, commands. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { expect, test } from 'vitest'

const ROOT = resolve(import.meta.dirname, '../..')

function filesUnder(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
}

const PAGES = [
  join(ROOT, 'README.md'),
  join(ROOT, 'DEVELOPERS.md'),
  join(ROOT, 'sample-area/README.md'),
  ...filesUnder('docs').filter((file) => file.endsWith('.md')),
]

/** A heading as a link names it: small letters, blanks as dashes, other signs left out. */
function anchorOf(heading: string): string {
  const plain = heading.toLowerCase().replace(/[^\p{L}\p{N}\- ]/gu, '')
  return plain.replaceAll(' ', '-')
}

/** Where a page's links lead that lead nowhere, as `page → target`. */
function brokenLinks(page: string): string[] {
  const text = readFileSync(page, 'utf8')
  return Array.from(text.matchAll(/\]\(([^)\s]+)\)/g), ([, target]) => target)
    .filter((target) => !/^[a-z]+:/.test(target))
    .filter((target) => {
      const [path, anchor] = target.split('#')
      const file = path === '' ? page : resolve(dirname(page), path)
      if (!existsSync(file)) return true
      if (anchor === undefined) return false
      const headings = readFileSync(file, 'utf8').matchAll(/^#+ (.*)$/gm)
      return !Array.from(headings, ([, heading]) => anchorOf(heading)).includes(anchor)
    })
    .map((target) => `${basename(page)} → ${target}`)
}

test('links lead somewhere', () => {
  expect(PAGES.length).toBeGreaterThan(15)
  expect(PAGES.flatMap(brokenLinks)).toEqual([])
})

/** What stands between backticks on a line, blocks left out. */
function quoted(page: string): string[] {
  const text = readFileSync(page, 'utf8').replace(/```[\s\S]*?```/g, '')
  return Array.from(text.matchAll(/`([^`\n]+)`/g), ([, words]) => words)
}

const ROOMS = ['src', 'tests', 'docs', 'styles', 'sample-area', '.ci']

test('paths that the pages name are there', () => {
  const paths = PAGES.flatMap(quoted).filter(
    (words) => /^[\w./-]+$/.test(words) && ROOMS.includes(words.split('/')[0]),
  )
  // NAME stands for what the reader adds.
  const named = paths.filter((path) => !path.includes('NAME'))
  expect(named.length).toBeGreaterThan(60)
  expect(named.filter((path) => !existsSync(join(ROOT, path)))).toEqual([])
})

test('names of the code that DEVELOPERS.md gives stand in the code', () => {
  const code = ['src', 'tests', 'sample-area/make'].flatMap(filesUnder)
  const files = new Set([...code, ...filesUnder('sample-area')].map((file) => basename(file)))
  const text = code
    .filter((file) => /\.(ts|svelte|mjs)$/.test(file))
    .map((file) => readFileSync(file, 'utf8'))
    .join('\n')
  const words = new Set(text.match(/[A-Za-z_$][\w$]*/g))
  const names = quoted(join(ROOT, 'DEVELOPERS.md')).filter((name) => /^[A-Za-z][\w.-]*$/.test(name))
  const isThere = (name: string): boolean =>
    files.has(name) || name.split(/[.-]/).every((word) => words.has(word))
  expect(names.length).toBeGreaterThan(80)
  expect(names.filter((name) => !isThere(name))).toEqual([])
})

test('commands that the pages give can be run', () => {
  const { scripts } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
    scripts: Record<string, string>
  }
  const text = PAGES.map((page) => readFileSync(page, 'utf8')).join('\n')
  const run = Array.from(text.matchAll(/npm run ([a-z-]+)/g), ([, script]) => script)
  const started = Array.from(
    text.matchAll(/(?:npx tsx|Rscript|python3) ([\w./-]+)/g),
    ([, path]) => path,
  )
  expect(run.length).toBeGreaterThan(10)
  expect(run.filter((script) => !(script in scripts))).toEqual([])
  expect(started.length).toBeGreaterThan(10)
  expect(started.filter((path) => !existsSync(join(ROOT, path)))).toEqual([])
})
