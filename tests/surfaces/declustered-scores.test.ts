/** Declustered normal scores, against tests/oracles/declustered-scores.R and the whole lake. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { computeChance } from '../../src/surfaces/chance'
import { planSurface } from '../../src/surfaces/compute'
import { computeSurface } from '../../src/surfaces/compute-tile'
import { krigeAt } from '../../src/surfaces/kriging'
import type { Grid, Points, SurfaceRule, Variogram } from '../../src/surfaces/model'
import { restorer, transformedPoints } from '../../src/surfaces/transforms'
import { largestDifference, noSpatial, spatial } from './shared-data'

type Numbers = Record<'scores' | 'transformed' | 'estimate', number[]>
const EXPECTED = JSON.parse(
  readFileSync(new URL('declustered-scores.json', import.meta.url), 'utf8'),
) as Numbers & Record<'cell' | 'mean', number>

const MODEL: Variogram = {
  nugget: 0.2,
  structures: [{ model: 'spherical', sill: 0.8, range: 40 }],
}

function lake(): Points {
  const { X: x, Y: y, V: value } = spatial('walker.csv')
  return { x, y, value }
}

describe.skipIf(noSpatial)('V of Walker Lake', () => {
  test('is scored by the cells, kriged and brought back as R and gstat have it', () => {
    const points = lake()
    const transformed = transformedPoints('normal-score', points, 'V', true)
    expect(transformed.declustering?.cell).toBeCloseTo(EXPECTED.cell, 9)
    expect(transformed.declustering?.mean).toBeCloseTo(EXPECTED.mean, 8)
    const scores = [0, 99, 199, 299, 469].map((i) => transformed.points.value[i])
    expect(largestDifference(scores, EXPECTED.scores)).toBeLessThan(1e-9)
    const at = {
      x: Float64Array.of(40, 100, 130, 200, 71),
      y: Float64Array.of(60, 250, 130, 40, 29),
    }
    const kriged = krigeAt(transformed.points, MODEL, at, { neighbours: 24 })
    expect(largestDifference(kriged.estimate, EXPECTED.transformed)).toBeLessThan(1e-9)
    const { estimate } = restorer(transformed, points.value)(kriged)
    expect(largestDifference(estimate, EXPECTED.estimate)).toBeLessThan(2e-4)
  })

  const grid: Grid = { west: 0, north: 300, cell: 10, columns: 26, rows: 30 }
  const rule: SurfaceRule = {
    name: 'V',
    value: 'V',
    method: 'chance-above',
    above: 221.3,
    realisations: 60,
    reach: 500,
  }
  const meanOf = (values: Float64Array) => values.reduce((a, b) => a + b, 0) / values.length

  test('the mean chance over the lake comes nearer the part of it that lies above', () => {
    // Isaaks and Srivastava 1989: 221.3 is the median of all 78,000 values (from memory), so that
    // half of the lake lies above it.
    const chance = (declustered: boolean) =>
      meanOf(computeChance(planSurface({ ...rule, declustered }, lake(), { grid })).estimate)
    const [plain, fair] = [chance(false), chance(true)]
    expect(Math.abs(fair - 0.5)).toBeLessThan(Math.abs(plain - 0.5))
  })

  test('kriged scores come nearer the mean of the whole lake', () => {
    const kriged: SurfaceRule = {
      name: 'V',
      value: 'V',
      method: 'kriging',
      transform: 'normal-score',
      variogram: MODEL,
      reach: 500,
    }
    const mean = (declustered: boolean) =>
      meanOf(computeSurface(planSurface({ ...kriged, declustered }, lake(), { grid })).estimate)
    const [plain, fair] = [mean(false), mean(true)]
    expect(Math.abs(fair - 277.98)).toBeLessThan(Math.abs(plain - 277.98))
  })
})
