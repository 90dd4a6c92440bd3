/** What is written in the form of a walk: times, places, and what cannot stand. */
import { beforeAll, expect, test } from 'vitest'
import { loadEpsgTable, openCrs } from '../../src/places/crs'
import {
  checkedDraft,
  endWords,
  pressedEnd,
  proposedWalk,
  typedClock,
  typedEnd,
} from '../../src/views/traverse/walk-draft'

beforeAll(() => loadEpsgTable())

const station = (name: string, easting: number, northing: number) => ({
  name,
  position: { easting, northing },
})

test('times as people write them', () => {
  for (const [text, clock] of [
    ['7:30', '07:30'],
    ['07.30', '07:30'],
    ['730', '07:30'],
    ['1630', '16:30'],
    [' 7 ', '07:00'],
    ['7h05', '07:05'],
    ['23:59', '23:59'],
  ])
    expect(typedClock(text)).toBe(clock)
  for (const text of ['', '24:00', '7:60', '12345', 'noon', '7:5'])
    expect(typedClock(text)).toBeNull()
})

test('a draft is checked as the recipe would be, with a start or without', () => {
  const draft = proposedWalk('mica', 'terrain.tif')
  expect(checkedDraft(draft)).toMatchObject(draft)
  expect(checkedDraft(draft)).not.toHaveProperty('start.longitude')
  const start = { longitude: -69, latitude: -24 }
  expect(checkedDraft({ ...draft, start })).toMatchObject({ ...draft, start })
  expect(checkedDraft({ ...draft, back: '06:00' })).toEqual({
    wrong: 'Back: 06:00 is not after leaving at 07:30.',
  })
  expect(checkedDraft({ ...draft, leave: 'noon' })).toEqual({
    wrong: 'Leave: ‘noon’ is no time HH:MM of 24 hours.',
  })
  expect(checkedDraft({ ...draft, stop_minutes: NaN })).toEqual({
    wrong: 'Minutes at a stop: a number from 0 to 600 is expected.',
  })
  expect(checkedDraft({ ...draft, batteries: 3 })).toHaveProperty('wrong')
  expect(checkedDraft({ ...draft, pace: 5 })).toHaveProperty('wrong')
})

test('an end is a station, degrees, or a place in the working system', () => {
  const crs = openCrs('EPSG:32719')
  // PROJ: echo 473000 7243000 | cs2cs EPSG:32719 EPSG:4326 -f %.5f
  const known = [station('C07', 473000, 7243000)]
  const end = typedEnd('c07', known, crs)
  if (!('longitude' in end)) throw new Error('not in degrees')
  expect(end.longitude).toBeCloseTo(-69.26741, 5)
  expect(end.latitude).toBeCloseTo(-24.92798, 5)
  expect(typedEnd('-24.931 -69.214', known, crs)).toEqual({ longitude: -69.214, latitude: -24.931 })
  expect(() => typedEnd('nowhere', known, crs)).toThrow('No station is called ‘nowhere’.')
  expect(endWords({ longitude: -69.214, latitude: -24.931 })).toBe('−24.93100, −69.21400')
})

test('on a grid tied to nothing ends are eastings and northings', () => {
  const crs = openCrs('local:m')
  const known = [station('A1', 120, 80)]
  expect(typedEnd('A1', known, crs)).toEqual({ easting: 120, northing: 80 })
  expect(typedEnd('1250, 860', known, crs)).toEqual({ easting: 1250, northing: 860 })
  expect(() => typedEnd('1250', known, crs)).toThrow('write easting and northing')
  expect(pressedEnd([0.001, 0.002], [120.123, 80], true)).toEqual({ easting: 120.12, northing: 80 })
  expect(pressedEnd([0.00112345678, 2], [1, 1], false)).toEqual({
    longitude: 0.0011235,
    latitude: 2,
  })
  expect(endWords({ easting: 120.12, northing: 80 })).toBe('E 120.1 N 80.0')
})
