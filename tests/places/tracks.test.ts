import { describe, expect, test } from 'vitest'
import { distance, placeOnTrack, spanOf } from '../../src/places/tracks'
import type { Track } from '../../src/readers/input'

/** Fixes as [seconds, longitude, latitude, elevation]. */
function track(...fixes: [number, number, number, number][]): Track {
  const column = (i: number) => Float64Array.from(fixes, (fix) => fix[i])
  return {
    file: 'walk/day1.gpx',
    name: 'day 1',
    times: column(0),
    longitudes: column(1),
    latitudes: column(2),
    elevations: column(3),
  }
}

const straight = track([1000, -69.25, -24.9, 3000], [1060, -69.249, -24.899, 3010])

describe('a track by time', () => {
  test('halfway in time on a straight leg is halfway along', () => {
    const place = placeOnTrack(straight, 1030)
    expect(place).toMatchObject({ elevation: 3005 })
    if ('refused' in place) throw new Error(place.refused)
    expect(place.longitude).toBeCloseTo(-69.2495, 12)
    expect(place.latitude).toBeCloseTo(-24.8995, 12)
  })

  test('a fix itself, and both ends', () => {
    expect(placeOnTrack(straight, 1000)).toMatchObject({ longitude: -69.25, error: 5 })
    expect(placeOnTrack(straight, 1060)).toMatchObject({ longitude: -69.249 })
  })

  test('the error grows with speed and with distance from a fix', () => {
    const leg = distance(-69.25, -24.9, -69.249, -24.899)
    const place = placeOnTrack(straight, 1030)
    if ('refused' in place) throw new Error(place.refused)
    expect(place.error).toBeCloseTo(Math.hypot(5, (leg / 60) * 2, leg / 4), 9)
  })

  test('outside the track and across a gap it refuses in words', () => {
    expect(placeOnTrack(straight, 1060 + 1380)).toEqual({
      refused: '23 min after the track day1.gpx',
      away: 1380,
    })
    expect(placeOnTrack(straight, 940)).toMatchObject({ refused: '60 s before the track day1.gpx' })
    const broken = track([0, -69.25, -24.9, NaN], [600, -69.24, -24.9, NaN])
    expect(placeOnTrack(broken, 300)).toMatchObject({
      refused: 'inside a gap of 10 min and 1009 m in the track day1.gpx',
    })
    expect(placeOnTrack(track(), 0)).toMatchObject({ away: Infinity })
  })

  test('a long pause on one spot is no gap', () => {
    const lunch = track([0, -69.25, -24.9, NaN], [3600, -69.2501, -24.9, NaN])
    const place = placeOnTrack(lunch, 1800)
    expect(place).toMatchObject({ elevation: null })
    if ('refused' in place) throw new Error(place.refused)
    expect(place.longitude).toBeCloseTo(-69.25005, 9)
  })

  test('a leg across the antimeridian is not taken the long way round', () => {
    const place = placeOnTrack(track([0, 179.9999, -17, 0], [10, -179.9999, -17, 0]), 5)
    if ('refused' in place) throw new Error(place.refused)
    expect(Math.abs(place.longitude)).toBeCloseTo(180, 9)
  })
})

// One degree of a meridian on the sphere of GRS 80's mean radius.
test('distance', () => {
  expect(distance(0, 0, 0, 1)).toBeCloseTo((6371008.8 * Math.PI) / 180, 3)
})

test('spans in words', () => {
  expect([45, 1380, 11400, 259200].map(spanOf)).toEqual(['45 s', '23 min', '3 h 10 min', '3 days'])
})
