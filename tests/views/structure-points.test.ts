/** Structures as the map draws them: turned to true north, numbered where their tick or arrow ends. */
import { expect, test } from 'vitest'
import { structureSymbolOf } from '../../src/map/structure-symbols'
import type { Station } from '../../src/places/station'
import { NO_RECORD } from '../../src/project/station-record'
import type { Structure } from '../../src/project/structures'
import { structurePoints } from '../../src/views/map-view/structure-points'

const plane = (dip: number, direction: number, declination = 0, what = 'vein'): Structure => ({
  what,
  form: 'plane',
  dip,
  dip_direction: direction,
  declination,
})
const line = (plunge: number, trend: number, declination = 0): Structure => ({
  what: 'striae',
  form: 'line',
  trend,
  plunge,
  declination,
})
const core: Structure = { what: 'vein', form: 'core', alpha: 4, beta: 5, reference: 'top' }

function pointsOf(structures: readonly Structure[], hole: string | null = null) {
  const stations = [{ hole }] as unknown as Station[]
  const places = {
    shown: Int32Array.of(0),
    longitudes: Float64Array.of(-69),
    latitudes: Float64Array.of(-24),
  }
  return structurePoints(stations, [{ ...NO_RECORD, structures }], places, 13.5).features
}

test('a symbol turns to its strike or trend from true north', () => {
  // Read 350° where magnetic north lies 15° east: it dips to 5°, so it strikes to 275°.
  const [dips, plunges] = pointsOf([plane(60, 350, 15), line(25, 3, -10)])
  expect(dips.properties).toMatchObject({ symbol: 'inclined', turn: 275, label: '60' })
  expect(plunges.properties).toMatchObject({ symbol: 'plunging', turn: 353, label: '25' })
  expect(dips.geometry.coordinates).toEqual([-69, -24])
})

test('its number stands where the plane dips to: right of the station for east, below it for south', () => {
  const [east, south] = pointsOf([plane(30, 90), plane(30, 180)])
  // A tick of 18 and room of 9 units over 13.5 a letter are two heights of the type.
  expect(east.properties.offset[0]).toBeCloseTo(2, 12)
  expect(east.properties.offset[1]).toBeCloseTo(0, 12)
  expect(south.properties.offset[0]).toBeCloseTo(0, 12)
  expect(south.properties.offset[1]).toBeCloseTo(2, 12)
})

test('level and upright ones have symbols of their own and no number', () => {
  expect(
    [plane(1, 9), plane(89, 9), line(0, 9), line(90, 9), plane(40, 9, 0, 'S1 cleavage'), core].map(
      structureSymbolOf,
    ),
  ).toEqual(['horizontal', 'vertical', 'level', 'upright', 'foliation', null])
  const labels = pointsOf([plane(1, 9), plane(89, 9), line(0, 9), line(90, 9)])
  expect(labels.map(({ properties }) => properties.label)).toEqual(['', '', '', ''])
})

test('core and what was measured in holes is not drawn on the ground', () => {
  expect(pointsOf([core])).toEqual([])
  expect(pointsOf([plane(60, 90)], 'DH-1')).toEqual([])
})
