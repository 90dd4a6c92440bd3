import { beforeAll, describe, expect, test } from 'vitest'
import { loadEpsgTable } from '../../src/places/crs'
import { crsFromHeading, crsFromText } from '../../src/places/crs-text'
import { findRoles } from '../../src/places/headings'
import { readPlaceTable } from '../../src/places/tables'
import { place, scan, table } from './made'

beforeAll(loadEpsgTable)

describe('headings', () => {
  test.each([
    ['SampleID,East,North,RL,Support,Target', ['name', 'x', 'y', 'z', 'support', 'target']],
    ['sample_no,UTM_E,UTM_N,Elev (m)', ['name', 'x', 'y', 'z']],
    ['Muestra,Este,Norte,Cota', ['name', 'x', 'y', 'z']],
    ['Amostra,Leste,Norte,Altitude', ['name', 'x', 'y', 'z']],
    ['id,lon,lat', ['name', 'longitude', 'latitude']],
    ['Station,Longitude_WGS84,Latitude_WGS84', ['name', 'longitude', 'latitude']],
    ['Sample,East_32719,North_32719', ['name', 'x', 'y']],
    ['BHID,FROM,TO', ['hole', 'from', 'to']],
    ['HoleID,Depth,Azimuth,Dip', ['hole', 'depth', 'azimuth', 'dip']],
    ['hole id,survey depth,azi,inclination', ['hole', 'depth', 'azimuth', 'inclination']],
    ['name,E,N', ['name', 'x', 'y']],
    ['Sample,MGRS', ['name', 'position']],
    ['Sample,X,Y,Datum,Zone', ['name', 'x', 'y', 'datum', 'zone']],
  ])('%s', (header, roles) => {
    const found = findRoles(header.split(','))
    expect(
      Object.entries(found)
        .sort((a, b) => a[1] - b[1])
        .map(([role]) => role),
    ).toEqual(roles)
  })

  test('nitrogen alone is no northing', () => {
    expect(findRoles(['Sample', 'N', 'C', 'H']).y).toBeUndefined()
  })
})

describe('a system in words', () => {
  test.each([
    ['EPSG:32719', 'EPSG:32719'],
    ['32719', 'EPSG:32719'],
    ['urn:ogc:def:crs:EPSG::28355', 'EPSG:28355'],
    ['WGS 84 / UTM zone 19S', 'EPSG:32719'],
    ['WGS84 19S', 'EPSG:32719'],
    ['WGS84 UTM 33 N', 'EPSG:32633'],
    ['WGS84 19K', 'EPSG:32719'],
    ['WGS84 33U', 'EPSG:32633'],
    ['WGS84', 'EPSG:4326'],
    ['GDA94 / MGA zone 55', 'EPSG:28355'],
    ['MGA94 Zone 55', 'EPSG:28355'],
    ['MGA2020 zone 51', 'EPSG:7851'],
    ['PSAD56 UTM 19S', 'EPSG:24879'],
    ['NAD83 / UTM zone 11N', 'EPSG:26911'],
    ['OSGB36 / British National Grid', 'EPSG:27700'],
    ['local:ft', 'local:ft'],
    ['UTM 19S', null],
    ['WGS84 zone 19', null],
    ['WGS84 61S', null],
    ['mine grid', null],
    ['', null],
  ])('%s', (text, code) => {
    expect(crsFromText(text)).toBe(code)
  })

  test.each([
    ['East_32719', 'EPSG:32719'],
    ['X (EPSG:2154)', 'EPSG:2154'],
    ['E_WGS84_19S', 'EPSG:32719'],
    ['MGA2020_E', null],
    ['East', null],
    ['East 2020', null],
  ])('the heading %s', (heading, code) => {
    expect(crsFromHeading(heading)).toBe(code)
  })
})

