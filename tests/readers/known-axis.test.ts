/** Two columns on an axis that was met before read as JavaScript's own Number() reads them. */
import fc from 'fast-check'
import { beforeEach, describe, expect, test } from 'vitest'
import { keepAxis, readOnKnownAxis } from '../../src/readers/known-axis'

const bytesOf = (text: string) => new TextEncoder().encode(text)
const AXIS = Array.from({ length: 40 }, (_, i) => String(985 + i))
const TAB = { delimiter: 9, decimal: 46, columns: 2 }
const wavelengths = Float64Array.from(AXIS, Number)

beforeEach(() => keepAxis(bytesOf(rows(AXIS.map(() => '0.5'))), 0, TAB, wavelengths))

function rows(cells: readonly string[], end = '\r\n', sign = '\t'): string {
  return cells.map((cell, i) => `${AXIS[i]}${sign}${cell}${end}`).join('')
}

/** Values read below a heading, or null. */
function valuesOf(text: string, format = TAB): number[] | null {
  const heading = 'wl\tr\r\n'
  const bytes = bytesOf(heading + text)
  const read = readOnKnownAxis(bytes, heading.length, format)
  if (read) expect(read.wavelengths).toBe(wavelengths)
  return read && [...read.values]
}

/** A decimal as instruments and hands write it. */
const decimal = fc.oneof(
  fc.integer({ min: 0, max: 999_999_999 }).map((n) => (n / 1e9).toFixed(6)),
  fc.tuple(fc.nat(99_999), fc.nat(8)).map(([n, places]) => (n / 7).toFixed(places)),
  fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
  fc.tuple(fc.nat(99_999), fc.stringMatching(/^\d{1,30}$/)).map(([n, tail]) => `${n}.${tail}`),
  fc.nat(9_999).map((n) => `-0.${n}`),
  fc.double({ min: 0, max: 2, noNaN: true }).map((value) => value.toExponential(5)),
)

describe('values on a known axis', () => {
  test('are Number() of their cells, the nearest double, however they are written', () => {
    fc.assert(
      fc.property(
        fc.array(decimal, { minLength: AXIS.length, maxLength: AXIS.length }),
        fc.constantFrom('\n', '\r\n', '\r', ' \n'),
        (cells, end) => {
          const expected = cells.map(Number)
          // A number beyond a double's range is for the patient reader, which refuses it.
          if (expected.some((value) => value <= -999 || !Number.isFinite(value))) return
          expect(valuesOf(rows(cells, end))).toEqual(expected)
        },
      ),
      { seed: 5, numRuns: 2000 },
    )
  })

  test.each([1, 2, 3, 4, 5, 6, 7, 8, 9])('of %i decimals, the last line with no end', (places) => {
    const cells = AXIS.map((_, i) => (0.123456789 * (i + 1)).toFixed(places))
    const text = rows(cells)
    expect(valuesOf(text)).toEqual(cells.map(Number))
    expect(valuesOf(text.slice(0, -2))).toEqual(cells.map(Number))
    expect(valuesOf(`${text}\r\n\n`)).toEqual(cells.map(Number))
  })

  test('behind so many blanks that a cell ends the file', () => {
    const cells = AXIS.map((_, i) => (i === 39 ? `${' '.repeat(120)}0.5` : '0.250000'))
    expect(valuesOf(rows(cells))?.at(-1)).toBe(0.5)
    expect(valuesOf(rows(cells, ''))).toBeNull()
    expect(valuesOf(rows(cells).trimEnd())?.at(-1)).toBe(0.5)
  })

  test('that are marked as deleted are gaps', () => {
    const cells = AXIS.map((_, i) => (i === 3 ? '-9999.000000' : i === 4 ? '-1.23e34' : '0.250000'))
    const found = valuesOf(rows(cells))
    expect(found?.slice(2, 6)).toEqual([0.25, NaN, NaN, 0.25])
  })

  test('with a decimal comma or between blanks', () => {
    const cells = AXIS.map((_, i) => `0,${1234 + i}`)
    const semicolon = { delimiter: 59, decimal: 44, columns: 2 }
    keepAxis(bytesOf(rows(cells, '\n', ';')), 0, semicolon, wavelengths)
    expect(valuesOf(rows(cells, '\n', ';'), semicolon)?.[1]).toBe(0.1235)
    const blank = { delimiter: 32, decimal: 46, columns: 2 }
    const points = AXIS.map((_, i) => `   0.${1234 + i}`)
    keepAxis(bytesOf(rows(points, '\n', ' ')), 0, blank, wavelengths)
    expect(valuesOf(rows(points, '\n', ' '), blank)?.[1]).toBe(0.1235)
  })
})

describe('what is not two plain columns on that axis is left to the patient reader', () => {
  const plain = AXIS.map(() => '0.250000')
  const withCell = (row: number, cell: string) => rows(plain.map((p, i) => (i === row ? cell : p)))
  test.each([
    ['another wavelength', rows(plain).replace('1000\t', '1001\t')],
    ['a row fewer', rows(plain.slice(1))],
    ['a row less at the end', rows(plain.slice(0, -1))],
    ['a row more', `${rows(plain)}1025\t0.25\r\n`],
    ['a blank line between', rows(plain).replace('1000', '\r\n1000')],
    ['no value', withCell(7, '')],
    ['a word', withCell(7, 'NaN')],
    ['a letter among digits', withCell(7, '0.25o000')],
    ['a NUL', withCell(7, '0.25\0')],
    ['a NUL at the end', `${rows(plain).slice(0, -2)}\0`],
    ['two points', withCell(7, '0.25.000')],
    ['blanks to the end', rows(plain).replace(/0\.250000\r\n$/, ' '.repeat(200))],
    ['a third cell', withCell(7, '0.25\t0.1')],
    ['an empty third cell', withCell(7, '0.250000\t')],
    ['a sign above the digits', withCell(7, '0.25:000')],
    ['a sign below the digits', withCell(7, '0.25/000')],
    ['another delimiter', rows(plain, '\n', ';')],
    ['nothing', ''],
  ])('%s', (_, text) => expect(valuesOf(text)).toBeNull())
})

test('the newest of several axes are kept, none too long', () => {
  const text = bytesOf('1\t1\n'.repeat(70_000))
  keepAxis(text, 0, TAB, new Float64Array(70_000).fill(1))
  expect(readOnKnownAxis(text, 0, TAB)).toBeNull()
  for (let i = 0; i < 4; i++) keepAxis(bytesOf(`${i}\t1\n`), 0, TAB, Float64Array.of(i))
  expect(valuesOf(rows(AXIS.map(() => '0.5')))).toBeNull()
})
