/** The order of layers on the map: whole whatever was kept, and moved past what is there. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { MAP_LAYERS, moved, wholeOrder, type MapLayer } from '../../src/project/map-order'

test('what is not named comes under what lies above it otherwise', () => {
  expect(wholeOrder([])).toEqual(MAP_LAYERS)
  expect(wholeOrder(['hillshade', 'stations'])).toEqual([
    'hillshade',
    'stations',
    'walk',
    'structures',
    'contours',
    'outlines',
    'surface',
  ])
  // A later version's layer, or one named twice, is no reason to lose the rest.
  const odd = ['contours', 'contours', 'rivers'] as unknown as MapLayer[]
  expect([...wholeOrder(odd)].sort()).toEqual([...MAP_LAYERS].sort())
})

test('a layer moves past the next that is there, and stays at the ends', () => {
  const there = new Set<MapLayer>(['stations', 'outlines', 'hillshade'])
  const down = moved(MAP_LAYERS, 'stations', 1, there)
  expect(down.filter((layer) => there.has(layer))).toEqual(['outlines', 'stations', 'hillshade'])
  expect(moved(MAP_LAYERS, 'stations', -1, there)).toBe(MAP_LAYERS)
  expect(moved(MAP_LAYERS, 'hillshade', 1, there)).toBe(MAP_LAYERS)
})

test('moving up takes moving down back, for those that can be seen', () => {
  fc.assert(
    fc.property(
      fc.shuffledSubarray([...MAP_LAYERS], { minLength: MAP_LAYERS.length }),
      fc.subarray([...MAP_LAYERS], { minLength: 2 }),
      fc.nat(MAP_LAYERS.length - 1),
      (order, present, pick) => {
        const there = new Set(present)
        const seen = (layers: readonly MapLayer[]) => layers.filter((layer) => there.has(layer))
        const layer = present[pick % present.length]
        const next = moved(order, layer, 1, there)
        expect([...next].sort()).toEqual([...MAP_LAYERS].sort())
        if (next !== order) expect(seen(moved(next, layer, -1, there))).toEqual(seen(order))
      },
    ),
    { seed: 11, numRuns: 300 },
  )
})
