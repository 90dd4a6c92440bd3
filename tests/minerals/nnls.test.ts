import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { nonNegativeFromGram, nonNegativeLeastSquares } from '../../src/minerals/nnls'

// Solutions by scipy.optimize.nnls of 1,000 random problems: tests/oracles/nnls.py.
const oracle = readFileSync(new URL('./nnls.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .map((row) => row.split(',').map(Number))

/** The same generator as in tests/oracles/nnls.py. */
function draws(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(1664525, state) + 1013904223) >>> 0
    return state / 2 ** 32
  }
}

function problem(seed: number): { columns: Float64Array[]; b: Float64Array } {
  const next = draws(seed * 7919 + 1)
  const rows = 4 + Math.floor(next() * 30)
  const count = 1 + Math.floor(next() * Math.min(12, rows - 1))
  const kind = seed % 4
  const columns = Array.from({ length: count }, () =>
    Float64Array.from({ length: rows }, () => next() - (kind === 0 ? 0 : 0.5)),
  )
  const b = Float64Array.from({ length: rows }, () => next() - (kind === 2 ? 0.5 : 0))
  if (kind === 3) {
    const parts = columns.map(() => Math.max(0, next() - 0.4))
    for (let i = 0; i < rows; i++)
      b[i] = columns.reduce((sum, column, j) => sum + column[i] * parts[j], 0)
  }
  return { columns, b }
}

describe('non-negative least squares', () => {
  it('agrees with scipy.optimize.nnls to 1e-8 on 1,000 random problems', () => {
    expect(oracle.length).toBe(1000)
    let worst = 0
    oracle.forEach(([residual, ...x], seed) => {
      const { columns, b } = problem(seed)
      const ours = nonNegativeLeastSquares(columns, b)
      expect(ours.x.length).toBe(x.length)
      x.forEach((value, j) => (worst = Math.max(worst, Math.abs(value - ours.x[j]))))
      worst = Math.max(worst, Math.abs(residual - ours.residual))
    })
    expect(worst).toBeLessThan(1e-8)
  })

  it('leaves out a column that repeats another', () => {
    const column = Float64Array.of(1, 2, 3)
    const { x, residual } = nonNegativeLeastSquares([column, column], Float64Array.of(2, 4, 6))
    expect(x[0] + x[1]).toBeCloseTo(2, 10)
    expect(residual).toBeCloseTo(0, 10)
  })

  it('gives zero where every column points the other way', () => {
    expect([...nonNegativeFromGram(Float64Array.of(1), Float64Array.of(-3))]).toEqual([0])
  })
})
