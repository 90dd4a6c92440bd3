/** Order statistics against sorting, and polynomials against their definition. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { orthonormalPolynomials, takeOff } from '../../src/spectra/polynomial'
import { selectRank } from '../../src/spectra/select'

test('the value of a rank is the sorted list’s, with the smaller ones before it', () => {
  const lists = fc.array(fc.oneof(fc.double({ noNaN: true }), fc.integer({ min: 0, max: 4 })), {
    minLength: 1,
    maxLength: 200,
  })
  fc.assert(
    fc.property(lists, fc.nat(), (list, at) => {
      const rank = at % list.length
      const values = Float64Array.from(list)
      const found = selectRank(values, rank, 0, values.length)
      expect(found === Float64Array.from(list).sort()[rank]).toBe(true)
      expect(values.slice(0, rank).every((value) => value <= found)).toBe(true)
      expect(values.slice(rank).every((value) => value >= found)).toBe(true)
      expect(Array.from(values).sort()).toEqual(Array.from(Float64Array.from(list)).sort())
    }),
    { numRuns: 300, seed: 7 },
  )
})

test('only the asked stretch is rearranged', () => {
  const values = Float64Array.of(9, 5, 1, 3, 0)
  expect(selectRank(values, 2, 1, 4)).toBe(3)
  expect([values[0], values[4]]).toEqual([9, 0])
})

test('orthonormal polynomials are orthonormal and take every polynomial of their degree off', () => {
  const x = Float64Array.from({ length: 41 }, (_, i) => (i - 20) / 20 + 0.004 * Math.sin(9 * i))
  const basis = orthonormalPolynomials(x, 5) ?? []
  expect(basis).toHaveLength(6)
  basis.forEach((a, i) =>
    basis.forEach((b, k) => {
      const product = a.reduce((sum, value, at) => sum + value * b[at], 0)
      expect(product).toBeCloseTo(i === k ? 1 : 0, 13)
    }),
  )
  const curve = x.map((u) => 0.4 - 0.3 * u + 0.2 * u ** 3 - u ** 5)
  for (const unit of basis) takeOff(curve, unit)
  for (const value of curve) expect(Math.abs(value)).toBeLessThan(1e-14)
  expect(orthonormalPolynomials(Float64Array.of(0, 0, 1, 1), 2)).toBeNull()
})
