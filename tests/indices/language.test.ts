/** The formula language as the design has it: what formulas mean, and where they are wrong. */
import { describe, expect, test } from 'vitest'
import { compileFormula } from '../../src/indices/compile'
import { evaluate } from '../../src/indices/evaluate'
import { MAX_DEPTH, parseFormula } from '../../src/indices/parse'
import { MAX_LENGTH } from '../../src/indices/tokens'
import { context, errorOf, KNOWN, NOTHING, valueOf } from './sample'

describe('numbers', () => {
  test.each([
    ['-2^2', -4],
    ['\u22122^2', -4],
    ['(-2)^2', 4],
    ['2^3^2', 512],
    ['(2^3)^2', 64],
    ['2^-1', 0.5],
    ['2^-2^2', 0.0625],
    ['-2^-2', -0.25],
    ['--2', 2],
    ['2 - 3 - 4', -5],
    ['2 - (3 - 4)', 3],
    ['24 / 4 / 2', 3],
    ['2 + 3 * 4', 14],
    ['2 * 3 ^ 2', 18],
    ['2 * -3', -6],
    ['-2 * 3', -6],
    ['6 / 2 * 3', 9],
    ['.5 + 1.5e1 + 2E-1 + 1.', 16.7],
    ['min(3, 1, 2)', 1],
    ['max(3, 1, 2)', 3],
    ['abs(-3)', 3],
    ['log(exp(2))', 2],
    ['log10(1000)', 3],
    ['sqrt(16)', 4],
    ['if(1 < 2, 10, 20)', 10],
    ['if(1 > 2, 10, 20)', 20],
    [' 1\n+\t2 ', 3],
  ])('%s is %d', (formula, value) => {
    expect(valueOf(formula)).toBeCloseTo(value, 12)
  })

  test.each(['1 / 0', '0 / 0', 'log(0)', 'log(-1)', 'sqrt(-1)', '(-8)^(1/3)', 'exp(1000)', '0^-1'])(
    '%s has no answer',
    (formula) => {
      expect(evaluate(compileFormula(formula, KNOWN), context())).toEqual({
        value: null,
        error: null,
        missing: 'no mathematical answer',
      })
    },
  )
})

describe('conditions', () => {
  test.each([
    ['1 < 2', true],
    ['2 <= 2', true],
    ['2 \u2264 2', true],
    ['2 < 2', false],
    ['3 > 2', true],
    ['2 >= 3', false],
    ['2 = 2', true],
    ['2 != 2', false],
    ['not 1 = 2', true],
    ['not 1 = 1 and 1 = 2', false],
    ['not (1 = 1 and 1 = 2)', true],
    ['not not 1 = 1', true],
    ['1 = 1 or 1 = 2 and 1 = 2', true],
    ['(1 = 1 or 1 = 2) and 1 = 2', false],
    ['1 + 1 = 2', true],
    ['(1 < 2) = (3 < 4)', true],
    ['(1 < 2) != (3 < 4)', false],
    ['"a" = "a"', true],
    ['"a" != "a"', false],
    ['"A" = "a"', false],
    [String.raw`"say \"x\\y\"" = "say \"x\\y\""`, true],
    ['"e\u0301" = "\u00e9"', true],
  ])('%s is %s', (formula, value) => {
    expect(valueOf(formula)).toBe(value)
  })
})

