/** What an undo changed, in words. */
import { expect, test } from 'vitest'
import { apply, type Command } from '../../src/project/commands'
import type { Decision, DecisionAbout } from '../../src/project/decisions'
import { emptyProject, type Project } from '../../src/project/project'
import { changeWords } from '../../src/views/shell/change-words'

const decision = (scan: string, about: DecisionAbout): Decision => ({
  file: `${scan}.txt`,
  scan,
  about,
  who: 'A',
  when: '2025-09-02T10:00:00Z',
  why: 'w',
})
const start = emptyProject('P')

/** The words are the same whichever way the change is gone. */
function words(command: Command, from: Project = start): string {
  const { project, inverse } = apply(from, command)
  const done = changeWords(from, project)
  expect(changeWords(project, apply(project, inverse).project)).toBe(done)
  return done
}

test('decisions are told by their kind and their scans', () => {
  const aside = { kind: 'verdict', check: 'set aside' } as const
  const one = decision('S1', aside)
  expect(words({ do: 'decide', decisions: [one] })).toBe('verdict of S1')
  expect(words({ do: 'decide', decisions: [one, decision('S2', aside)] })).toBe(
    'verdict of 2 scans',
  )
  const mixed = [one, decision('S1', { kind: 'note', note: 'n' })]
  expect(words({ do: 'decide', decisions: mixed })).toBe('decisions')
  const had = apply(start, { do: 'decide', decisions: mixed }).project
  const loaded = { decisions: 1, list: [decision('S9', aside), one, one] } as const
  expect(words({ do: 'set decisions', decisions: loaded }, had)).toBe('decisions')
})

test('a part of the recipe, a name, files', () => {
  expect(words({ do: 'set classes', classes: [] })).toBe('classes')
  expect(words({ do: 'set check', check: { rock: 'R' } })).toBe('limits of the check')
  expect(words({ do: 'rename', name: 'Ridge' })).toBe('name of the project')
  expect(words({ do: 'hide files', paths: ['a.txt'] })).toBe('files that count')
  expect(changeWords(start, start)).toBe('')
})
