/** The house's order: a room may import only rooms that stand below it (DEVELOPERS.md). */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative, resolve } from 'node:path'
import { expect, test } from 'vitest'

const ROOMS = [
  'views',
  'map',
  'batch',
  'project',
  'jobs',
  'layers',
  'traverse',
  'surfaces',
  'classes',
  'indices',
  'minerals',
  'check',
  'places',
  'readers',
  'spectra',
  'colour',
]
const SRC = resolve(import.meta.dirname, '../../src')
const IMPORT =
  /(?:import|export)\s[^'"]*?from\s*['"]([^'"]+)['"]|import\s*['"]([^'"]+)['"]|import\(\s*['"]([^'"]+)['"]\s*\)|new URL\(\s*['"]([^'"]+)['"]/g

function sourceFiles(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(ts|svelte|mjs)$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
}

function importsOf(file: string): string[] {
  const found: string[] = []
  for (const match of readFileSync(file, 'utf8').matchAll(IMPORT)) {
    const target = match[1] ?? match[2] ?? match[3] ?? match[4]
    if (target.startsWith('.')) found.push(relative(SRC, resolve(dirname(file), target)))
  }
  return found
}

/** Rooms whose imports run upward, as `file → import`. */
function upwardImports(files: string[]): string[] {
  const wrong: string[] = []
  for (const file of files) {
    const from = relative(SRC, file)
    const room = ROOMS.indexOf(from.split('/')[0])
    if (room < 0) continue
    for (const target of importsOf(file)) {
      const other = ROOMS.indexOf(target.split('/')[0])
      if (other >= 0 && other < room) wrong.push(`${from} → ${target}`)
    }
  }
  return wrong
}

test('imports run downward between rooms', () => {
  expect(upwardImports(sourceFiles(SRC))).toEqual([])
})

test('everything below project knows no DOM, storage, map or clock', () => {
  // A room that nothing is built in yet has no folder.
  const pure = ROOMS.slice(ROOMS.indexOf('layers')).filter((room) => existsSync(join(SRC, room)))
  expect(pure.length).toBeGreaterThan(8)
  const forbidden =
    /\b(document|window)\s*[.[]|\b(localStorage|indexedDB|Date\.now|performance\.now|Math\.random)\b|from 'maplibre-gl'|from 'idb-keyval'|new Date\(\)/
  const wrong = pure.flatMap((room) =>
    sourceFiles(join(SRC, room)).filter((file) =>
      forbidden.test(
        readFileSync(file, 'utf8')
          .replace(/\/\*[\s\S]*?\*\//g, '')
          .replace(/\/\/.*$/gm, ''),
      ),
    ),
  )
  expect(wrong.map((file) => relative(SRC, file))).toEqual([])
})

test('the check itself sees an import that runs upward', () => {
  expect(ROOMS.indexOf('views')).toBeLessThan(ROOMS.indexOf('spectra'))
  expect('import x from "../views/y"'.match(IMPORT)).not.toBeNull()
})