describe('three values (Kleene 1952, section 64)', () => {
  const T = '1 = 1'
  const F = '1 = 2'
  const N = '[unknown] > 1'
  test.each([
    [T, T, true, true],
    [T, F, false, true],
    [T, N, null, true],
    [F, T, false, true],
    [F, F, false, false],
    [F, N, false, null],
    [N, T, null, true],
    [N, F, false, null],
    [N, N, null, null],
  ])('(%s), (%s): and gives %s, or gives %s', (a, b, and, or) => {
    expect(valueOf(`(${a}) and (${b})`)).toBe(and)
    expect(valueOf(`(${a}) or (${b})`)).toBe(or)
  })

  test('not turns truth over and leaves the unknown unknown', () => {
    expect([T, F, N].map((a) => valueOf(`not (${a})`))).toEqual([false, true, null])
  })

  test.each([
    '[unknown] + 1',
    '1 - [unknown]',
    '[unknown] * 0',
    '[unknown] ^ 0',
    '1 ^ [unknown]',
    'min(1, [unknown])',
    'max([unknown], 1)',
    '-[unknown]',
    'abs([unknown])',
    '[unknown] = [unknown]',
    '[unknown] != 1',
    'if([unknown] > 1, 5, 5)',
    'if(1 = 1, [unknown], 5)',
    'column("nothing there") = "x"',
  ])('null spreads through %s', (formula) => {
    const known = { ...KNOWN, columns: null }
    expect(evaluate(compileFormula(formula, known), context()).value).toBeNull()
  })

  test('the branch that is not taken may be missing', () => {
    expect(valueOf('if(1 = 1, 5, [unknown])')).toBe(5)
    expect(valueOf('if(1 = 2, 1 / 0, 5)')).toBe(5)
  })

  test('the reason is the first missing value met', () => {
    const given = context({ indices: { a: { ...NOTHING, missing: 'minimum at edge' } } })
    const missing = (formula: string) => evaluate(compileFormula(formula, KNOWN), given).missing
    expect(missing('1 + [a] * [b]')).toBe('minimum at edge')
    expect(missing('[b] + [a]')).toBe('gap in channels')
    expect(missing('log([a] - 1 / 0)')).toBe('minimum at edge')
    expect(missing('[a] > 1 and [b] > 1')).toBe('minimum at edge')
  })
})

describe('cells', () => {
  const given = context({
    columns: { Cu_ppm: 120, lithology: 'andesite', Au_ppm: '<0.01', empty: null },
  })
  const result = (formula: string) => evaluate(compileFormula(formula, KNOWN), given)
  test('a number is a number and text is text', () => {
    expect(result('column("Cu_ppm") / 2').value).toBe(60)
    expect(result('column("Cu_ppm")').value).toBe(120)
    expect(result('column("lithology")').value).toBe('andesite')
    expect(result('column("lithology") = "andesite"').value).toBe(true)
    expect(result('"dacite" != column("lithology")').value).toBe(true)
    expect(result('column("Cu_ppm") = "120"').value).toBe(true)
    expect(result('column("lithology") = column("Cu_ppm")').value).toBe(false)
    expect(result('if(column("lithology") = "andesite", column("Cu_ppm"), 0)').value).toBe(120)
    expect(result('if(1 = 1, column("lithology"), column("Cu_ppm"))').value).toBe('andesite')
  })
  test('text where a number is needed, and an empty cell, are missing with their reason', () => {
    expect(result('column("Au_ppm") * 2')).toMatchObject({
      value: null,
      missing: 'text, not a number',
    })
    expect(result('column("Au_ppm") < 5')).toMatchObject({
      value: null,
      missing: 'text, not a number',
    })
    expect(result('column("empty") = "x"')).toMatchObject({ value: null, missing: 'no such cell' })
    expect(result('column("empty") + 1')).toMatchObject({ value: null, missing: 'no such cell' })
    expect(compileFormula('column("whatever")', { ...KNOWN, columns: null }).type).toBe('cell')
  })
})

test('names may hold brackets, quotes and backslashes', () => {
  const given = context({ indices: { 'name with ] bracket': { value: 7, error: 1 } } })
  expect(valueOf('[name with ]] bracket] + 1', given)).toBe(8)
  expect(parseFormula(String.raw`"a\"b\\c"`)).toMatchObject({ kind: 'text', value: 'a"b\\c' })
})

