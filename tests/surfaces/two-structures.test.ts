/**
 * The automatic variogram finds a second structure where there is one, and none where there is not.
 *
 * Fields are drawn by the covariance's own Cholesky factor (as in Cressie 1993, §3.6.1), written
 * out here so that nothing of what is tested makes them.
 */
import { expect, test } from 'vitest'
import { automaticVariogram } from '../../src/surfaces/automatic-variogram'
import type { Points } from '../../src/surfaces/model'
import { normalStream, uniformStream } from '../../src/surfaces/random'

const SIDE = 1000
const COUNT = 500

const spherical = (h: number, range: number): number =>
  h >= range ? 0 : 1 - (1.5 * h) / range + 0.5 * (h / range) ** 3

/** 95 % of the sill at the range. */
const gaussian = (h: number, range: number): number => Math.exp(-3 * (h / range) ** 2)

function drawn(seed: number, covariance: (h: number) => number, nugget: number): Points {
  const uniform = uniformStream(seed)
  const normal = normalStream(seed, 1)
  const x = Float64Array.from({ length: COUNT }, () => SIDE * uniform())
  const y = Float64Array.from({ length: COUNT }, () => SIDE * uniform())
  const factor: Float64Array[] = []
  for (let i = 0; i < COUNT; i++) {
    const row = new Float64Array(i + 1)
    for (let j = 0; j <= i; j++) {
      let sum = covariance(Math.hypot(x[i] - x[j], y[i] - y[j])) + (i === j ? nugget : 0)
      for (let k = 0; k < j; k++) sum -= row[k] * (i === j ? row[k] : factor[j][k])
      row[j] = i === j ? Math.sqrt(sum) : sum / factor[j][j]
    }
    factor.push(row)
  }
  const draws = Float64Array.from({ length: COUNT }, () => normal())
  const value = Float64Array.from(factor, (row) => row.reduce((s, l, k) => s + l * draws[k], 0))
  return { x, y, value }
}

test('short and long structures are both found, with ranges near their own', () => {
  const found = [1, 2, 3, 4].map((seed) => {
    const points = drawn(seed, (h) => 0.4 * spherical(h, 100) + gaussian(h, 800), 0.02)
    return automaticVariogram(points).variogram.structures
  })
  const two = found.filter((structures) => structures.length === 2)
  expect(two.length).toBeGreaterThanOrEqual(3)
  for (const [short, long] of two) {
    expect(short.range).toBeGreaterThan(60)
    expect(short.range).toBeLessThan(240)
    expect(long.range).toBeGreaterThan(400)
  }
})

test('a field of one structure keeps one', () => {
  const found = [1, 2, 3, 4].map((seed) => {
    const points = drawn(seed, (h) => spherical(h, 300), 0.1)
    return automaticVariogram(points).variogram.structures.length
  })
  expect(found).toEqual(found.map(() => 1))
})
