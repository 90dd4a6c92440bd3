/** References of the user's own: who said what of them, kept, changed and shared. */
import { expect, test } from 'vitest'
import { fitScans } from '../../src/jobs/fit'
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { modelReflectance } from '../../src/minerals/model'
import type { ReferenceSet } from '../../src/minerals/reference'
import { readReferenceSet, writeReferenceSet } from '../../src/minerals/set-file'
import { withEdited, type ReferenceEdit } from '../../src/project/edit-reference'

const builtIn = await loadBuiltInSet()
const [first] = builtIn.references.filter(({ mineral }) => mineral === 'kaolinite')
const marked = { who: 'A', when: '2024-05-07T10:00:00.000Z', why: 'diffraction' }
const reference = { ...first, provenance: { site: 'B20', note: '', said: [marked] } }
const set: ReferenceSet = { name: 'ours', source: 'here', references: [reference] }
const changed = { who: 'B', when: '2024-05-08T10:00:00.000Z', why: 'thin section' }

function edit(change: Partial<ReferenceEdit>): ReferenceEdit {
  const { mineral, group, variety } = reference
  return { mineral, group, variety, site: 'B20', note: '', said: changed, ...change }
}

function editedBy(change: Partial<ReferenceEdit>) {
  return withEdited([set], 'ours', reference.record, edit(change))[0].references[0]
}

test('a site and a note are changed, and who changed them is added', () => {
  const { provenance, ...rest } = editedBy({ site: ' north wall ', note: 'from a vug' })
  expect(provenance).toEqual({ site: 'north wall', note: 'from a vug', said: [marked, changed] })
  const { provenance: before, ...same } = reference
  expect(before.said).toEqual([marked])
  expect(rest).toEqual(same)
})

test('another mineral brings its own facts: the caution on fibre among them', () => {
  const chrysotile = editedBy({ mineral: 'chrysotile', group: 'anything' })
  expect([chrysotile.group, chrysotile.fibrous]).toEqual(['serpentine', true])
  expect(chrysotile.bands).toBe(reference.bands)
  const other = editedBy({ mineral: 'sparkite', group: 'chlorite' })
  expect([other.mineral, other.group, other.symbol]).toEqual(['sparkite', 'chlorite', null])
  expect(other.diagnostic).toEqual(
    builtIn.references.find(({ group }) => group === 'chlorite')?.diagnostic,
  )
})

test('other sets and references stay as they are', () => {
  const sets = [builtIn, set]
  expect(withEdited(sets, 'ours', reference.record, edit({}))[0]).toBe(builtIn)
  expect(withEdited([set], 'ours', 'no such record', edit({}))[0].references).toEqual(
    set.references,
  )
})

test('a set file carries what was said, and refuses what cannot be read', () => {
  const text = writeReferenceSet(set)
  expect(readReferenceSet(JSON.parse(text))).toEqual(set)
  const wrong = text.replace('"why":"diffraction"', '"why":7')
  expect(() => readReferenceSet(JSON.parse(wrong))).toThrow(/kaolinite\): provenance: why/)
})

test('a scan is fitted under the name it is given, its group’s facts and all', () => {
  const wavelengths = Float64Array.from({ length: 1051 }, (_, i) => 400 + 2 * i)
  const spectrum = {
    name: 'day-1/B20_1.txt B20_1',
    wavelengths,
    reflectance: modelReflectance(first, wavelengths),
  }
  const { provenance } = reference
  const notes = { mineral: 'mine', group: 'kaolin', variety: 'ordered', provenance }
  const [fitted] = fitScans({ spectra: [{ spectrum, notes }] })
  expect(fitted).toMatchObject({ mineral: 'mine', group: 'kaolin', variety: 'ordered', provenance })
  expect(fitted.record).toBe(spectrum.name)
  expect(fitted.diagnostic).toEqual(first.diagnostic)
  expect(fitted.fitError).toBeLessThan(0.004)
})
