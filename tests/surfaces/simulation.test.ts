import { expect, test } from 'vitest'
import { krigeAt } from '../../src/surfaces/kriging'
import type { Grid, Points, Variogram } from '../../src/surfaces/model'
import { normalBelow, normalQuantile, normalScores } from '../../src/surfaces/normal-scores'
import { chanceAbove, simulateScores, simulateSurface } from '../../src/surfaces/simulation'
import { gammaAt } from '../../src/surfaces/variogram-models'
import { scatter } from './scatter'

const GRID: Grid = { west: 0, north: 100, cell: 1, columns: 100, rows: 100 }
/** Range a tenth of the side. */
const SHORT: Variogram = { nugget: 0, structures: [{ model: 'spherical', sill: 1, range: 10 }] }

test('unconditional: the histogram is normal and the variogram the model', () => {
  const fields = simulateScores(null, SHORT, GRID, { realisations: [0, 200] })
  const all = Float64Array.from({ length: 20_000 }, (_, i) => fields[i % 200][(i * 7919) % 10_000])
  all.sort()
  let apart = 0
  all.forEach(
    (z, i) => (apart = Math.max(apart, Math.abs((i + 0.5) / all.length - normalBelow(z)))),
  )
  expect(apart).toBeLessThan(0.05)
  for (const lag of [1, 2, 3, 4, 5]) {
    let [east, north, pairs] = [0, 0, 0]
    for (const field of fields) {
      for (let node = 0; node < 10_000; node += 7) {
        if (node % 100 >= 100 - lag || node + 100 * lag >= 10_000) continue
        east += (field[node + lag] - field[node]) ** 2
        north += (field[node + 100 * lag] - field[node]) ** 2
        pairs++
      }
    }
    const model = gammaAt(SHORT, lag, 0)
    expect(Math.abs(east / (2 * pairs) / model - 1)).toBeLessThan(0.1)
    expect(Math.abs(north / (2 * pairs) / model - 1)).toBeLessThan(0.1)
  }
})

test('conditional: data are honoured and the mean approaches kriging', () => {
  const grid: Grid = { west: 0, north: 40, cell: 1, columns: 40, rows: 40 }
  const base = scatter(30, 40)
  const { scores } = normalScores(base.value)
  // Stations on nodes.
  const x = base.x.map((v) => Math.floor(v) + 0.5)
  const y = base.y.map((v) => Math.floor(v) + 0.5)
  const points: Points = { x, y, value: scores }
  const model: Variogram = { nugget: 0, structures: [{ model: 'spherical', sill: 1, range: 25 }] }
  const fields = simulateScores(points, model, grid, { realisations: [0, 400] })
  x.forEach((px, i) => {
    const node = (40 - 0.5 - y[i]) * 40 + px - 0.5
    if (x.some((ox, j) => j !== i && ox === px && y[j] === y[i])) return
    for (const field of fields.slice(0, 5)) expect(field[node]).toBeCloseTo(scores[i], 4)
  })
  // Simple and ordinary kriging differ by little where stations are near.
  const at = { x: Float64Array.of(10.5, 20.5, 30.5), y: Float64Array.of(12.5, 20.5, 25.5) }
  const kriged = krigeAt(points, model, at)
  at.x.forEach((px, i) => {
    const node = (40 - 0.5 - at.y[i]) * 40 + px - 0.5
    const mean = fields.reduce((sum, field) => sum + field[node], 0) / fields.length
    expect(Math.abs(mean - kriged.estimate[i])).toBeLessThan(0.15)
  })
})

test('a realisation is the same whatever others are computed beside it, and keeps to the values', () => {
  const points = scatter(40, 100)
  const both = simulateSurface(points, GRID, { realisations: [0, 3] })
  const [last] = simulateSurface(points, GRID, { realisations: [2, 3] })
  expect(last).toEqual(both[2])
  expect(both[0]).not.toEqual(both[1])
  expect(Math.max(...both[0])).toBeLessThanOrEqual(Math.fround(Math.max(...points.value)))
  const chance = chanceAbove(both, -100)
  expect(chance.every((p) => p === 1)).toBe(true)
})

test('normal quantiles', () => {
  // Abramowitz and Stegun, table 26.1 and common tables (from memory).
  expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 11)
  expect(normalQuantile(0.95)).toBeCloseTo(1.6448536269514722, 11)
  expect(normalBelow(-4)).toBeCloseTo(3.167124183311998e-5, 14)
  for (const p of [1e-6, 0.01, 0.3, 0.7, 0.999])
    expect(normalBelow(normalQuantile(p))).toBeCloseTo(p, 12)
  const { scores, back } = normalScores(Float64Array.of(5, 1, 3, 3))
  expect(scores[2]).toBe(scores[3])
  expect(back(scores[0])).toBe(5)
  expect(back(scores[2])).toBe(3)
  expect(back(99)).toBe(5)
})
