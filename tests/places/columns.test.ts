/** Tables whose headings nobody foresaw: what is said of them, and what a recipe's entry mends. */
import { beforeAll, describe, expect, test } from 'vitest'
import { chosenColumns, ruleOfChoice } from '../../src/places/column-choice'
import { columnHints, ScanNames } from '../../src/places/column-hints'
import { loadEpsgTable } from '../../src/places/crs'
import { findRoles } from '../../src/places/headings'
import { withRuleChanged } from '../../src/places/rules'
import { readPlaceTable } from '../../src/places/tables'
import { place, scan, stationOf, table } from './made'

beforeAll(loadEpsgTable)

const UNKNOWN = table(
  'field/tabla.csv',
  'Ref_muestreo,Coord_1,Coord_2,Cu',
  'K1,470000,7240000,12',
  'K2,470100,7240050,15',
  'K3,470200,7240100,900',
)
const SCANS = [scan('K1_1'), scan('K1_2'), scan('k2'), scan('Q9')]

describe('a table with headings that are not known', () => {
  test('is a problem that names the file, what was not found, its headings and what to do', () => {
    const { problems, tables } = place({ scans: SCANS, tables: [UNKNOWN] })
    expect(problems[0]).toEqual({
      file: 'field/tabla.csv',
      line: 1,
      problem:
        'no column of sample names and no pair of columns of coordinates was found; its headings are Ref_muestreo, Coord_1, Coord_2, Cu',
      done: 'its rows place nothing; say which columns they are in the Places step, or under places in the recipe, such as {"file":"tabla.csv","name":"Ref_muestreo","x":"Coord_1","y":"Coord_2"}; 3 of 4 scans are named in “Ref_muestreo”; “Coord_1” and “Coord_2” hold numbers like easting and northing',
    })
    expect(tables).toEqual([
      {
        file: 'field/tabla.csv',
        kind: 'samples',
        missing: ['name', 'place'],
        betterName: null,
        trouble: problems[0],
        scansNamed: 0,
        scansPlaced: 0,
        stationsAlone: 0,
      },
    ])
  })

  test('its scans say which table waits for a word', () => {
    const { scans } = place({ scans: SCANS, tables: [UNKNOWN] })
    expect(scans[0].unplaced).toBe(
      'no column of sample names was found in tabla.csv: say which it is',
    )
  })

  test('the entry that the problem proposes, with a system, places them', () => {
    const { problems } = place({ scans: SCANS, tables: [UNKNOWN] })
    const proposed = JSON.parse(/\{.*?\}/.exec(problems[0].done)?.[0] ?? '')
    const placed = place({
      scans: SCANS,
      tables: [UNKNOWN],
      rules: [{ ...proposed, crs: 'EPSG:32719' }],
    })
    expect(stationOf(placed, 0)).toMatchObject({ name: 'K1', columns: { Cu: 12 } })
    expect(stationOf(placed, 0)?.position).toMatchObject({ easting: 470000, northing: 7240000 })
    expect(placed.tables[0]).toMatchObject({
      missing: [],
      scansNamed: 3,
      scansPlaced: 3,
      stationsAlone: 1,
    })
    expect(placed.problems.filter(({ file }) => file === 'field/tabla.csv')).toEqual([])
  })

  test('headings of a table of ten thousand columns are not all said', () => {
    const wide = Array.from({ length: 10_000 }, (_, i) => `v${i}`.padEnd(90, 'x'))
    const [{ problem }] = place({
      tables: [{ file: 'w.csv', header: wide, rows: [wide], lines: [2] }],
    }).problems
    expect(problem.length).toBeLessThan(800)
    expect(problem).toMatch(/and 9988 more$/)
  })
})

describe('the choice of columns as a form holds it', () => {
  const pairs = table('s.csv', 'Ref_x,Easting,Northing,Lat,Lon,Hole', 'A,1,2,-24.9,-69.2,n')

  test('degrees stand under x and y where they are what is read', () => {
    const found = chosenColumns(pairs, null)
    expect(found).toMatchObject({ name: '', x: 'Lon', y: 'Lat', z: '', hole: 'Hole' })
    const stated = chosenColumns(pairs, { file: 's.csv', crs: 'EPSG:32719' })
    expect(stated).toMatchObject({ x: 'Easting', y: 'Northing' })
  })

  test('the rule says only what headings do not, and reads the table as chosen', () => {
    const choice = { ...chosenColumns(pairs, null), name: 'Ref_x', hole: '' }
    const change = ruleOfChoice(pairs, null, choice)
    const [rule] = withRuleChanged([], 's.csv', change)
    expect(rule).toEqual({ file: 's.csv', name: 'Ref_x', hole: '' })
    expect(chosenColumns(pairs, rule)).toEqual(choice)
    const turned = ruleOfChoice(pairs, rule, { ...choice, x: 'Easting', y: 'Northing' })
    const [next] = withRuleChanged([rule], 's.csv', turned)
    expect(next).toEqual({ ...rule, x: 'Easting', y: 'Northing' })
    expect(readPlaceTable(pairs, next).question?.columns).toEqual(['Easting', 'Northing'])
  })
})

