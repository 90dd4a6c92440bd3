import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { readReferenceSet, writeReferenceSet } from '../../src/minerals/set-file'

const set = await loadBuiltInSet()
const small = { ...set, references: set.references.slice(0, 2) }
const parsed = (): { references: Record<string, unknown>[] } & Record<string, unknown> =>
  JSON.parse(writeReferenceSet(small)) as never

/** The same with its keys the other way round. */
const turnedAround = <T extends object>(value: T): T =>
  Object.fromEntries(Object.entries(value).reverse()) as T

describe('a set file', () => {
  it('comes back as it was', () => {
    expect(readReferenceSet(JSON.parse(writeReferenceSet(set)))).toEqual(set)
  })

  it('has the same bytes whatever made it: a fit, a file or a change', () => {
    const shipped = readFileSync('src/minerals/reference-set/built-in.json', 'utf8')
    expect(writeReferenceSet(set)).toBe(shipped)
    const said = [{ who: 'A', when: '2026-01-01T00:00:00Z', why: 'known' }]
    const first = { ...set.references[0], provenance: { site: 's', note: 'n', said } }
    const turned = turnedAround({
      ...first,
      provenance: turnedAround({ ...first.provenance, said: said.map(turnedAround) }),
    })
    const text = writeReferenceSet({ ...set, references: [first] })
    expect(writeReferenceSet({ ...set, references: [turned] })).toBe(text)
    expect(writeReferenceSet(readReferenceSet(JSON.parse(text)))).toBe(text)
  })

  it('refuses what is no set, saying what to do', () => {
    expect(() => readReferenceSet([])).toThrow(/not a table/)
    expect(() => readReferenceSet({ referenceSet: 7 })).toThrow(/export the set again/)
  })

  it.each([
    ['bands', 'many', /Reference 1 \(actinolite\): bands is not a list/],
    ['bands', [[2200, 0, 0.1]], /has no width/],
    ['bands', Array.from({ length: 41 }, () => [2200, 10, 0.1]), /at most 40/],
    ['continuum', [[350, -1]], /two or more knots/],
    ['fitError', 'small', /fitError is not a number/],
    ['group', 3, /group is not a text/],
  ])('refuses a reference whose %s is %j', (field, value, message) => {
    const file = parsed()
    file.references[0][field] = value
    expect(() => readReferenceSet(file)).toThrow(message)
  })
})
