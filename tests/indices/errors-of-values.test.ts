/** First-order errors against numerical differentiation and against simulation. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { compileFormula } from '../../src/indices/compile'
import { evaluate } from '../../src/indices/evaluate'
import type { Measured } from '../../src/indices/rule'
import { context, KNOWN } from './sample'

const indices = (a: Measured, b: Measured) => context({ indices: { a, b } })

function errorAt(formula: string, a: number, ea: number, b: number, eb: number): number | null {
  const given = indices({ value: a, error: ea }, { value: b, error: eb })
  return evaluate(compileFormula(formula, KNOWN), given).error
}

function valueAt(formula: string, a: number, b: number): number {
  const given = indices({ value: a, error: null }, { value: b, error: null })
  return evaluate(compileFormula(formula, KNOWN), given).value as number
}

/** Uniform numbers in [0, 1): mulberry32. */
function seeded(seed: number): () => number {
  return () => {
    seed = (seed + 0x6d2b79f5) | 0
    let t = Math.imul(seed ^ (seed >>> 15), 1 | seed)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

describe('by hand', () => {
  test.each([
    ['[a] + [b]', 5],
    ['[a] - [b]', 5],
    ['2 * [a]', 6],
    ['-[a]', 3],
    ['[a] - [a]', 0],
    ['[a] + [a]', 6],
    ['[a] * [a]', 60],
    ['[a]^2', 60],
    ['[a] / [a]', 0],
    ['min([a], [b])', 3],
    ['max([a], [b])', 4],
    ['abs(-[a])', 3],
    ['if([a] < [b], [a], [b])', 3],
    ['if([a] > [b], [a], [b])', 4],
    ['sqrt([a])', 3 / (2 * Math.sqrt(10))],
    ['log([a])', 0.3],
    ['log10([a])', 0.3 / Math.LN10],
    ['exp([a] - 10)', 3],
  ])('%s has the error %d', (formula, expected) => {
    expect(errorAt(formula, 10, 3, 20, 4)).toBeCloseTo(expected, 12)
  })

  test('a ratio as in JCGM 100:2008, 5.1.6: relative errors add in squares', () => {
    expect(errorAt('[a] / [b]', 10, 0.3, 20, 0.8)).toBeCloseTo(0.5 * Math.hypot(0.03, 0.04), 12)
  })
})

describe('no error is stated', () => {
  test('where nothing measured enters smoothly', () => {
    expect(errorAt('3', 1, 1, 1, 1)).toBeNull()
    expect(errorAt('if([a] > 0, 1, 2)', 1, 1, 1, 1)).toBeNull()
  })
  test('where the error of a part is unknown', () => {
    const given = indices({ value: 2, error: 0.1 }, { value: 3, error: null })
    expect(evaluate(compileFormula('[a] * [b]', KNOWN), given).error).toBeNull()
    expect(evaluate(compileFormula('if([b] > 0, [a], 0)', KNOWN), given).error).toBe(0.1)
  })
  test('but it is 0 where a nought is raised to something measured, for nothing moves it', () => {
    expect(errorAt('0^[a]', 2, 0.1, 1, 1)).toBe(0)
  })
  test('for conditions, texts and where the slope is infinite', () => {
    expect(errorAt('[a] > 1', 2, 1, 1, 1)).toBeNull()
    expect(errorAt('sqrt([a])', 0, 1, 1, 1)).toBeNull()
  })
})

test('errors agree with numerical differentiation', () => {
  const formulas = [
    '[a] * [b] / ([a] + [b]) - [a]^1.5',
    'exp(-[a]) * log([b]) + sqrt([a] * [b])',
    '[a]^[b] + log10([a] + 2 * [b])',
    'max([a], [b]) * min([a] + 1, 3 * [b]) - abs([a] - [b])',
    'if([a] > [b], [a]^2 * [b], [a] / [b]) * -[b]',
    '2^-[a] + (1 - [b])^3 / [a]',
  ]
  const number = fc.double({ min: 0.3, max: 3, noNaN: true })
  fc.assert(
    fc.property(fc.constantFrom(...formulas), number, number, (formula, a, b) => {
      const h = 1e-5
      fc.pre(Math.abs(a - b) > 10 * h && Math.abs(a + 1 - 3 * b) > 10 * h)
      const da = (valueAt(formula, a + h, b) - valueAt(formula, a - h, b)) / (2 * h)
      const db = (valueAt(formula, a, b + h) - valueAt(formula, a, b - h)) / (2 * h)
      const error = errorAt(formula, a, 0.01, b, 0.02) ?? NaN
      const expected = Math.hypot(0.01 * da, 0.02 * db)
      expect(Math.abs(error - expected)).toBeLessThan(1e-7 + 1e-5 * expected)
    }),
    { numRuns: 300 },
  )
})

test('errors agree with simulation of 40,000 draws', () => {
  const random = seeded(7)
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
  for (const formula of ['[a] / [b]', '[a] * [a] - [b]', 'log([a]) * sqrt([b])']) {
    const [a, ea, b, eb] = [1.4, 0.02, 0.9, 0.015]
    let sum = 0
    let squares = 0
    const draws = 40_000
    for (let i = 0; i < draws; i++) {
      const value = valueAt(formula, a + ea * normal(), b + eb * normal())
      sum += value
      squares += value * value
    }
    const spread = Math.sqrt(squares / draws - (sum / draws) ** 2)
    // A standard deviation of 40,000 draws is itself known to 0.35 %.
    expect(spread / (errorAt(formula, a, ea, b, eb) ?? NaN)).toBeCloseTo(1, 1.7)
  }
})
