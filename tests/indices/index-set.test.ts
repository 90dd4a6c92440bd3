/** Indices together: order, circles, gates, names, and errors through references. */
import { describe, expect, test } from 'vitest'
import type { Identification } from '../../src/minerals/reference'
import { leavesByKey, scanValues } from '../../src/indices/context'
import { FIXED_COLUMNS } from '../../src/indices/index-names'
import { compileIndices, evaluateIndices } from '../../src/indices/index-set'
import { spectralLeaves } from '../../src/indices/leaves'
import type { IndexRule, Measured } from '../../src/indices/rule'
import { KNOWN, NOTHING } from './sample'

const set = (...rules: IndexRule[]) => compileIndices(rules, KNOWN)
const rule = (name: string, formula: string, where?: string): IndexRule => ({
  name,
  formula,
  where,
})

const DEPTH = 'depth(2185, 2225, 2120, 2245)'
const POSITION = 'position(2185, 2225, 2120, 2245)'

function scan(leaves: Record<string, Measured>, identification: Identification | null = null) {
  return scanValues(new Map(Object.entries(leaves)), identification, { Cu_ppm: 120 })
}

const MICA: Identification = {
  minerals: [
    { mineral: 'muscovite', group: 'white mica', share: 0.5, fit: 0.9 },
    { mineral: 'illite', group: 'white mica', share: 0.2, fit: 0.8 },
    { mineral: 'kaolinite', group: 'kaolin', share: 0.3, fit: 0.7 },
  ],
  runnerUp: null,
  doubt: '',
}

test('an index may stand before those that it refers to', () => {
  const compiled = set(rule('c', '[b] + 1'), rule('b', '[a] * 2'), rule('a', DEPTH))
  expect(compiled.errors).toEqual([])
  expect(compiled.indices.map(({ name }) => name)).toEqual(['a', 'b', 'c'])
  const values = evaluateIndices(compiled, scan({ [DEPTH]: { value: 0.1, error: 0.01 } }))
  expect(values.get('c')).toEqual({ value: 1.2, error: 0.02 })
})

test('a leaf that comes in twice, through two indices, is one variable', () => {
  const compiled = set(
    rule('a', `${DEPTH} * 3`),
    rule('b', `1 + ${DEPTH}`),
    rule('c', '[a] - 3 * [b]'),
  )
  const values = evaluateIndices(compiled, scan({ [DEPTH]: { value: 0.1, error: 0.01 } }))
  expect(values.get('c')?.value).toBeCloseTo(-3, 12)
  expect(values.get('c')?.error).toBeCloseTo(0, 12)
  expect(values.get('a')?.error).toBeCloseTo(0.03, 12)
})

test('a long chain of doublings stays small', () => {
  const rules = [rule('i0', DEPTH)]
  for (let i = 1; i <= 200; i++) rules.push(rule(`i${i}`, `([i${i - 1}] + [i${i - 1}]) / 2`))
  const compiled = set(...rules)
  expect(compiled.steps.length).toBeLessThan(500)
  const values = evaluateIndices(compiled, scan({ [DEPTH]: { value: 0.1, error: 0.01 } }))
  expect(values.get('i200')).toEqual({ value: 0.1, error: 0.01 })
})

describe('where', () => {
  const compiled = set(rule('mica', POSITION, `group("white mica") >= 0.3 and ${DEPTH} > 0.03`))
  const leaves = { [POSITION]: { value: 2201, error: 0.5 }, [DEPTH]: { value: 0.1, error: 0.01 } }
  const mica = (values: ReturnType<typeof scan>) => evaluateIndices(compiled, values).get('mica')
  test('true lets the value through with its error', () => {
    expect(mica(scan(leaves, MICA))).toEqual({ value: 2201, error: 0.5 })
  })
  test('false is missing for that reason', () => {
    const shallow = { ...leaves, [DEPTH]: { value: 0.01, error: 0.01 } }
    expect(mica(scan(shallow, MICA))).toEqual({
      value: null,
      error: null,
      missing: 'condition false',
    })
    expect(mica(scan(leaves, { ...MICA, minerals: [] }))?.missing).toBe('condition false')
  })
  test('unknown is missing for the condition’s reason', () => {
    expect(mica(scan(leaves, null))).toEqual({
      value: null,
      error: null,
      missing: 'not identified',
    })
    expect(mica(scan({ ...leaves, [DEPTH]: NOTHING }, MICA))?.missing).toBe('gap in channels')
  })
  test('a reference to a gated index is missing with it', () => {
    const two = set(rule('mica', POSITION, `${DEPTH} > 0.5`), rule('shift', '[mica] - 2200'))
    expect(evaluateIndices(two, scan(leaves, MICA)).get('shift')?.missing).toBe('condition false')
  })
})

test('shares are 0 when absent, add up in their group, and are missing when not identified', () => {
  const compiled = set(
    rule('m', 'share("muscovite")'),
    rule('g', 'group("white mica")'),
    rule('f', 'fit("kaolinite")'),
    rule('x', 'share("alunite") + group("alunite") + fit("alunite")'),
  )
  const values = evaluateIndices(compiled, scan({}, MICA))
  const numbers = ['m', 'g', 'f', 'x'].map((name) => values.get(name)?.value)
  expect(numbers).toEqual([0.5, 0.7, 0.7, 0])
  for (const value of evaluateIndices(compiled, scan({}, null)).values()) {
    expect(value).toEqual({ value: null, error: null, missing: 'not identified' })
  }
})

