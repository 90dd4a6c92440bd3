/** How units are decided. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  decideReflectanceUnit,
  decideWavelengthUnit,
  namedWavelengthUnit,
  quantile,
} from '../../src/readers/units'
import { readTextOf, twoColumns } from './spectra'

test('a quantile is the sorted one', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ noNaN: true }), { minLength: 1 }),
      fc.nat(100),
      (values, part) => {
        const sorted = Float64Array.from(values).sort()
        const expected = sorted[Math.floor((part / 100) * (values.length - 1))]
        expect(quantile(Float64Array.from([NaN, ...values, NaN]), part / 100) === expected).toBe(
          true,
        )
      },
    ),
  )
  expect(quantile(Float64Array.of(NaN), 0.5)).toBeNaN()
})

test.each([
  ['Wavelength (nm)', 'nm'],
  ['WL_nm', 'nm'],
  ['Wavelength [µm]', 'µm'],
  ['microns', 'µm'],
  ['Wavenumber', 'cm⁻¹'],
  ['cm-1', 'cm⁻¹'],
  ['Wavelength', null],
])('%s names %s', (text, unit) => expect(namedWavelengthUnit(text)).toBe(unit))

test('numbers that cannot be in the named unit are not', () => {
  expect(decideWavelengthUnit(Float64Array.of(350, 2500), 'µm').unit).toBe('nm')
  expect(decideWavelengthUnit(Float64Array.of(0.35, 2.5), 'nm').unit).toBe('µm')
  expect(decideWavelengthUnit(Float64Array.of(25000, 4000), null).unit).toBe('cm⁻¹')
  expect(decideReflectanceUnit(Float64Array.of(0.2, 0.6, 0.7), 'percent')?.unit).toBe('fraction')
  expect(decideReflectanceUnit(Float64Array.of(1.4, 1.5, 1.6), 'percent')?.unit).toBe('percent')
  expect(decideReflectanceUnit(Float64Array.of(50_000, 60_000), null)).toBeNull()
})

test('one wild channel decides nothing', () => {
  const text = twoColumns().replace('\n400\t0.355', '\n400\t99')
  expect(readTextOf(text).layout?.reflectanceUnit).toBe('fraction')
})
