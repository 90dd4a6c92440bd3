/** Editing many scans: what a search finds, and what setting a field decides. */
import { expect, test } from 'vitest'
import { scanKey, type DecisionAbout } from '../../src/project/decisions'
import type { ScanHead } from '../../src/project/project'
import { recognise } from '../../src/readers/recognise'
import {
  decisionAbout,
  scansFound,
  searchTexts,
  setByHand,
  valueOf,
} from '../../src/views/scans/edit-scans'

const head = (name: string, metadata: Record<string, string>, own?: Record<string, string>) =>
  ({ name, file: `day 1/${name}.txt`, metadata, known: recognise(metadata), own }) as ScanHead
const HEADS = [
  head('a', { Sample: 'S1', Comment: 'wet patch' }),
  head('b', { Sample: 'S2' }, { Block: 'North' }),
]

test('a search finds scans by all its words, in any field and any case', () => {
  const found = (sought: string) => scansFound(searchTexts(HEADS, null), sought)
  expect([found(''), found('WET s1'), found('north'), found('day b.txt'), found('wet s2')]).toEqual(
    [[0, 1], [0], [1], [1], []],
  )
})

test('what a scan holds', () => {
  expect(
    ['sample', 'comment', 'Block', 'station'].map((f) => valueOf(HEADS[0], 0, f, null)),
  ).toEqual(['S1', 'wet patch', '', ''])
  expect(valueOf(HEADS[1], 1, 'Block', null)).toBe('North')
})

test('setting a field is a decision of its kind, or a word on what is missing', () => {
  expect(decisionAbout('support', 'core')).toEqual({ kind: 'support', support: 'core' })
  expect(decisionAbout('target', '')).toEqual({ kind: 'target', target: '' })
  expect(decisionAbout('station', 'S9')).toEqual({ kind: 'station', station: 'S9' })
  expect(decisionAbout('sample', '')).toEqual({ kind: 'field', field: 'sample', value: '' })
  expect(decisionAbout('Block', 'n')).toEqual({ kind: 'field', field: 'Block', value: 'n' })
  expect(decisionAbout('depth', '12,5')).toEqual({ kind: 'field', field: 'depth', value: '12,5' })
  expect(decisionAbout('time', '05/06/24 9:00')).toMatch(/^‘05\/06\/24 9:00’ is no certain date/)
  expect(decisionAbout('mineral', 'x')).toMatch(/fixed column of scans\.csv\.$/)
  expect(decisionAbout('station', '')).toEqual({ kind: 'station', station: '' })
})

test('what was set by hand is known until it is taken back', () => {
  const said = (scan: string, about: DecisionAbout) => ({
    file: `day 1/${scan}.txt`,
    scan,
    about,
    who: 'A. Tester',
    when: '2024-05-07T18:00:00Z',
    why: 'seen',
  })
  const list = [
    said('a', { kind: 'target', target: 'vein' }),
    said('b', { kind: 'target', target: 'cut' }),
    said('b', { kind: 'field', field: 'Block', value: 'n' }),
    said('a', { kind: 'target', target: '' }),
  ]
  const set = (field: string) => [...setByHand({ decisions: 1, list }, field)]
  expect(set('target')).toEqual([scanKey('day 1/b.txt', 'b')])
  expect(set('Block')).toEqual([scanKey('day 1/b.txt', 'b')])
  expect([set('support'), set('sample')]).toEqual([[], []])
})
