/** Numbers from bytes are those of the language's own correctly rounded reading. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { COMMA, parseNumber, POINT } from '../../src/readers/numbers'
import { readTwoColumns } from '../../src/readers/two-columns'
import { bytesOf } from './spectra'

const parse = (text: string, decimal = POINT): number => {
  const bytes = bytesOf(text)
  return parseNumber(bytes, 0, bytes.length, decimal)
}
const decimals = fc
  .tuple(fc.double({ noNaN: true, min: -1e300, max: 1e300 }), fc.integer({ min: 0, max: 20 }))
  .map(([value, digits]) => (digits > 15 ? String(value) : value.toExponential(digits)))
const fixed = fc
  .tuple(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), fc.integer({ min: 0, max: 18 }))
  .map(([value, digits]) => value.toFixed(digits))

test('any decimal', () => {
  fc.assert(
    fc.property(fc.oneof(decimals, fixed), (text) => {
      expect(parse(text)).toBe(Number(text))
      expect(parse(text.replace('.', ','), COMMA)).toBe(Number(text))
    }),
    { numRuns: 3000 },
  )
})

test('two columns in one pass give the same', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(fixed, decimals), { minLength: 1 }), (rows) => {
      const bytes = bytesOf(rows.map((row) => row.join('\t')).join('\n'))
      const body = readTwoColumns(bytes, 0, 1, { delimiter: 9, decimal: POINT, columns: 2 })
      const gap = (text: string): number =>
        Number(text) <= -1e30 || [-9999, -999].includes(Number(text)) ? NaN : Number(text)
      // Three-digit exponents and above are left to the careful way.
      if (body === null) return
      expect(Array.from(body.columns[0])).toEqual(rows.map((row) => gap(row[0])))
      expect(Array.from(body.columns[1])).toEqual(rows.map((row) => gap(row[1])))
    }),
    { numRuns: 500 },
  )
})

test.each([
  '',
  ' ',
  '-',
  '.',
  '1.2.3',
  '1e',
  '1e+',
  'e5',
  '0x10',
  '1_0',
  'Infinity',
  '1 2',
  '--1',
  '12a',
])('%j is no number', (text) => {
  expect(parse(text)).toBeNaN()
})