describe('a sample table', () => {
  const rule = { file: 'samples.csv', crs: 'EPSG:32719' }

  test('cells are numbers where they read as one; below detection stays text', () => {
    const read = readPlaceTable(
      table(
        'samples.csv',
        'Sample,East,North,Cu_ppm,Au_ppb,Note',
        'A1,470000,7240000,58,<5,',
        'A2,470010,7240000,1.5e2,-1,x',
      ),
      rule,
    )
    expect(read.rows[0].columns).toEqual({ Cu_ppm: 58, Au_ppb: '<5', Note: null })
    expect(read.rows[1].columns).toEqual({ Cu_ppm: 150, Au_ppb: -1, Note: 'x' })
  })

  test('a decimal comma is a decimal comma', () => {
    const semicolons = {
      ...table('samples.csv', 'Sample'),
      header: ['Sample', 'East', 'North', 'Cu'],
      rows: [['A1', '470000,5', '7 240 000,25', '1,5']],
      lines: [2],
    }
    const [row] = readPlaceTable(semicolons, rule).rows
    expect(row.spot).toMatchObject({ x: 470000.5, y: 7240000.25 })
    expect(row.columns).toEqual({ Cu: 1.5 })
  })

  test('words for support and target, and one that is unknown', () => {
    const read = readPlaceTable(
      table(
        'samples.csv',
        'Sample,East,North,Sample type,Target',
        'A1,470000,7240000,Rock chip,Fracture coating',
        'A2,470000,7240000,slag,matrix',
      ),
      rule,
    )
    expect(read.rows[0]).toMatchObject({ support: 'outcrop', target: 'coating' })
    expect(read.rows[1]).toMatchObject({ support: null, target: 'matrix' })
    expect(read.problems).toEqual([
      {
        file: 'samples.csv',
        line: 3,
        problem: '“slag” is no support known here',
        done: 'taken as if not told',
      },
    ])
  })

  test('a column that the recipe names and the table lacks is told', () => {
    const read = readPlaceTable(table('samples.csv', 'Sample,East,North', 'A1,470000,7240000'), {
      ...rule,
      x: 'Easting_m',
    })
    expect(read.problems[0].problem).toMatch(/names the column “Easting_m”.*Sample, East, North/)
    expect(read.rows[0].spot).toMatchObject({ x: 470000 })
  })

  test('a row out of range, swapped, half empty, without a fix: each with its line', () => {
    const read = readPlaceTable(
      table(
        'g.csv',
        'Sample,Latitude,Longitude',
        'A,-24.9,-69.25',
        'B,-124.9,-24.9',
        'C,-24.9,',
        'D,0,0',
        'E,95,-200',
        "F,24°54'S,69°15'W",
      ),
      null,
    )
    expect(read.rows.map(({ spot }) => spot !== null)).toEqual([
      true,
      false,
      false,
      false,
      false,
      true,
    ])
    expect(read.rows[5].spot?.y).toBeCloseTo(-24.9, 9)
    expect(read.problems.map(({ line, problem }) => [line, problem])).toEqual([
      [3, expect.stringMatching(/seem swapped/)],
      [4, expect.stringMatching(/no number/)],
      [5, expect.stringMatching(/both 0/)],
      [6, expect.stringMatching(/beyond 180/)],
    ])
  })

  test('a hundred bad rows are twenty problems and a sum', () => {
    const rows = Array.from({ length: 100 }, (_, i) => `S${i},here,there`)
    const read = readPlaceTable(table('g.csv', 'Sample,Latitude,Longitude', ...rows), null)
    expect(read.problems.length).toBe(21)
    expect(read.problems[20].problem).toMatch(/80 more rows/)
  })
})

