/** What is said of stations before they are mapped. */
import { expect, test } from 'vitest'
import type { ExploredValue } from '../../src/project/exploring'
import { crowdingWords, duplicateWords, trendWords } from '../../src/views/surfaces/explore-words'

const spread = { mean: 0, sd: 80, skewness: 0, least: 0, most: 0, quantiles: [] }
const value: ExploredValue = {
  unit: 'ppm',
  stations: 470,
  // Walker Lake's V as the 470 samples have it, and about as the whole lake does.
  plain: { ...spread, mean: 435.3 },
  declustered: { ...spread, mean: 300 },
  cell: 20,
  duplicates: 0,
  plane: { slope: 0.002, azimuth: 41.6, rSquared: 0.3, pIfIndependent: 0, blockedGain: 0.25 },
  weights: new Float64Array(),
  numbers: [],
  values: new Float64Array(),
}

test('crowded stations that move the mean are told of, with what to do', () => {
  expect(crowdingWords(value)).toBe(
    'Crowded stations raise the mean by 135.3 ppm: for the ground as a whole read the declustered column.',
  )
  const little = { ...value, declustered: { ...spread, mean: 430 } }
  expect(crowdingWords(little)).toMatch(/hardly move the mean/)
})

test('a trend is worth trying only where it predicts blocks', () => {
  expect(trendWords(value, 'm')).toBe(
    'A plane rises toward 42° by 2.000 ppm a km and takes 30\u202f% of the variance; it predicts whole blocks 25\u202f% better than the mean: try kriging with a trend, and compare.',
  )
  const with_ = (blockedGain: number | null) =>
    trendWords({ ...value, plane: value.plane && { ...value.plane, blockedGain } }, 'km')
  expect(with_(-0.4)).toMatch(
    /by 0.002000 ppm a km .* no better than the mean: leave the trend off/,
  )
  expect(with_(0.02)).toMatch(/hardly better/)
  expect(with_(null)).toMatch(/too close together to test/)
  expect(trendWords({ ...value, plane: null }, 'm')).toMatch(/^Too few stations/)
})

test('stations on one spot are told of', () => {
  expect(duplicateWords(1)).toMatch(/^1 station stands/)
  expect(duplicateWords(4)).toMatch(/^4 stations stand/)
})
