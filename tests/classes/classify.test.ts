/** Class rules: the first that is true wins, and what a null decides is not measurable. */
import { describe, expect, test } from 'vitest'
import { classify, compileClasses, explainClass } from '../../src/classes/classify'
import { DEFAULT_CLASSES, DEFAULT_INDICES } from '../../src/classes/default-classes'
import { NOT_MEASURABLE, UNCLASSIFIED, type ClassRule } from '../../src/classes/rule'
import { compileIndices } from '../../src/indices/index-set'
import type { Measured } from '../../src/indices/rule'
import { CATALOGUE } from '../../src/minerals/catalogue'
import { GROUPS } from '../../src/minerals/groups'
import { context, KNOWN, NOTHING } from '../indices/sample'

const rule = (name: string, when: string): ClassRule => ({
  name,
  when,
  colour: '#0072B2',
  symbol: 'circle',
})

const TRUE = '1 = 1'
const FALSE = '1 = 2'
const NULL = '[unknown] > 1'

describe('order', () => {
  test.each([
    [[TRUE, TRUE], 'first'],
    [[FALSE, TRUE], 'second'],
    [[TRUE, NULL], 'first'],
    // A rule that cannot be told does not hold; a later one that is true names the station.
    [[NULL, TRUE], 'second'],
    [[NULL, FALSE, TRUE], 'third'],
    [[NULL, FALSE], NOT_MEASURABLE],
    [[FALSE, NULL], NOT_MEASURABLE],
    [[NULL, NULL], NOT_MEASURABLE],
    [[FALSE, FALSE], UNCLASSIFIED],
    [[], UNCLASSIFIED],
  ])('%j gives %s', (conditions, expected) => {
    const names = ['first', 'second', 'third']
    const set = compileClasses(
      conditions.map((when, i) => rule(names[i], when)),
      KNOWN,
    )
    expect(set.errors).toEqual([])
    expect(classify(set, context())).toBe(expected)
  })
})

test('a rule that asks for its mineral is false, not unknown, where the mineral is absent', () => {
  const when = 'group("white mica") >= 0.3 and [a] >= 2208'
  const set = compileClasses([rule('long white mica', when)], KNOWN)
  const station = (share: number | null, position: number | null) =>
    classify(set, {
      ...context({ shares: share === null ? {} : { 'white mica': share } }),
      index: (): Measured => (position === null ? NOTHING : { value: position, error: 0.5 }),
    })
  expect(station(0, null)).toBe(UNCLASSIFIED)
  expect(station(0.5, null)).toBe(NOT_MEASURABLE)
  expect(station(null, null)).toBe(NOT_MEASURABLE)
  expect(station(0.5, 2200)).toBe(UNCLASSIFIED)
  expect(station(0.5, 2210)).toBe('long white mica')
})

test('an answer says which rules could not be told, and why', () => {
  const rules = [rule('a', NULL), rule('b', FALSE), rule('c', TRUE), rule('d', NULL)]
  expect(explainClass(compileClasses(rules, KNOWN), context())).toEqual({
    name: 'c',
    unknown: [{ class: 'a', missing: 'gap in channels' }],
  })
})

test('rules that repeat a condition, or part of one, are each told', () => {
  const rules = [
    rule('a', `${FALSE} and ${NULL}`),
    rule('b', NULL),
    rule('c', FALSE),
    rule('d', `not (${FALSE})`),
  ]
  const set = compileClasses(rules, KNOWN)
  expect(classify(set, context())).toBe('d')
  expect(classify(compileClasses(rules.slice(0, 3), KNOWN), context())).toBe(NOT_MEASURABLE)
})

