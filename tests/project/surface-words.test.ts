/** Sentences on surfaces that show less than they seem to. */
import { expect, test } from 'vitest'
import { finishSurface } from '../../src/jobs/finish-surface'
import {
  evenBelow,
  evenSentence,
  intervalSentence,
  swingSentence,
  variogramSentence,
} from '../../src/project/surface-words'
import { computeChance } from '../../src/surfaces/chance'
import { computeSurface } from '../../src/surfaces/compute-tile'
import { planSurface } from '../../src/surfaces/compute'
import type { SurfaceRule, Testing, Variogram } from '../../src/surfaces/model'
import { scatter } from '../surfaces/scatter'

const RULE: SurfaceRule = { name: 's', value: 'v', method: 'kriging', cell: 25 }

test('a surface of nothing but nugget has one colour, no contours, and a sentence', () => {
  // Nodes stand at cell centres, on no station: all are the mean.
  const plan = planSurface({ ...RULE, variogram: { nugget: 1, structures: [] } }, scatter(60, 1000))
  const finished = finishSurface(computeSurface(plan), evenBelow(plan))
  expect(finished.contours).toEqual([])
  expect(new Set(finished.spread.estimate).size).toBe(1)
  expect(evenSentence(finished.even, 'nm')).toMatch(/nearly the same everywhere \(.* nm\)/)
})

test('one with a pattern keeps its contours', () => {
  const plan = planSurface(RULE, scatter(60, 1000))
  const finished = finishSurface(computeSurface(plan), evenBelow(plan))
  expect(finished.even).toBeNull()
  expect(finished.contours.length).toBeGreaterThan(3)
  expect(evenSentence(finished.even, '')).toBe('')
})

test('a chance is even in its own measure, whatever the unit of the value that it is of', () => {
  const points = scatter(60, 1000)
  const ppm = { ...points, value: points.value.map((value) => 1e4 * value) }
  const middle = [...ppm.value].sort((a, b) => a - b)[30]
  const rule = { ...RULE, method: 'chance-above' as const, above: middle, realisations: 40 }
  const plan = planSurface(rule, ppm)
  const finished = finishSurface(computeChance(plan), evenBelow(plan))
  expect(finished.even).toBeNull()
  expect(finished.contours.length).toBeGreaterThan(0)
})

test('a range beyond all lags is told of, one among them is not', () => {
  const experimental = [1, 2, 3].map((k) => ({ pairs: 50, distance: 100 * k, gamma: k }))
  const spherical = (sill: number, range: number): Variogram => ({
    nugget: 0.1,
    structures: [{ model: 'spherical', sill, range }],
  })
  const said = (variogram: Variogram) =>
    variogramSentence({ variogram, experimental, choice: null }, { length: 'm', value: 'nm' })
  expect(said(spherical(3, 250))).toBe('')
  expect(said(spherical(30, 2600))).toMatch(
    /range \(2600 m\) is longer than the data can show .* sill \(30 nm²\)/,
  )
  const choice = { barriers: Float64Array.of(0, 0, 1, 1), sectors: null, neighbours: null }
  expect(
    variogramSentence(
      { variogram: spherical(3, 250), experimental, choice },
      { length: 'm', value: '' },
    ),
  ).toBe(' Pairs of stations that a barrier parts were left out of the variogram.')
})

test('standard errors are called too small or too large only where two errors speak for it', () => {
  const tested = (coverage90: number, coverage90Error: number, count = 200): Testing => ({
    count,
    meanError: 0,
    rmse: 1,
    meanSquaredStandardised: 1,
    meanRmse: 2,
    coverage90,
    coverage90Error,
  })
  expect(intervalSentence(tested(0.954, 0.029))).toBe('')
  expect(intervalSentence(tested(0.78, 0.04))).toMatch(/too small: .* 78 % .*\(± 4\).*further off/)
  expect(intervalSentence(tested(0.98, 0.01))).toMatch(/too large: .* 98 %/)
  // Ten of ten lie inside once in three times where nine should.
  expect(intervalSentence(tested(1, 0, 10))).toBe('')
  expect(intervalSentence(null)).toBe('')
})

test('a surface that runs far beyond its stations, as a gaussian model without nugget makes it, is told of', () => {
  // Two stations 1 m apart that differ, beside a model that is flat there.
  const spread = scatter(60, 1000)
  const points = {
    ...spread,
    x: Float64Array.from(spread.x, (x, i) => (i === 1 ? spread.x[0] + 1 : x)),
    y: Float64Array.from(spread.y, (y, i) => (i === 1 ? spread.y[0] : y)),
  }
  const said = (nugget: number) => {
    const variogram: Variogram = {
      nugget,
      structures: [{ model: 'gaussian', sill: 1, range: 900 }],
    }
    const plan = planSurface({ ...RULE, variogram }, points)
    return swingSentence(plan, finishSurface(computeSurface(plan), evenBelow(plan)).spread, 'nm')
  }
  expect(said(0)).toMatch(/It runs from .* nm where stations hold .* nm: its model cannot be right/)
  expect(said(0.1)).toBe('')
})