describe('which system a table stands in', () => {
  const row = 'A,470000,7240000'
  const first = (placement: ReturnType<typeof place>) => placement.stations[0]?.position

  test('unstated is asked, never guessed, and the rest is placed', () => {
    const placement = place({
      scans: [scan('A'), scan('B')],
      tables: [
        table('p/samples.csv', 'Sample,East,North', row),
        table('p/other.csv', 'Sample,Latitude,Longitude', 'B,-24.95,-69.29'),
      ],
    })
    expect(placement.questions).toEqual([
      {
        file: 'p/samples.csv',
        columns: ['East', 'North'],
        sample: [['470000', '7240000']],
        suggestions: [
          {
            crs: 'EPSG:32719',
            why: expect.stringMatching(/^puts the first row .* from the middle/),
          },
          { crs: 'local:m', why: 'is a grid tied to nothing' },
        ],
      },
    ])
    expect(placement.scans[0].station).toBeNull()
    expect(placement.scans[0].unplaced).toMatch(/samples\.csv waits for its coordinate system/)
    expect(placement.stations.map(({ name }) => name)).toEqual(['B'])
    expect(placement.problems.some(({ file }) => file === 'p/samples.csv')).toBe(true)
  })

  test('an explicit working system is offered first, not taken', () => {
    const placement = place({
      tables: [table('s.csv', 'Sample,East,North', row)],
      crs: 'EPSG:32719',
    })
    expect(placement.questions[0].suggestions[0]).toEqual({
      crs: 'EPSG:32719',
      why: 'is the recipe’s working system',
    })
    expect(placement.stations).toEqual([])
  })

  test('from the rule, a heading, a column, datum and zone: all the same place', () => {
    const ways = [
      place({
        tables: [table('s.csv', 'Sample,East,North', row)],
        rules: [{ file: 's.csv', crs: 'EPSG:32719' }],
      }),
      place({ tables: [table('s.csv', 'Sample,East_32719,North_32719', row)] }),
      place({ tables: [table('s.csv', 'Sample,East,North,CRS', `${row},EPSG:32719`)] }),
      place({ tables: [table('s.csv', 'Sample,East,North,Datum,Zone', `${row},WGS84,19S`)] }),
    ]
    for (const placement of ways) {
      expect(placement.crs.code).toBe('EPSG:32719')
      expect(first(placement)).toEqual(first(ways[0]))
      expect(first(placement)).toMatchObject({ easting: 470000, northing: 7240000 })
    }
    // cs2cs -f %.8f EPSG:32719 EPSG:4326, PROJ 9.1.1
    expect(first(ways[0]).latitude).toBeCloseTo(-24.955019846, 8)
    expect(first(ways[0]).longitude).toBeCloseTo(-69.297186506, 8)
  })

  test('rows with systems of their own, one of them unknown', () => {
    const placement = place({
      tables: [
        table(
          's.csv',
          'Sample,East,North,CRS',
          'A,470000,7240000,EPSG:32719',
          'B,470000,7240000,mine grid',
          'C,470000,7240000,',
        ),
      ],
    })
    expect(placement.stations.map(({ name }) => name)).toEqual(['A'])
    expect(placement.problems.map(({ line, problem }) => [line, problem])).toEqual([
      [3, '“mine grid” names no coordinate system known here: write its EPSG code'],
      [4, 'the row names no coordinate system'],
    ])
  })

  test('a projected pair without a system beside latitude and longitude is not asked about', () => {
    const placement = place({
      tables: [table('s.csv', 'Sample,East,North,Lat,Long', 'A,470000,7240000,-24.95,-69.29')],
    })
    expect(placement.questions).toEqual([])
    expect(first(placement).latitude).toBeCloseTo(-24.95, 9)
  })

  test('a grid tied to nothing has no longitude and latitude', () => {
    const ways = [
      place({ tables: [table('s.csv', 'Sample,X,Y', 'A,100,200')], crs: 'local:m' }),
      place({
        tables: [table('s.csv', 'Sample,X,Y', 'A,100,200')],
        rules: [{ file: 's.csv', crs: 'local:m' }],
      }),
    ]
    for (const placement of ways) {
      expect(placement.crs.code).toBe('local:m')
      expect(first(placement)).toMatchObject({
        easting: 100,
        northing: 200,
        longitude: null,
        latitude: null,
      })
      expect(placement.questions).toEqual([])
    }
  })

  test('one table in another datum and unit comes to the same ground', () => {
    // cs2cs EPSG:4326 → the proj4 text of EPSG:27700 in epsg.json: -3.2, 55.95 → 325160.297, 673646.563
    const placement = place({
      tables: [
        table('a.csv', 'Sample,Easting,Northing,CRS', 'A,325160.297,673646.563,EPSG:27700'),
        table('b.csv', 'Sample,Lat,Lon', 'B,55.95,-3.2'),
      ],
    })
    const [a, b] = placement.stations
    expect(placement.crs.code).toBe('EPSG:32630')
    expect(
      Math.hypot(
        a.position.easting - b.position.easting,
        a.position.northing - b.position.northing,
      ),
    ).toBeLessThan(0.01)
  })
})

test('a heading that is nearly “support” is told, for its cells would be passed over', () => {
  const rule = { file: 'samples.csv', crs: 'EPSG:32719' }
  const misspelt = table('samples.csv', 'Sample,East,North,Suport', 'A1,470000,7240000,float')
  const { problems } = readPlaceTable(misspelt, rule)
  expect(problems.map(({ problem }) => problem)).toEqual([
    'the heading “Suport” is close to “support” but is not it',
  ])
  const right = table('samples.csv', 'Sample,East,North,Support', 'A1,470000,7240000,float')
  expect(readPlaceTable(right, rule).problems).toEqual([])
  const other = table('samples.csv', 'Sample,East,North,Report', 'A1,470000,7240000,done')
  expect(readPlaceTable(other, rule).problems).toEqual([])
})

test('a name of over 1000 characters is none, and that is told', () => {
  const long = 'x'.repeat(1001)
  const { rows, problems } = readPlaceTable(
    table('samples.csv', 'Sample,Latitude,Longitude', `${long},-24,-69`, 'A1,-24,-69'),
    null,
  )
  expect(rows.map(({ name }) => name)).toEqual(['', 'A1'])
  expect(problems).toMatchObject([
    { line: 2, problem: 'a name of 1001 characters, more than 1000' },
  ])
})
