/** Numbers on the screen carry their unit and as many decimals as their error bears. */
import { expect, test } from 'vitest'
import { fixed, partInside, plain, twoDigits, withError } from '../../src/views/numbers'

test.each([
  [{ value: 2208.4321, error: 0.34 }, 'nm', '2208.4 ± 0.3\u202fnm'],
  [{ value: 2208.4321, error: 0.134 }, 'nm', '2208.43 ± 0.13\u202fnm'],
  [{ value: 0.123456, error: 0.0021 }, '', '0.123 ± 0.002'],
  [{ value: 1234.5, error: 56 }, 'ppm', '1235 ± 56\u202fppm'],
  [{ value: 5, error: null }, 'ppm', '5.000\u202fppm'],
  [{ value: null, error: null }, 'nm', '—'],
])('%j in ‘%s’ reads %s', (measured, unit, text) => {
  expect(withError(measured, unit)).toBe(text)
})

test('a minus sign is a minus sign, and a rounded zero has none', () => {
  expect(fixed(-1.26, 1)).toBe('−1.3')
  expect(fixed(-0.01, 1)).toBe('0.0')
})

test('plain numbers keep four digits', () => {
  expect(plain(0)).toBe('0')
  expect(plain(12345.6)).toBe('12346')
  expect(plain(0.0123456)).toBe('0.01235')
  expect(plain(NaN)).toBe('—')
})

test('a figure that is itself not known better has two digits', () => {
  expect([0.93812, 3.94, 334, 0.00321, 4, -0.052].map((value) => twoDigits(value))).toEqual([
    '0.94',
    '3.9',
    '330',
    '0.0032',
    '4.0',
    '−0.052',
  ])
  expect(twoDigits(12.4, 'nm')).toBe('12\u202fnm')
})

test('the part inside an interval carries its error where one is known', () => {
  expect(partInside({ coverage90: 0.954, coverage90Error: 0.019 })).toBe('95 ± 2\u202f%')
  expect(partInside({ coverage90: 0.9, coverage90Error: 0.001 })).toBe('90 ± 1\u202f%')
  expect(partInside({ coverage90: 0.9 })).toBe('90\u202f%')
  expect(partInside({ coverage90: null })).toBe('—')
})