describe('what a table lacks', () => {
  const missing = (...lines: string[]) => readPlaceTable(table('t.csv', ...lines), null).missing
  test.each([
    ['SampleRef2x,Easting,Northing', ['name']],
    ['Sample,Easting,Cu', ['y']],
    ['Sample,Latitude,Cu', ['longitude']],
    ['Muestra,Cu', ['place']],
    ['a,b,c', ['name', 'place']],
    ['Hole,Cu,Au', ['depth']],
    ['Hole,Depth,Dip', ['azimuth']],
    ['Hole,Depth,Azimuth', ['dip']],
    ['Hole,From,To,Cu', []],
    ['Hole,Easting,Northing', []],
    ['Sample,Easting,Northing', []],
    ['Sample,MGRS', []],
  ])('%s', (header, lost) => {
    expect(missing(header, '1,2,3')).toEqual(lost)
  })

  test('a table without rows lacks nothing', () => {
    expect(missing('a,b,c')).toEqual([])
  })

  test('assays need no coordinates where another table places their samples', () => {
    const assays = table('assays.csv', 'Sample,Cu', 'K1,7')
    const places = table('places.csv', 'Sample,Lat,Lon', 'K1,-24.9,-69.2')
    const both = place({ scans: [scan('K1')], tables: [assays, places] })
    expect(both.problems).toEqual([])
    expect(both.tables.map(({ scansNamed, scansPlaced }) => [scansNamed, scansPlaced])).toEqual([
      [1, 0],
      [1, 1],
    ])
    const alone = place({ tables: [assays] })
    expect(alone.problems[0].problem).toMatch(/^no pair of columns of coordinates was found/)
  })

  test('scans named in another column than the one taken for names', () => {
    const samples = table('s.csv', 'ID,Feldname,Lat,Lon', '1,K1,-24.9,-69.2', '2,K2,-24.8,-69.2')
    const { problems, tables } = place({ scans: SCANS, tables: [samples] })
    expect(tables[0].betterName).toBe('Feldname')
    expect(problems[0].problem).toMatch(/^no scan is named in the column “ID”/)
    expect(problems[0].done).toMatch(/"name":"Feldname"\}; 3 of 4 scans are named in “Feldname”$/)
  })
})

describe('what a rule says of columns', () => {
  test('an empty heading means no column, whatever the headings say', () => {
    const read = readPlaceTable(table('s.csv', 'Sample,Hole,Easting,Northing,RL', 'A,B,1,2,3'), {
      file: 's.csv',
      crs: 'local:m',
      hole: '',
      z: '',
    })
    expect(read.problems).toEqual([])
    expect(read.rows[0]).toMatchObject({ hole: null, spot: { x: 1, y: 2, elevation: null } })
    expect(read.rows[0].columns).toEqual({ Hole: 'B', RL: 3 })
  })

  test('columns headed as degrees stay degrees when named for x and y', () => {
    const read = readPlaceTable(table('s.csv', 'Ref,Lat,Lon', 'A,-24.9,-69.2'), {
      file: 's.csv',
      name: 'Ref',
      x: 'Lon',
      y: 'Lat',
    })
    expect(read.question).toBeNull()
    expect(read.rows[0].spot).toMatchObject({ x: -69.2, y: -24.9 })
  })

  test('a change keeps what the rule said, and leaves a folder’s rule to its other files', () => {
    const folder = { file: 'field/', crs: 'EPSG:32719' }
    const made = withRuleChanged([folder], 'field/tabla.csv', { x: 'Coord_1' })
    expect(made).toEqual([folder, { file: 'field/tabla.csv', crs: 'EPSG:32719', x: 'Coord_1' }])
    const again = withRuleChanged(made, 'field/tabla.csv', { x: undefined, y: 'Coord_2' })
    expect(again[1]).toEqual({ file: 'field/tabla.csv', crs: 'EPSG:32719', y: 'Coord_2' })
    const shared = [{ file: 'tabla.csv', z: 'RL' }]
    const files = ['a/tabla.csv', 'b/tabla.csv']
    expect(withRuleChanged(shared, 'a/tabla.csv', { name: 'Ref' }, files)).toEqual([
      ...shared,
      { file: 'a/tabla.csv', z: 'RL', name: 'Ref' },
    ])
    const own = withRuleChanged([], 'a.csv', { name: 'Ref' })
    expect(withRuleChanged(own, 'a.csv', { name: undefined })).toEqual([])
  })
})

