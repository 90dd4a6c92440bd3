import { describe, expect, test } from 'vitest'
import { place, scan, stationOf, table } from './made'

const RULES = [{ file: 'samples.csv', crs: 'EPSG:32719' }]
const SAMPLES = table(
  'p/samples.csv',
  'Sample,East,North,RL,Support,Target,Cu',
  'AB010,470000,7240000,3000,outcrop,vein,10',
  'AB012,470100,7240000,3010,float,,<5',
  'ab 013,470200,7240000,,,,30',
  'AB014,470300,7240000,,soil,,40',
)

describe('a sample table by name', () => {
  const placement = place({
    scans: ['AB012', 'ab012_1', 'AB012-a', 'AB012.003', 'AB 013', 'AB01200004', 'AB1O'].map(
      (name) => scan(name),
    ),
    tables: [SAMPLES],
    rules: RULES,
  })

  test('replicates of a sample form one station, and how they matched is told', () => {
    expect(placement.crs.code).toBe('EPSG:32719')
    expect(stationOf(placement, 0)).toMatchObject({
      name: 'AB012',
      support: 'float',
      placedBy: 'table',
      scans: [0, 1, 2, 3, 5],
      columns: { Cu: '<5' },
      position: { easting: 470100, northing: 7240000, elevation: 3010, error: null },
    })
    expect(placement.scans.slice(0, 6).map(({ how }) => how)).toEqual([
      'line 3 of samples.csv',
      'line 3 of samples.csv without ‘_1’',
      'line 3 of samples.csv without ‘-a’',
      'line 3 of samples.csv without ‘.003’',
      'line 4 of samples.csv, upper and lower case aside',
      'line 3 of samples.csv without ‘00004’',
    ])
  })

  test('a scan that nothing names says what to do', () => {
    expect(placement.scans[6]).toMatchObject({ station: null, target: 'matrix' })
    expect(placement.scans[6].unplaced).toBe(
      'no row of samples.csv is called ‘AB1O’; nearest names: AB010, AB012, AB014',
    )
  })

  test('rows without a scan are stations without scans, in natural order', () => {
    expect(placement.stations.map(({ name, scans }) => [name, scans.length])).toEqual([
      ['AB010', 0],
      ['AB012', 5],
      ['AB014', 0],
      ['ab 013', 1],
    ])
    expect(placement.stations[0].columns).toEqual({ Cu: 10 })
    expect(placement.stations[2].support).toBe('soil')
  })

  test('without anything to place by, the words say so', () => {
    const bare = place({ scans: [scan('X1')] })
    expect(bare.stations).toEqual([])
    expect(bare.scans[0].unplaced).toMatch(/^nothing gives it a place: .* or place it by hand$/)
  })

  test('the exact name wins over the stem, and the header’s sample over the scan’s name', () => {
    const both = place({
      scans: [scan('A_1'), scan('spot7', { sample: 'A' })],
      tables: [table('samples.csv', 'Sample,East,North', 'A,470000,7240000', 'A_1,470500,7240000')],
      rules: RULES,
    })
    expect(stationOf(both, 0)?.name).toBe('A_1')
    expect(stationOf(both, 1)?.name).toBe('A')
  })

  test('a name that stands many times is one problem, and many such names are counted', () => {
    const many = Array.from({ length: 100_000 }, (_, i) => `S1,${470000 + (i % 50)},7240000`)
    const { problems } = place({
      tables: [table('p/samples.csv', 'Sample,East,North', ...many)],
      rules: RULES,
    })
    expect(problems.filter(({ file }) => file === 'p/samples.csv')).toEqual([
      {
        file: 'p/samples.csv',
        line: 3,
        problem:
          '‘S1’ stands in the table 99999 times more, from line 3 on; the first is on line 2, up to 49 m away',
        done: 'line 2 is used; rename or delete the others',
      },
    ])
    const pairs = Array.from({ length: 60 }, (_, i) => `S${i >> 1},470000,7240000`)
    const told = place({
      tables: [table('p/samples.csv', 'Sample,East,North', ...pairs)],
      rules: RULES,
    }).problems
    expect(told).toHaveLength(21)
    expect(told[20].problem).toMatch(/^10 more rows with the same trouble: their names stand/)
  })

  test('a name that stands twice is told with both lines; the first is used', () => {
    const twice = place({
      scans: [scan('A')],
      tables: [table('samples.csv', 'Sample,East,North', 'A,470000,7240000', 'a,470000,7240350')],
      rules: RULES,
    })
    expect(stationOf(twice, 0)?.position.northing).toBe(7240000)
    expect(twice.problems).toMatchObject([
      {
        file: 'samples.csv',
        line: 3,
        problem: expect.stringMatching(/first is on line 2, 350 m away/),
      },
    ])
  })

  test('assays in a table of their own join by name, and the target comes from the row', () => {
    const joined = place({
      scans: [scan('AB010_2')],
      tables: [
        SAMPLES,
        table('assays.csv', 'SampleID,Au_ppb,Cu', 'AB010,7,11', 'AB014,<5,', 'ZZ,1,1'),
      ],
      rules: RULES,
    })
    expect(stationOf(joined, 0)?.columns).toEqual({ Cu: 10, Au_ppb: 7 })
    expect(joined.scans[0].target).toBe('vein')
    expect(joined.stations.find(({ name }) => name === 'AB014')?.columns).toEqual({
      Cu: 40,
      Au_ppb: '<5',
    })
    expect(joined.stations.some(({ name }) => name === 'ZZ')).toBe(false)
  })
})

