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