describe('what is wrong with a rule', () => {
  const first = (...rules: IndexRule[]) => {
    const { index, part, error } = set(...rules).errors[0]
    return { index, part, message: error.message, from: error.from, to: error.to }
  }

  test('a circle is named with its path', () => {
    const rules = [rule('a', '1 + [b]'), rule('b', '[c]'), rule('c', '2 * [a]')]
    expect(first(...rules)).toEqual({
      index: 'c',
      part: 'formula',
      message: 'These indices refer to each other in a circle: a → b → c → a.',
      from: 4,
      to: 7,
    })
    expect(set(...rules).indices).toEqual([])
    expect(set(...rules).errors.map(({ index }) => index)).toEqual(['c', 'b', 'a'])
    expect(first(rule('a', '[a] + 1')).message).toContain('a → a')
    expect(first(rule('a', '1', '[b] > 0'), rule('b', '[a]'))).toMatchObject({
      index: 'b',
      part: 'formula',
    })
    expect(first(rule('a', '1', '[a] > 0'))).toMatchObject({ index: 'a', part: 'where' })
  })

  test('one bad index stops those that need it and no other', () => {
    const compiled = set(rule('bad', '1 +'), rule('needs', '[bad] + 1'), rule('good', '2'))
    expect(compiled.indices.map(({ name }) => name)).toEqual(['good'])
    expect(compiled.errors.map(({ index, error }) => [index, error.message])).toEqual([
      ['bad', 'The formula ends too soon.'],
      ['needs', 'The index "bad" has an error of its own.'],
    ])
  })

  test('both the formula and where are reported', () => {
    expect(set(rule('a', '1 +', '2')).errors.map(({ part }) => part)).toEqual(['where', 'formula'])
  })

  test('an index is a number and where is a condition', () => {
    expect(first(rule('a', '1 < 2')).message).toContain('number should stand here')
    expect(first(rule('a', '"x"')).message).toContain('number should stand here')
    expect(first(rule('a', '1', '2'))).toMatchObject({ part: 'where' })
    expect(set(rule('a', 'column("Cu_ppm")'), rule('b', '1', ' ')).errors).toEqual([])
  })

  test.each([
    ['', 'no name'],
    [' x', 'blank'],
    ['a\nb', 'control character'],
    ['depth', 'fixed column'],
    ['Mineral', 'fixed column'],
    ['scans', 'fixed column'],
    ['placed_by', 'fixed column'],
    ['copper error', 'ends in " error"'],
    ['x'.repeat(121), 'longer than'],
  ])('the name "%s" is refused', (name, message) => {
    expect(first(rule(name, '1'))).toMatchObject({ part: 'name' })
    expect(first(rule(name, '1')).message).toContain(message)
  })

  test('no fixed column can be taken', () => {
    for (const name of FIXED_COLUMNS) {
      expect(first(rule(name, '1')).message).toContain('fixed column')
    }
  })

  test('two indices cannot share a name, case ignored', () => {
    const compiled = set(rule('Copper', '1'), rule('copper', '2'))
    expect(compiled.errors[0].error.message).toContain('two indices')
    expect(compiled.indices).toHaveLength(1)
  })
})

test('leaves are asked for once, whoever needs them', () => {
  const one = set(
    rule('a', `${DEPTH} / depth(2185.0, 2225, 2120, 2245)`),
    rule('b', 'depth(2185, 2225)'),
  )
  const two = set(rule('c', `${DEPTH} + reflectance(900) + mean(400, 500) + slope(1000, 1300)`))
  const leaves = spectralLeaves(one, two)
  expect(leaves.map(({ key }) => key)).toEqual([
    DEPTH,
    'depth(2185, 2225, 2185, 2225)',
    'reflectance(900)',
    'mean(400, 500)',
    'slope(1000, 1300)',
  ])
  const measured = leaves.map((_, i): Measured => ({ value: i, error: null }))
  expect(leavesByKey(leaves, measured).get('mean(400, 500)')?.value).toBe(3)
  expect(one.indices.map(({ needsScan }) => needsScan)).toEqual([true, true])
})

test('a compiled set is plain data that can be sent to a worker', () => {
  const compiled = set(rule('a', `${DEPTH} * 2`, 'group("kaolin") < 0.5'))
  const { indices, steps, leaves } = structuredClone(compiled)
  const sent = { indices, steps, leaves, errors: [] }
  const values = scan({ [DEPTH]: { value: 0.1, error: 0.01 } }, MICA)
  expect(evaluateIndices(sent, values)).toEqual(evaluateIndices(compiled, values))
})

describe('rules made to harm', () => {
  const chain = (count: number, last: string) =>
    Array.from({ length: count }, (_, i) => rule(`i${i}`, i + 1 < count ? `[i${i + 1}]` : last))

  test('a chain of 20,000 indices is as good as a short one', () => {
    const compiled = set(...chain(20_000, '7'))
    expect(compiled.errors).toEqual([])
    expect(compiled.indices[0].name).toBe('i19999')
    expect(evaluateIndices(compiled, scan({})).get('i0')?.value).toBe(7)
  })

  test('a circle of 20,000 is told in a line', () => {
    const { errors } = set(...chain(20_000, '[i0]'))
    expect(errors).toHaveLength(20_000)
    expect(errors[0].error.message).toBe(
      'These indices refer to each other in a circle: i0 → i1 → i2 → i3 → i4 → i5 → i6 → i7 → 19992 more → i0.',
    )
  })

  test('of a name of thousands of letters no nearest one is sought', () => {
    const { errors } = set(rule('a', `[${'y'.repeat(9000)}]`), rule('y'.repeat(100), '1'))
    expect(errors[0].error.message).toMatch(/^There is no index "yyy/)
  })
})