describe('coordinates in the file’s own header', () => {
  const at = (latitude: number, longitude: number) => ({
    Latitude: `${latitude}`,
    Longitude: `${longitude}`,
  })

  test('they win over the table, which still gives the columns; a disagreement is told', () => {
    const placement = place({
      scans: [scan('AB012_1', at(-24.955, -69.29))],
      tables: [SAMPLES],
      rules: RULES,
    })
    expect(stationOf(placement, 0)).toMatchObject({
      name: 'AB012',
      placedBy: 'file',
      columns: { Cu: '<5' },
    })
    expect(placement.problems.map(({ problem }) => problem)).toEqual([
      expect.stringMatching(
        /the header of ‘AB012_1’ and line 3 of samples\.csv put it \d+ m apart/,
      ),
    ])
  })

  test('three scans on a spot are one station at their mean; the same stem elsewhere is another', () => {
    const placement = place({
      scans: [
        scan('day_1', at(-24.955, -69.29)),
        scan('day_2', at(-24.95502, -69.29)),
        scan('day_3', at(-24.96, -69.29)),
      ],
    })
    expect(placement.stations.map(({ name, scans }) => [name, scans])).toEqual([
      ['day_1', [0, 1]],
      ['day_3', [2]],
    ])
    expect(placement.stations[0].position.latitude).toBeCloseTo(-24.95501, 8)
  })

  test('easting and northing with a stated system; without one it is asked about', () => {
    const projected = { Easting: '470000', Northing: '7240000' }
    const stated = place({
      scans: [scan('A', { ...projected, CRS: 'EPSG:32719', Elevation: '3000 m' })],
    })
    expect(stationOf(stated, 0)?.position).toMatchObject({ easting: 470000, elevation: 3000 })
    const unstated = place({ scans: [scan('A', projected), scan('B', projected)] })
    expect(unstated.questions).toMatchObject([{ file: 'scans/', columns: ['easting', 'northing'] }])
    expect(unstated.scans[0].unplaced).toMatch(/no coordinate system/)
    const ruled = place({
      scans: [scan('A', projected)],
      rules: [{ file: 'scans/', crs: 'EPSG:32719' }],
    })
    expect(stationOf(ruled, 0)?.position.northing).toBe(7240000)
  })

  test('a position in one text, and an MGRS reference with the error of its square', () => {
    const placement = place({
      scans: [scan('A', { Position: '-24.955, -69.29' }), scan('B', { MGRS: '19J DN 70 40' })],
    })
    expect(stationOf(placement, 0)?.position.latitude).toBeCloseTo(-24.955, 9)
    expect(stationOf(placement, 1)?.position.error).toBeCloseTo(1000 / Math.sqrt(6), 9)
  })

  test('zeros of a receiver without a fix are no place, nonsense is told', () => {
    const placement = place({ scans: [scan('A', at(0, 0)), scan('B', at(-124, -69))] })
    expect(placement.scans[0].unplaced).toMatch(/nothing gives it a place/)
    expect(placement.scans[1].unplaced).toMatch(
      /header’s coordinates cannot be used: .*latitude 124 is beyond 90°; the two seem swapped/,
    )
  })
})

