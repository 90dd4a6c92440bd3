/** A variogram and a comparison of methods where a fault parts the stations. */
import { expect, test } from 'vitest'
import { automaticVariogram } from '../../src/surfaces/automatic-variogram'
import { compareMethod, compareMethods } from '../../src/surfaces/compare'
import { experimentalVariogram } from '../../src/surfaces/experimental'
import { pairsInSight } from '../../src/surfaces/parted-pairs'
import { scatter } from './scatter'

const POINTS = scatter(120, 1000)
const WALL = Float64Array.of(500, -10, 500, 1010)
/** The same with all to the east lifted. */
const LIFTED = { ...POINTS, value: POINTS.value.map((z, i) => z + (POINTS.x[i] > 500 ? 20 : 0)) }

test('lags hold the pairs of either side alone', () => {
  const lags = { cutoff: 400, width: 80 }
  const side = (west: boolean) => {
    const keep = (_: number, i: number) => POINTS.x[i] < 500 === west
    const { x, y, value } = POINTS
    return { x: x.filter(keep), y: y.filter(keep), value: value.filter(keep) }
  }
  const [west, east] = [true, false].map((each) => experimentalVariogram(side(each), lags))
  const both = experimentalVariogram(LIFTED, lags, { pairs: pairsInSight(LIFTED, WALL) })
  expect(both.length).toBe(5)
  both.forEach((lag, i) => {
    const pairs = west[i].pairs + east[i].pairs
    expect(lag.pairs).toBe(pairs)
    const mean = (west[i].gamma * west[i].pairs + east[i].gamma * east[i].pairs) / pairs
    expect(lag.gamma).toBeCloseTo(mean, 9)
  })
})

test('what a fault lifts does not go into the plotted lags', () => {
  const seen = automaticVariogram(LIFTED, 0, WALL).experimental
  const all = automaticVariogram(LIFTED).experimental
  const highest = (lags: typeof all) => Math.max(...lags.map(({ gamma }) => gamma))
  expect(highest(seen)).toBeLessThan(2)
  expect(highest(all)).toBeGreaterThan(20)
})

test('methods are compared with nothing used across the fault', () => {
  const walled = compareMethod('inverse distance', LIFTED, { barriers: WALL })
  const free = compareMethod('inverse distance', LIFTED)
  expect(walled.single.rmse).toBeLessThan(0.2 * free.single.rmse)
  const names = compareMethods(LIFTED, { barriers: WALL }).map(({ name }) => name)
  expect(names).not.toContain('natural neighbour')
  expect(names.length).toBe(4)
})
