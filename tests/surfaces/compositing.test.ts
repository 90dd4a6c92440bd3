/** Composites along holes, against tables worked by hand. */
import { expect, test } from 'vitest'
import { compositeError, compositeMean, composites } from '../../src/surfaces/compositing'

const at = (key: string, from: number, to = from) => ({ key, from, to })

test('grades are weighed by length and cut at multiples of it', () => {
  // 0–1.5 m at 2, 1.5–2.5 m at 4, 2.5–4 m at 1: 0–2 m is (1.5·2 + 0.5·4)/2, 2–4 m (0.5·4 + 1.5·1)/2.
  const samples = [at('A', 0, 1.5), at('A', 1.5, 2.5), at('A', 2.5, 4)]
  const { composites: found, leftOut } = composites(samples, 2)
  expect(leftOut).toBe(0)
  expect(found.map((each) => compositeMean(each, [2, 4, 1]))).toEqual([2.5, 1.75])
  expect(compositeError(found[0], [0.2, 0.4, 0.1])).toBeCloseTo(Math.hypot(0.15, 0.1), 12)
  expect(compositeError(found[0], [0.2, NaN, 0.1])).toBeNaN()
})

test('a gap is no part of a mean, and what is covered by less than half is left out', () => {
  const samples = [at('A', 0, 0.5), at('A', 1.2, 2), at('A', 2, 2.9), at('A', 6, 7)]
  const { composites: found, leftOut } = composites(samples, 2)
  expect(found.map(({ members }) => members)).toEqual([[0, 1], [3]])
  expect(compositeMean(found[0], [10, 20, 0, 5])).toBeCloseTo((0.5 * 10 + 0.8 * 20) / 1.3, 12)
  expect(leftOut).toBe(1)
})

test('holes break composites; ground stays; the total of length times grade is kept', () => {
  const samples = [at('A', 0, 1), at('B', 1, 2), null, at('A', 1, 2), null]
  const { composites: found } = composites(samples, 2)
  expect(found.map(({ members }) => members)).toEqual([[0, 3], [1], [2], [4]])
  const grades = [3, 1, 4, 1, 5, 9, 2, 6, 5, 3]
  const whole = grades.map((_, i) => at('A', 0.6 * i, 0.6 * (i + 1)))
  const joined = composites(whole, 1.5).composites
  const sum = joined.reduce((total, each) => total + 1.5 * compositeMean(each, grades), 0)
  expect(sum).toBeCloseTo(0.6 * grades.reduce((a, b) => a + b), 9)
})

test('samples at one depth count equally, and give way to intervals', () => {
  const samples = [at('A', 0.5), at('A', 1.9), at('A', 2), at('A', 2.5, 4)]
  const { composites: found } = composites(samples, 2)
  expect(found.map(({ members, weights }) => [members, weights])).toEqual([
    [
      [0, 1],
      [0.5, 0.5],
    ],
    [[3], [1]],
  ])
  // 0.6 / 0.2 is 2.9999999999999996: the sample stands at the top of the fourth.
  expect(composites([at('A', 0.6, 0.8)], 0.2).composites).toHaveLength(1)
  expect(() => composites(samples, 0)).toThrow(/longer than 0/)
  const typo = [{ key: 'DH1', from: 12, to: 1e12 }]
  expect(() => composites(typo, 2)).toThrow(/choose longer ones, or look for a depth that is wrong/)
})

test('a sample of exactly half a composite counts, though its length is not exact in binary', () => {
  // 1.4/2 − 0.4/2 is 0.49999999999999994.
  expect(composites([at('A', 0.4, 1.4)], 2)).toMatchObject({ leftOut: 0 })
  expect(composites([at('A', 0.4, 1.4)], 2).composites).toHaveLength(1)
})