describe('by hand', () => {
  test('stands over all else', () => {
    const placement = place({
      scans: [scan('AB012'), scan('Q')],
      tables: [SAMPLES],
      rules: RULES,
      hand: [
        { scan: 0, place: { longitude: -69.3, latitude: -24.9 }, target: 'cut', support: 'chips' },
        { scan: 1, place: { longitude: -69.3, latitude: -24.9 }, station: 'AB012' },
      ],
    })
    expect(stationOf(placement, 0)).toMatchObject({
      placedBy: 'hand',
      support: 'chips',
      scans: [0, 1],
    })
    expect(placement.scans[0].target).toBe('cut')
    expect(placement.scans[1].how).toBe('by hand')
  })

  test('a station by name: a row’s, one that other scans make, or a new one', () => {
    const at = { Latitude: '-24.95', Longitude: '-69.29' }
    const placement = place({
      scans: [
        scan('Q'),
        scan('spot_1', at),
        scan('spot_2', at),
        scan('R'),
        scan('AB010'),
        scan('S'),
      ],
      tables: [SAMPLES],
      rules: RULES,
      hand: [
        { scan: 0, station: 'ab012' },
        { scan: 3, station: 'spot' },
        { scan: 4, station: 'north wall' },
        { scan: 5, station: 'nowhere' },
      ],
    })
    expect(stationOf(placement, 0)).toMatchObject({ name: 'AB012', columns: { Cu: '<5' } })
    expect(stationOf(placement, 3)).toMatchObject({ name: 'spot', scans: [1, 2, 3] })
    expect(stationOf(placement, 4)).toMatchObject({
      name: 'north wall',
      position: { easting: 470000 },
    })
    expect(placement.scans[5].unplaced).toMatch(/no row of samples\.csv/)
  })
})

describe('suspicions', () => {
  test('a station more than 100 km from the median is told with its line; swapped ones are named', () => {
    const placement = place({
      tables: [
        table(
          'g.csv',
          'Sample,Latitude,Longitude',
          'A,-24.90,-69.29',
          'B,-24.91,-69.29',
          'C,-24.92,-69.28',
          'D,-69.29,-24.90',
          'E,-34.9,-69.29',
        ),
      ],
    })
    expect(placement.problems).toEqual([
      {
        file: 'g.csv',
        line: 5,
        problem: expect.stringMatching(/‘D’ lies \d+ km from the median/),
        done: 'kept where it stands; latitude and longitude seem swapped: exchange them',
      },
      {
        file: 'g.csv',
        line: 6,
        problem: expect.stringMatching(/‘E’ lies 1\d{3} km/),
        done: expect.stringMatching(/check its coordinates/),
      },
    ])
  })
})

test('twenty thousand scans with two thousand samples, the same whatever their order', () => {
  const rows = Array.from(
    { length: 2000 },
    (_, i) => `S${i},${470000 + 20 * (i % 50)},${7240000 + 20 * Math.floor(i / 50)}`,
  )
  const samples = table('samples.csv', 'Sample,East,North', ...rows)
  const scans = Array.from({ length: 20_000 }, (_, i) =>
    scan(`S${i % 2100}_${Math.floor(i / 2100)}`),
  )
  const placement = place({ scans, tables: [samples], rules: RULES })
  expect(placement.stations.length).toBe(2000)
  expect(placement.scans.filter(({ station }) => station === null).length).toBe(900)
  const turned = place({ scans: [...scans].reverse(), tables: [samples], rules: RULES })
  expect(turned.stations.map(({ name, position }) => [name, position])).toEqual(
    placement.stations.map(({ name, position }) => [name, position]),
  )
})

test('rows on another grid than the working one are told, and make no stations', () => {
  const placement = place({
    tables: [
      table('a.csv', 'Sample,X,Y', 'A,100,200', 'B,100,300'),
      table('b.csv', 'Sample,Lat,Lon', 'C,-24.95,-69.29'),
    ],
    rules: [{ file: 'a.csv', crs: 'local:ft' }],
  })
  expect(placement.stations.map(({ name }) => name)).toEqual(['C'])
  expect(placement.problems).toEqual([
    {
      file: 'a.csv',
      line: 2,
      problem:
        '2 rows with places in local grid in ft, which nothing ties to WGS 84 / UTM zone 19S',
      done: 'no stations were made of them; choose another working system, or state where the grid lies',
    },
  ])
})
