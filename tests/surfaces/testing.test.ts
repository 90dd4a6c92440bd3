import { expect, test } from 'vitest'
import { automaticVariogram } from '../../src/surfaces/automatic-variogram'
import { compareMethod, compareMethods } from '../../src/surfaces/compare'
import { krigeAt } from '../../src/surfaces/kriging'
import type { Points, Variogram } from '../../src/surfaces/model'
import {
  leaveBlocksOut,
  leaveGroupsOut,
  leaveOneOut,
  spatialBlocks,
  trustSentence,
  type TestedMethod,
} from '../../src/surfaces/testing'
import { scatter, seeded } from './scatter'

const VARIOGRAM: Variogram = {
  nugget: 0.02,
  structures: [{ model: 'spherical', sill: 1, range: 600 }],
}
const KRIGING: TestedMethod = { method: 'kriging', variogram: VARIOGRAM }

test('groups of one are leave-one-out', () => {
  const points = scatter(50, 1000)
  const each = Int32Array.from(points.x, (_, i) => i)
  const one = leaveOneOut(points, KRIGING)
  const groups = leaveGroupsOut(points, each, KRIGING)
  one.predicted.forEach((p, i) => expect(groups.predicted[i]).toBeCloseTo(p, 10))
})

test('a block is predicted from stations outside it alone', () => {
  const points = scatter(80, 1000)
  const blocks = spatialBlocks(points, 300)
  const tested = leaveBlocksOut(points, KRIGING, 300)
  const inside = (_: number, i: number) => blocks[i] !== blocks[0]
  const others: Points = {
    x: points.x.filter(inside),
    y: points.y.filter(inside),
    value: points.value.filter(inside),
  }
  const at = { x: points.x.slice(0, 1), y: points.y.slice(0, 1) }
  expect(tested?.predicted[0]).toBe(krigeAt(others, VARIOGRAM, at).estimate[0])
  // Ground that nobody walked is harder than the next station along.
  expect(tested?.testing.rmse).toBeGreaterThan(leaveOneOut(points, KRIGING).testing.rmse)
})

test('stations in one block cannot be tested so', () => {
  expect(leaveBlocksOut(scatter(10, 10), KRIGING, 1000)).toBeNull()
})

test('stations’ own errors widen what is expected of them', () => {
  const points = scatter(50, 1000)
  const error = new Float64Array(50).fill(0.5)
  const plain = leaveOneOut(points, KRIGING)
  const noisy = leaveOneOut({ ...points, error }, KRIGING)
  expect(noisy.variance?.[0]).toBeGreaterThan((plain.variance?.[0] ?? 0) + 0.25)
})

test('the sentence says when a surface is no better than the mean', () => {
  const random = seeded(9)
  const noise: Points = { ...scatter(60, 1000), value: Float64Array.from({ length: 60 }, random) }
  const { variogram } = automaticVariogram(noise)
  const { testing } = leaveOneOut(noise, { method: 'kriging', variogram })
  expect(trustSentence(testing, null, 'nm')).toContain('no better than the mean')
  const good = leaveOneOut(scatter(60, 1000), KRIGING).testing
  const blocked = leaveBlocksOut(scatter(60, 1000), KRIGING)?.testing ?? null
  const sentence = trustSentence(good, blocked, 'nm')
  expect(sentence).toMatch(/^Away from stations .* nm, beside them by .* % better than the mean\.$/)
})

test('a fitted variogram takes known errors out of the nugget', () => {
  const random = seeded(4)
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
  const clean = scatter(150, 1000)
  const noisy = { ...clean, value: clean.value.map((v) => v + 0.4 * normal()) }
  const error = new Float64Array(150).fill(0.4)
  const blind = automaticVariogram(noisy).variogram
  const told = automaticVariogram({ ...noisy, error }).variogram
  expect(told.nugget).toBeLessThan(0.5 * blind.nugget)
})

test('methods are compared in the same blocks, the best first', () => {
  const table = compareMethods(scatter(80, 1000))
  expect(table.map((row) => row.name).sort()).toEqual([
    'inverse distance',
    'kriging',
    'kriging with a trend',
    'natural neighbour',
    'nearest station',
  ])
  // Natural neighbour predicts no station of the hull: it has the easier ones and comes last.
  expect(table[4].name).toBe('natural neighbour')
  expect(table[4].blocked?.count).toBeLessThan(table[0].blocked?.count ?? 0)
  const rmses = table.slice(0, 4).map((row) => row.blocked?.rmse ?? NaN)
  expect([...rmses].sort((a, b) => a - b)).toEqual(rmses)
  expect(table[0].name).toContain('kriging')
  for (const row of table) expect(compareMethod(row.name, scatter(80, 1000))).toEqual(row)
})

test('a mean far above the spread changes no fit', () => {
  const points = scatter(60, 1000)
  const high = { ...points, value: points.value.map((v) => v + 1e6) }
  const low = automaticVariogram(points).variogram
  const lifted = automaticVariogram(high).variogram
  expect(lifted.structures[0].model).toBe(low.structures[0].model)
  expect(lifted.structures[0].range / low.structures[0].range).toBeCloseTo(1, 2)
})

test('a group without which the drift does not vary has no prediction, and the others have', () => {
  const x = Float64Array.from({ length: 12 }, (_, i) => 100 * i)
  const y = x.map((_, i) => 100 * (i % 3))
  const value = x.map((east, i) => east / 100 + (i % 2))
  const drift = x.map((_, i) => (i < 4 ? i : 7))
  const groups = Int32Array.from(x, (_, i) => Math.floor(i / 4))
  const { predicted, testing } = leaveGroupsOut({ x, y, value, drift }, groups, KRIGING)
  expect([...predicted].map(Number.isFinite)).toEqual([...groups].map((group) => group > 0))
  expect(testing.count).toBe(8)
})
