/** Classes mapped together: chances that sum to 1, the likeliest class, its doubt and its testing. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import {
  consistentChances,
  likeliestOf,
  likeliestSentence,
  testLikeliest,
} from '../../src/surfaces/likeliest'
import type { Variogram } from '../../src/surfaces/model'
import { leaveOneOut } from '../../src/surfaces/testing'
import { noSpatial, spatial } from './shared-data'

test('chances lie in 0…1, sum to 1 with "none of these", and gaps stay', () => {
  const chances = consistentChances([
    Float64Array.of(0.1, 0.9, -0.2, 0.4, -0.1),
    Float64Array.of(0.7, -0.1, 0.2, NaN, -0.2),
    Float64Array.of(0.6, 0.3, 1.2, 0.5, 0),
  ])
  for (const node of [0, 1, 2, 4]) {
    const all = chances.map((each) => each[node])
    expect(all.reduce((a, b) => a + b)).toBeCloseTo(1, 15)
    for (const chance of all) expect(chance).toBeGreaterThanOrEqual(0)
  }
  expect(chances.map((each) => each[3])).toEqual([NaN, NaN, NaN])
  // Worked by hand: 0.1, 0.7, 0.6 over 1.4; 0.9, 0, 0.3 over 1.2; 0, 0.2, 1 over 1.2.
  expect(chances[1][0]).toBeCloseTo(0.5, 15)
  expect(chances[0][1]).toBeCloseTo(0.75, 15)
  expect(chances[2][2]).toBeCloseTo(5 / 6, 15)
  expect(chances.map((each) => each[4])).toEqual([1, 0, 0])
  const [none, first] = consistentChances([null, Float64Array.of(0.4), Float64Array.of(0.4)])
  expect([none[0], first[0]]).toEqual([0, 0.5])
})

test('the likeliest, the second and the lead between them; a tie goes to the class that is first', () => {
  const { code, probability, second, doubt } = likeliestOf([
    Float64Array.of(0.2, 0.5, NaN, 0.4),
    Float64Array.of(0.5, 0.5, NaN, 0.2),
    Float64Array.of(0.3, 0, NaN, 0.4),
  ])
  expect([...code]).toEqual([1, 1, NaN, 2])
  expect([...second]).toEqual([2, 0, NaN, 0])
  expect([...probability]).toEqual([0.5, 0.5, NaN, 0.4])
  expect(doubt[0]).toBeCloseTo(0.8, 15)
  expect(doubt[1]).toBe(1)
  expect(doubt[3]).toBe(1)
  const certain = likeliestOf([Float64Array.of(0), Float64Array.of(1)])
  expect([certain.code[0], certain.doubt[0]]).toEqual([1, 0])
})

test('testing: right, against the commonest; Brier’s score worked by hand', () => {
  const observed = [
    Float64Array.of(0, 0, 0, 1),
    Float64Array.of(1, 1, 0, 0),
    Float64Array.of(0, 0, 1, 0),
  ]
  const predicted = [
    Float64Array.of(0, 0.2, 0.1, 0.1),
    Float64Array.of(1, 0.5, 0.6, 0.8),
    Float64Array.of(0, 0.3, 0.3, 0.1),
  ]
  const tested = testLikeliest(observed, predicted)
  // Scores: 0; 0.04 + 0.25 + 0.09; 0.01 + 0.36 + 0.49; 0.81 + 0.64 + 0.01.
  expect(tested?.testing.rmse).toBeCloseTo(Math.sqrt((0.38 + 0.86 + 1.46) / 4 / 2), 12)
  expect(tested).toMatchObject({ right: 0.5, commonest: 0.5, commonestOutcome: 1 })
  if (!tested) throw new Error('untested')
  expect(likeliestSentence(tested, null, 'clay')).toBe(
    'With each station left out the likeliest class is right at 50 % of them; always saying ' +
      '‘clay’ would be right at 50 %: no better than that, so trust the stations and not the surface.',
  )
  expect(likeliestSentence(tested, null, 'clay', 'group')).toContain('the likeliest group is right')
  const gaps = predicted.map((each) => each.map((chance, i) => (i < 2 ? NaN : chance)))
  expect(testLikeliest(observed, gaps)).toBeNull()
})

interface JuraExpected {
  readonly rock: number[]
  readonly right: number
  readonly commonest: number
  readonly score: number
  readonly scoreOfShares: number
  readonly probability: number[]
  readonly doubt: number[]
}

test.skipIf(noSpatial)(
  'rock types of Jura, each sample left out, as gstat’s indicators give',
  () => {
    // tests/oracles/likeliest.R
    const text = readFileSync(new URL('likeliest.json', import.meta.url), 'utf8')
    const expected = JSON.parse(text) as JuraExpected
    const { Xloc: x, Yloc: y } = spatial('jura-prediction.csv')
    const variogram: Variogram = {
      nugget: 0.03,
      // gstat's exponential parameter is a third of the range at which 95 % are reached.
      structures: [{ model: 'exponential', sill: 0.15, range: 1.2 }],
    }
    const observed = [1, 2, 3, 4, 5].map((rock) =>
      Float64Array.from(expected.rock, (each) => (each === rock ? 1 : 0)),
    )
    const predicted = observed.map(
      (value) => leaveOneOut({ x, y, value }, { method: 'kriging', variogram }).predicted,
    ) as [Float64Array, ...Float64Array[]]
    const chances = consistentChances([null, ...predicted])
    const tested = testLikeliest([new Float64Array(x.length), ...observed], chances)
    expect(tested?.right).toBeCloseTo(expected.right, 12)
    expect(tested?.commonest).toBeCloseTo(expected.commonest, 12)
    expect(tested?.testing.rmse).toBeCloseTo(expected.score, 9)
    expect(tested?.testing.meanRmse).toBeCloseTo(expected.scoreOfShares, 9)
    const { probability, doubt } = likeliestOf(chances)
    expected.probability.forEach((each, i) => expect(probability[i]).toBeCloseTo(each, 9))
    expected.doubt.forEach((each, i) => expect(doubt[i]).toBeCloseTo(each, 9))
  },
)
