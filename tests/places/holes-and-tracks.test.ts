import { describe, expect, test } from 'vitest'
import type { Track } from '../../src/readers/input'
import { place, scan, stationOf, table } from './made'

describe('drill holes', () => {
  const collars = table(
    'collars.csv',
    'Hole,East,North,RL',
    'H1,470000,7240000,3000',
    'H2,471000,7240000,3000',
  )
  const rules = [{ file: 'collars.csv', crs: 'EPSG:32719', name: 'Hole' }]
  const surveys = table(
    'surveys.csv',
    'Hole,Depth,Azimuth,Dip',
    'H1,0,90,-60',
    'H1,100,90,-60',
    'H9,0,0,-90',
  )

  test('a hole whose collar waits for its coordinate system is not said to lack one', () => {
    const placement = place({
      scans: [scan('c1', { Hole: 'H1', Depth: '50' })],
      tables: [collars, surveys],
      rules: [],
    })
    expect(placement.questions.map(({ file }) => file)).toEqual(['collars.csv'])
    expect(placement.scans[0].unplaced).toMatch(/H1 in collars.csv waits for its coordinate system/)
    const told = placement.problems.map(({ problem }) => problem).join('\n')
    expect(told).not.toMatch(/H1 has surveys but no collar/)
    expect(told).toMatch(/H9 has surveys but no collar/)
  })

  test('a scan by hole and depth; the hole without a survey places nothing', () => {
    const placement = place({
      scans: [
        scan('c1', { Hole: 'h1', Depth: '50' }),
        scan('c2', { Hole: 'H1', From: '49', To: '51' }),
        scan('c3', { Hole: 'H2', Depth: '10' }),
        scan('c4', { Hole: 'H3', Depth: '10' }),
      ],
      tables: [collars, surveys],
      rules,
    })
    expect(stationOf(placement, 0)).toMatchObject({
      name: 'h1 50 m',
      support: 'core',
      placedBy: 'hole',
      from: 50,
      to: 50,
    })
    const { easting, northing, elevation } = stationOf(placement, 0)?.position ?? {}
    expect(easting).toBeCloseTo(470025, 6)
    expect(northing).toBeCloseTo(7240000, 6)
    expect(elevation).toBeCloseTo(3000 - 50 * Math.sin(Math.PI / 3), 6)
    expect(placement.scans[1].how).toBe('50 m along the hole H1')
    expect(placement.scans[2].unplaced).toMatch(/H2 has a collar but no survey/)
    expect(placement.scans[3].unplaced).toMatch(/no collar table has the hole H3/)
    expect(placement.problems.map(({ problem }) => problem)).toEqual(
      expect.arrayContaining([expect.stringMatching(/hole H9 has surveys but no collar/)]),
    )
  })

  test('intervals give core scans their assays, and are stations where nobody scanned', () => {
    const placement = place({
      scans: [scan('c1', { Hole: 'H1', Depth: '12' }), scan('c2', { Hole: 'H1', Depth: '14' })],
      tables: [
        collars,
        surveys,
        table(
          'assay.csv',
          'Hole,From,To,Cu',
          'H1,10,12,1',
          'H1,12,14,2',
          'H1,14,16,3',
          'H1,16,18,4',
        ),
      ],
      rules,
    })
    expect(stationOf(placement, 0)?.columns).toEqual({ Cu: 2 })
    expect(stationOf(placement, 1)?.columns).toEqual({ Cu: 3 })
    expect(placement.stations.map(({ name, scans }) => [name, scans.length])).toEqual([
      ['H1 10-12 m', 0],
      ['H1 12 m', 1],
      ['H1 14 m', 1],
      ['H1 16-18 m', 0],
    ])
  })

  test('dips below the horizontal may be positive, and inclinations from straight down', () => {
    const ways = ['Dip,60', 'Dip,-60', 'Inclination,30', 'Inclination,-60'].map((way) => {
      const [heading, value] = way.split(',')
      return place({
        scans: [scan('c1', { Hole: 'H1', Depth: '50' })],
        tables: [
          collars,
          table('surveys.csv', `Hole,Depth,Azimuth,${heading}`, `H1,0,90,${value}`),
        ],
        rules,
      })
    })
    for (const placement of ways)
      expect(stationOf(placement, 0)?.position.easting).toBeCloseTo(470025, 6)
    expect(ways[2].problems[0].problem).toMatch(/angle from straight down/)
  })

  test('a core scan is not taken for a sample that has its hole’s name', () => {
    const placement = place({
      scans: [scan('H1-001', { Hole: 'H1', Depth: '50' })],
      tables: [
        collars,
        surveys,
        table('pads.csv', 'Sample,East_32719,North_32719', 'H1,470000,7240000'),
      ],
      rules,
    })
    expect(stationOf(placement, 0)).toMatchObject({ placedBy: 'hole', from: 50 })
  })

  test('a hole used far past its last survey is told', () => {
    const placement = place({
      scans: [scan('c', { Hole: 'H1', Depth: '150' })],
      tables: [collars, surveys],
      rules,
    })
    expect(
      placement.problems.some(({ problem }) => /50 m or more past its last survey/.test(problem)),
    ).toBe(true)
  })
})

describe('a track by time', () => {
  const track: Track = {
    file: 'day1.gpx',
    name: 'day 1',
    times: Float64Array.from([0, 60, 120], (s) => Date.UTC(2024, 4, 6, 12) / 1000 + s),
    longitudes: Float64Array.of(-69.29, -69.289, -69.288),
    latitudes: Float64Array.of(-24.9, -24.9, -24.9),
    elevations: Float64Array.of(3000, 3010, 3020),
  }

  test('with the clock’s offset, and refused without it', () => {
    const scans = [scan('s1', { time: '2024-05-06T11:37:30Z' })]
    const rules = [{ file: 'day1.gpx', clock_offset_s: 1380 }]
    const placement = place({ scans, tracks: [track], rules })
    expect(stationOf(placement, 0)).toMatchObject({
      placedBy: 'track',
      position: { elevation: 3005 },
    })
    expect(stationOf(placement, 0)?.position.longitude).toBeCloseTo(-69.2895, 9)
    expect(stationOf(placement, 0)?.position.error).toBeGreaterThan(5)
    expect(placement.scans[0].how).toBe('by time on day1.gpx, clock moved by 23 min')
    expect(place({ scans, tracks: [track] }).scans[0].unplaced).toBe(
      'its time is 23 min before the track day1.gpx; set the clock offset or place it by hand',
    )
  })

  test('a date that can be read two ways is read the way that lies on the track', () => {
    const placement = place({
      scans: [scan('s1', { time: '05/06/2024 12:00:30' })],
      tracks: [track],
    })
    expect(stationOf(placement, 0)?.placedBy).toBe('track')
  })

  test('the table goes before the track', () => {
    const placement = place({
      scans: [scan('AB014', { time: '2024-05-06T12:00:30Z' })],
      tracks: [track],
      tables: [table('samples.csv', 'Sample,East_32719,North_32719', 'AB014,470300,7240000')],
    })
    expect(stationOf(placement, 0)?.placedBy).toBe('table')
  })
})