describe('errors stand at their place', () => {
  test.each([
    ['', '', 'empty'],
    ['   ', '   ', 'empty'],
    ['1 +', '', 'ends too soon'],
    ['1 2', '2', 'cannot stand here'],
    ['1 + * 2', '*', 'cannot stand here'],
    ['(1 + 2', '(', 'not closed'],
    ['1 + 2)', ')', 'cannot stand here'],
    ['min(1, 2', '(', 'not closed'],
    ['min(1 2)', '2', 'cannot stand here'],
    ['min(1,)', ')', 'cannot stand here'],
    ['1 < 2 < 3', '<', 'chained'],
    ['1 = 2 != 3', '!=', 'chained'],
    ['1 == 2', '==', 'not used'],
    ['1 <> 2', '<>', 'not used'],
    ['2 ** 3', '**', 'not used'],
    ['1 < 2 && 2 < 3', '&&', 'not used'],
    ['!(1 < 2)', '!', 'not used'],
    ["'x' = 1", "'", 'not used'],
    ['\u201cx\u201d = 1', '\u201c', 'not used'],
    ['1 # 2', '#', 'no meaning'],
    ['1 \u{1F600}', '\u{1F600}', 'no meaning'],
    ['12nm', 'nm', 'stands against'],
    ['1.2.3', '.', 'second decimal point'],
    ['1e999', '1e999', 'too large'],
    ['"open', '"open', 'no closing quote'],
    ['"a\\n"', '\\n', 'backslash'],
    ['[open', '[open', 'no closing bracket'],
    ['[] + 1', '[]', 'no name'],
    ['1 < 2 AND 2 < 3', 'AND', 'not known'],
    ['NOT 1 < 2', 'NOT', 'not known'],
    ['and 1 < 2', 'and', 'cannot stand here'],
    ['copper > 1', 'copper', 'means nothing by itself'],
    ['1 + not 1 < 2', 'not', 'middle'],
    ['+3', '+', 'cannot stand here'],
    ['1 + [nowhere]', '[nowhere]', 'no index'],
    ['share("alunit") > 1', '"alunit"', 'no mineral'],
    ['group("white mika") > 1', '"white mika"', 'no group'],
    ['fit("quartzite") > 1', '"quartzite"', 'no mineral'],
    ['column("Cu_pmm") > 1', '"Cu_pmm"', 'no column'],
    ['dept(2185, 2225)', 'dept', 'no function'],
    ['Min(1, 2)', 'Min', 'no function'],
    ['toString(1)', 'toString', 'no function'],
    ['constructor(1)', 'constructor', 'no function'],
    ['min(1)', 'min(1)', 'takes 2 or more'],
    ['abs(1, 2)', '2)', 'takes 1 value'],
    ['abs()', 'abs()', 'takes 1 value'],
    ['if(1 < 2, 3)', 'if(1 < 2, 3)', 'takes 3 values'],
    ['depth(2185, 2225, 2120)', 'depth(2185, 2225, 2120)', 'takes 2 or 4'],
    ['share(alunite)', 'alunite', 'means nothing by itself'],
    ['share(1)', '1', 'name in double quotes'],
    ['depth(2200 - 15, 2225)', '2200 - 15', 'must be written as a number'],
    ['depth(2225, 2185)', '2225, 2185', 'holds nothing'],
    ['depth(2185, 2225, 2190, 2245)', '2190, 2245', 'does not hold the search range'],
    ['reflectance(2.2)', '2.2', 'not a wavelength'],
    ['1 + "a"', '"a"', 'number should stand here'],
    ['1 + (2 < 3)', '(2 < 3)', 'number should stand here'],
    ['1 and 2 < 3', '1', 'condition should stand here'],
    ['not 3', '3', 'condition should stand here'],
    ['if(1, 2, 3)', '1', 'condition should stand here'],
    ['if(1 < 2, 2, "x")', '"x"', 'number should stand here'],
    ['if(column("lithology"), 2, 3)', 'column("lithology")', 'condition should stand here'],
    ['"a" < "b"', '"a"', 'Only numbers'],
    ['1 = "a"', '1 = "a"', 'cannot be compared'],
    ['(1 < 2) = column("lithology")', '(1 < 2) = column("lithology")', 'cannot be compared'],
    ['column("lithology") < "b"', '"b"', 'Only numbers'],
  ])('%s', (formula, at, message) => {
    const error = errorOf(formula)
    expect(error.message).toContain(message)
    expect(error.at).toBe(at)
    expect(error.hint).not.toBe('')
  })

  test('the nearest known name is offered', () => {
    expect(errorOf('share("alunit")').hint).toBe('Did you mean "alunite"?')
    expect(errorOf('group("White Mica")').hint).toBe('Did you mean "white mica"?')
    expect(errorOf('depht(2185, 2225)').hint).toBe('Did you mean "depth"?')
    expect(errorOf('share("xyzzyplugh")').hint).toContain('Known: alunite, muscovite')
  })

  test('length and depth are bounded', () => {
    expect(errorOf('1 '.repeat(5001)).message).toContain(`at most ${MAX_LENGTH}`)
    const deep = [
      '('.repeat(4000) + '1' + ')'.repeat(4000),
      '-'.repeat(9000) + '1',
      '1' + '+1'.repeat(4000),
      '2' + '^2'.repeat(4000),
      'not '.repeat(2000) + '1 = 1',
      'abs('.repeat(1500) + '1' + ')'.repeat(1500),
    ]
    for (const formula of deep) expect(errorOf(formula).message).toContain(`${MAX_DEPTH} deep`)
    expect(valueOf('1' + '+1'.repeat(400))).toBe(401)
  })
})
