/** Figures of two digits. */
import { expect, test } from 'vitest'
import { inTwoDigits } from '../../src/surfaces/two-digits'

test.each([
  [0, '0'],
  [1, '1.0'],
  [0.999, '1.0'],
  [0.0961, '0.096'],
  [0.1, '0.10'],
  [3.96, '4.0'],
  [9.96, '10'],
  [12.4, '12'],
  [389, '390'],
  [-2.04, '-2.0'],
  [2.34e12, '2.3e+12'],
  [1.26e-7, '1.3e-7'],
  [NaN, 'NaN'],
])('%d is written %s', (value, text) => {
  expect(inTwoDigits(value)).toBe(text)
})
