/** A decision finds its file whether the path begins with the dropped folder or inside it. */
import { expect, test } from 'vitest'
import { withFilesFound } from '../../src/project/decision-files'
import type { Decisions } from '../../src/project/decisions'

function about(file: string): Decisions {
  const note = { kind: 'note' as const, note: 'n' }
  return { decisions: 1, list: [{ file, scan: 's', about: note, who: '', when: '', why: '' }] }
}

const fileOf = (decisions: Decisions) => decisions.list[0].file

test.each([
  ['day-1/a.txt', ['day-1/a.txt', 'x/day-1/a.txt'], 'day-1/a.txt'],
  ['scans/day-1/a.txt', ['day-1/a.txt'], 'day-1/a.txt'],
  ['day-1/a.txt', ['scans/day-1/a.txt', 'scans/day-2/a.txt'], 'scans/day-1/a.txt'],
  ['a.txt', ['day-1/a.txt', 'day-2/a.txt'], 'a.txt'],
  ['1/a.txt', ['day-1/a.txt'], '1/a.txt'],
])('%s among %j is %s', (file, files, expected) => {
  expect(fileOf(withFilesFound(about(file), new Set(files)))).toBe(expected)
})

test('nothing to find gives the decisions back as they were', () => {
  const decisions = about('a.txt')
  expect(withFilesFound(decisions, new Set(['a.txt']))).toBe(decisions)
})

test('100,000 decisions about files that are not here are gone through once', () => {
  const list = Array.from({ length: 100_000 }, (_, i) => about(`x/y/a${i}.txt`).list[0])
  const files = new Set(Array.from({ length: 20_000 }, (_, i) => `here/y/a${i * 2}.txt`))
  files.add('y/a3.txt')
  const found = withFilesFound({ decisions: 1, list }, files)
  expect(found.list[3].file).toBe('y/a3.txt')
  expect(found.list[4].file).toBe('x/y/a4.txt')
})
