/** A walk as the map draws it: legs between the exact stops, numbered stops, start and end. */
import { expect, test } from 'vitest'
import type { TraversePlan } from '../../src/project/traverse-plan'
import { walkPoints } from '../../src/views/map-view/walk-points'

const frame = {
  toDegrees: (x: number, y: number) => [x / 10, y / 10] as const,
  fromDegrees: (x: number, y: number) => [x * 10, y * 10] as const,
}
const leg = (x: number[], y: number[]) => ({ x: Float64Array.from(x), y: Float64Array.from(y) })
const PLAN = {
  stops: [
    { x: 11, y: 1 },
    { x: 22, y: 2 },
  ],
  legs: [leg([0, 5, 10], [0, 0, 0]), leg([10, 20], [0, 0]), leg([20, 10, 0], [0, 0, 0])],
} as unknown as TraversePlan

test('legs join at the stops themselves, not at the nodes beside them', () => {
  const { way, stops } = walkPoints(PLAN, {}, frame, 1)
  expect(way.features.map(({ geometry }) => geometry.coordinates)).toEqual([
    [[0, 0], [0.5, 0], [1.1, 0.1]],
    [[1.1, 0.1], [2.2, 0.2]],
    [[2.2, 0.2], [1, 0], [0, 0]],
  ]) // prettier-ignore
  expect(stops.features.map(({ properties }) => properties)).toEqual([
    { number: 1, chosen: false },
    { number: 2, chosen: true },
  ])
})

test('start and end are told apart, in degrees or working units, with a walk or without', () => {
  const start = { longitude: -69, latitude: -24 }
  const both = walkPoints(null, { start, end: { easting: 50, northing: 60 } }, frame, null).ends
  expect(
    both.features.map(({ geometry, properties }) => [properties.label, geometry.coordinates]),
  ).toEqual([
    ['Start', [-69, -24]],
    ['End', [5, 6]],
  ])
  const one = walkPoints(null, { start }, frame, null)
  expect(one.ends.features.map(({ properties }) => properties.label)).toEqual(['Start and end'])
  expect(one.way.features).toEqual([])
})