describe('what is wrong with a rule', () => {
  const wrong = (...rules: ClassRule[]) => compileClasses(rules, KNOWN).errors[0]
  test('its condition, at its place', () => {
    const { part, error } = wrong(rule('x', 'group("alunit") > 0.3'))
    expect([part, error.from, error.to]).toEqual(['when', 6, 14])
    expect(wrong(rule('x', '[a]')).error.message).toContain('condition should stand here')
    expect(wrong(rule('x', '[nowhere] > 1')).error.message).toContain('no index "nowhere"')
  })
  test('its name, colour or symbol', () => {
    expect(wrong(rule(' ', TRUE))).toMatchObject({ part: 'name' })
    expect(wrong(rule('Unclassified', TRUE))).toMatchObject({ part: 'name' })
    expect(wrong(rule('not measurable', TRUE))).toMatchObject({ part: 'name' })
    expect(wrong(rule('x', TRUE), rule('X', TRUE))).toMatchObject({ class: 'X', part: 'name' })
    expect(wrong({ ...rule('x', TRUE), colour: 'blue' })).toMatchObject({ part: 'colour' })
    const symbol = 'blob' as ClassRule['symbol']
    expect(wrong({ ...rule('x', TRUE), symbol })).toMatchObject({ part: 'symbol' })
  })
  test('one bad rule does not stop the others', () => {
    const set = compileClasses([rule('bad', '1 +'), rule('good', TRUE)], KNOWN)
    expect(set.classes.map((entry) => entry.rule.name)).toEqual(['good'])
    expect(classify(set, context())).toBe('good')
  })
})

test('what classes read off spectra is listed', () => {
  const set = compileClasses(
    [rule('x', 'depth(2185, 2225) > 0.1'), rule('y', 'depth(2185, 2225) > 0')],
    KNOWN,
  )
  expect(set.leaves.map(({ key }) => key)).toEqual(['depth(2185, 2225, 2185, 2225)'])
})

describe('the classes to start from', () => {
  const names = {
    minerals: CATALOGUE.map(({ mineral }) => mineral),
    groups: [...GROUPS.keys()],
    columns: null,
  }
  const indices = compileIndices(DEFAULT_INDICES, names)
  const set = compileClasses(DEFAULT_CLASSES, {
    ...names,
    indices: indices.indices.map(({ name }) => name),
  })

  test('compile with their indices, and no two share a symbol', () => {
    expect(indices.errors).toEqual([])
    expect(set.errors).toEqual([])
    const symbols = DEFAULT_CLASSES.map(({ symbol }) => symbol)
    expect(new Set(symbols).size).toBe(symbols.length)
  })

  const groups = (given: Record<string, number>, index: Record<string, number> = {}) => {
    const shares = Object.fromEntries([...names.groups, ...names.minerals].map((name) => [name, 0]))
    const values = Object.entries(index).map(
      ([name, value]) => [name, { value, error: 1 }] as const,
    )
    return context({ shares: { ...shares, ...given }, indices: Object.fromEntries(values) })
  }

  test.each([
    ['sodic alunite', { alunite: 0.6 }, { 'alunite position': 1494 }],
    ['alunite', { alunite: 0.6 }, { 'alunite position': 1478 }],
    ['alunite', { alunite: 0.6, kaolin: 0.4 }, {}],
    ['dickite', { kaolin: 0.8, dickite: 0.8 }, {}],
    ['kaolin', { kaolin: 0.8 }, {}],
    ['short white mica', { 'white mica': 0.8 }, { 'white mica position': 2191 }],
    ['white mica', { 'white mica': 0.8 }, { 'white mica position': 2200 }],
    ['long white mica', { 'white mica': 0.8 }, { 'white mica position': 2214 }],
    ['white mica', { 'white mica': 0.8 }, {}],
    ['epidote', { epidote: 0.5, chlorite: 0.5 }, {}],
    ['carbonate', { calcite: 0.2, dolomite: 0.2 }, {}],
    ['iron oxides and jarosite', { goethite: 0.6 }, {}],
    [UNCLASSIFIED, { quartz: 0.9 }, {}],
  ])('%s', (expected, shares: Record<string, number>, index: Record<string, number>) => {
    expect(classify(set, groups(shares, index))).toBe(expected)
  })

  test('a scan that was not identified is not measurable', () => {
    expect(classify(set, context())).toBe(NOT_MEASURABLE)
  })
})