describe('what cells say of columns', () => {
  const names = new ScanNames(SCANS.map(({ name }) => [name]))

  test('counted are scans, not cells', () => {
    const { named } = columnHints(UNKNOWN, names)
    expect(named).toEqual([{ column: 0, scans: 3 }])
  })

  test.each([
    ['easting and northing', '7240000,470000,1250', { x: 1, y: 0 }],
    ['longitude and latitude', '-24.93121,-99.21444,1250', { x: 1, y: 0 }],
  ])('numbers like %s', (like, row, pair) => {
    const { coordinates } = columnHints(table('t.csv', 'a,b,c', row), names)
    expect(coordinates).toEqual({ ...pair, like })
  })

  test.each([
    ['two columns could be the easting', '470000,480000,7240000'],
    ['latitude and longitude look alike', '-24.93121,-69.21444,1'],
    ['an assay is no coordinate', '120,3500,12'],
    ['text is no number', 'east,north,up'],
  ])('nothing is proposed where %s', (_, row) => {
    expect(columnHints(table('t.csv', 'a,b,c', row), names).coordinates).toBeNull()
  })
})

describe('whole positions in one column', () => {
  const POSITIONS = {
    'grid references': ['19J DM 70000 40000', '19JDM7010040000'],
    'latitudes and longitudes': ['-24.95312 -69.29201', '24°57′10″S 69°17′24″W'],
  } as const
  const tableOf = (cells: readonly string[], heading = 'Where') => ({
    file: 'samples.csv',
    header: ['Sample', heading, 'Cu'],
    rows: cells.map((cell, i) => [`S${i}`, cell, '5']),
    lines: cells.map((_, i) => i + 2),
  })
  const names = new ScanNames([['S0'], ['S1']])

  test.each(Object.entries(POSITIONS))('%s are proposed, and told with an entry', (like, cells) => {
    const read = tableOf(cells)
    expect(columnHints(read, names).position).toEqual({ column: 1, like })
    const { problems } = place({ scans: [scan('S0'), scan('S1')], tables: [read] })
    const told = problems.find(({ file }) => file === 'samples.csv')
    expect(told?.done).toContain('{"file":"samples.csv","position":"Where"}')
    expect(told?.done).toContain(`“Where” holds ${like}`)
  })

  test.each(Object.entries(POSITIONS))('%s are read once a rule says so', (_, cells) => {
    const rules = [{ file: 'samples.csv', position: 'Where' }]
    const scans = [scan('S0'), scan('S1')]
    const placed = place({ scans, tables: [tableOf(cells)], rules })
    expect(placed.problems).toEqual([])
    for (const { position } of placed.stations) {
      expect(position.longitude).toBeCloseTo(-69.29, 1)
      expect(Math.abs(position.latitude ?? 0)).toBeGreaterThan(24.9)
    }
  })

  test('a choice of it is a rule, and choosing a pair instead takes it back', () => {
    const read = { ...tableOf(POSITIONS['grid references']), header: ['Sample', 'Where', 'Cu'] }
    const chosen = { ...chosenColumns(read, null), position: 'Where' }
    const rule = { file: read.file, ...ruleOfChoice(read, null, chosen) }
    expect(rule).toMatchObject({ position: 'Where' })
    expect(chosenColumns(read, rule)).toEqual(chosen)
    const headed = tableOf(POSITIONS['grid references'], 'Grid ref')
    expect(chosenColumns(headed, null)).toMatchObject({ position: 'Grid ref', x: '', y: '' })
    const none = { ...chosenColumns(headed, null), position: '' }
    const dropped = { file: headed.file, ...ruleOfChoice(headed, null, none) }
    expect(chosenColumns(headed, dropped)).toMatchObject({ position: '' })
  })

  test.each([
    ['intervals', ['10-20', '20-30']],
    ['dates', ['2024-05-07 10:15', '2024-05-08 11:15']],
    ['tickets', ['19A 1234', 'N12 E4']],
    ['numbers', ['12.345', '-69.123']],
  ])('%s are none', (_, cells) => {
    expect(columnHints(tableOf(cells), names).position).toBeNull()
  })
})

describe('headings in other languages (common practice, from memory)', () => {
  test.each([
    ['SampleRef,Easting,Northing', ['name', 'x', 'y']],
    ['Muestra_ID,Coord. Este,Coord. Norte,Cota', ['name', 'x', 'y', 'z']],
    ['Nº Muestra,UTM_Este,UTM_Norte', ['name', 'x', 'y']],
    ['Código da amostra,Coordenada X,Coordenada Y', ['name', 'x', 'y']],
    ['N° Échantillon,X,Y', ['name', 'x', 'y']],
    ['Probennummer,Rechtswert,Hochwert,Höhe', ['name', 'x', 'y', 'z']],
    ['Номер пробы,Широта,Долгота', ['name', 'latitude', 'longitude']],
    ['样品编号,东坐标,北坐标,高程', ['name', 'x', 'y', 'z']],
    ['Point,X_UTM_19S,Y_UTM_19S', ['name', 'x', 'y']],
    ['Taladro,Desde,Hasta', ['hole', 'from', 'to']],
    ['Bohrung,Tiefe,Azimut,Einfallen', ['hole', 'depth', 'azimuth', 'dip']],
    ['Coord_1,Coord_2', []],
  ])('%s', (header, roles) => {
    const found = Object.entries(findRoles(header.split(','))).sort((a, b) => a[1] - b[1])
    expect(found.map(([role]) => role)).toEqual(roles)
  })
})
