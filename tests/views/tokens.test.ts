/** Colours of the looks reach the map as the stylesheet means them. */
import { expect, test } from 'vitest'
import { rgb } from '../../src/views/map-view/tokens'

test('short and long notations are the same colour', () => {
  expect(rgb('#ffffff')).toEqual([255, 255, 255])
  expect(rgb('#fff')).toEqual([255, 255, 255])
  expect(rgb('#96460f')).toEqual([150, 70, 15])
  expect(rgb('#a1c')).toEqual([170, 17, 204])
})
