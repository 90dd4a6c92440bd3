/** A recipe with mistakes in it and a file of decisions: each mistake costs itself alone. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { Layers, runMap, Scratch, type Ran } from './command'
import { degreesAt, scanText } from './made-scans'

const STATIONS = 12
const scratch = new Scratch()
const out = new Layers(scratch.path('out'))
let ran: Ran

/** Stations S0 … S11, four a row; every third of alunite, the others of white mica. */
function groupOf(i: number): string {
  return i % 3 === 0 ? 'alunite' : 'white mica'
}

const symbol = { colour: '#0072B2', symbol: 'circle' }
const rare = { method: 'class-probability', cell: 50 }
const copper = { value: 'copper', method: 'inverse-distance', cell: 50, reach: 300 }
const RECIPE = {
  recipe: 1,
  indices: [
    { name: 'copper', formula: 'column("Cu_ppm")', unit: 'ppm' },
    { name: 'unclosed', formula: 'depth(2185, 2225' },
    { name: 'misspelt', formula: '1 + column("Cu_pm")' },
    { name: 'check', formula: '1' },
    { name: 'gated', formula: '1', where: 'group("white mika") > 0' },
    { name: 'leaning', formula: '[misspelt] * 2' },
  ],
  classes: [
    { name: 'broken', when: '[no such index] > 3', ...symbol },
    { name: 'alunite', when: 'group("alunite") >= 0.3', ...symbol },
    { name: 'mica', when: 'group("white mica") >= 0.3', ...symbol },
  ],
  surfaces: [
    { name: 'Cu: 1/2', ...copper },
    { name: 'CU_ 1_2', ...copper },
    { name: 'masked', ...copper, mask: { surface: 'nowhere', at_least: 0.5 } },
    { name: 'masked by a failure', ...copper, mask: { surface: 'too few', at_least: 0.5 } },
    { name: 'too few', group: 'white mica', ...rare },
    { name: 'no such group', group: 'white mika', ...rare },
    { name: 'no such class', class: 'micca', ...rare },
    { name: 'of a broken index', ...copper, value: 'misspelt' },
  ],
}

const by = { who: 'A. Tester', when: '2024-05-07T18:00:00Z', why: 'seen with a hand lens' }
const decide = (sample: string, about: object) => ({
  file: `${sample}.txt`,
  scan: sample,
  about,
  ...by,
})
const DECISIONS = {
  decisions: 1,
  list: [
    decide('S1', { kind: 'verdict', check: 'set aside' }),
    decide('S2', { kind: 'place', longitude: -69.2481, latitude: -24.8972 }),
    decide('S4', { kind: 'mineral', mineral: 'dickite' }),
    decide('S5', { kind: 'mineral', mineral: 'nothing diagnostic' }),
    decide('S7', { kind: 'mineral', mineral: 'dikite' }),
    decide('S99', { kind: 'verdict', check: 'sound' }),
    decide('S8', { kind: 'verdict', check: 'set aside' }),
    decide('S8', { kind: 'verdict', check: 'sound' }),
  ],
}

beforeAll(() => {
  const table = ['SampleID,Longitude,Latitude,Support,Cu_ppm']
  for (let i = 0; i < STATIONS; i++) {
    const { longitude, latitude } = degreesAt(100 * (i % 4), 100 * Math.floor(i / 4))
    const header = { sample: `S${i}`, longitude, latitude }
    scratch.put(`scans/S${i}.txt`, scanText({ group: groupOf(i), seed: i + 1, header }))
    table.push(`S${i},${longitude},${latitude},outcrop,${100 + 10 * i}`)
  }
  table.push('T1,-69.2470,-24.8990,outcrop,900')
  ran = runMap(
    ...['--scans', scratch.path('scans'), '--out', out.folder],
    ...['--places', scratch.put('places/assays.csv', table.join('\n'))],
    ...['--recipe', scratch.json('recipe.json', RECIPE)],
    ...['--decisions', scratch.json('decisions.json', DECISIONS)],
  )
})
afterAll(() => scratch.remove())

test('all the rest is written', () => {
  expect(ran.code).toBe(0)
  expect(out.rows('scans.csv')).toHaveLength(STATIONS)
  expect(out.rows('stations.csv')).toHaveLength(STATIONS + 1)
  const { longitude } = out.row('scans.csv', 'scan', 'S3')
  expect(longitude).toMatch(/^-69\.24/)
})

test('a table row without a scan is a station with none, and counts for a surface of its column', () => {
  expect(out.row('stations.csv', 'station', 'T1')).toMatchObject({ scans: '0', copper: '900.000' })
  const surface = out.report.surfaces.find(({ name }) => name === 'Cu: 1/2')
  expect(surface).toMatchObject({ failure: null, stations: STATIONS + 1 })
})

test('names in files: what is no letter, digit, hyphen or blank becomes a low line; a clash gets a 2', () => {
  const files = (name: string) => out.report.surfaces.find((s) => s.name === name)?.files
  expect(files('Cu: 1/2')).toEqual(
    ['tif', 'contours.geojson', 'bands.geojson'].map((end) => `Cu_ 1_2.${end}`),
  )
  expect(files('CU_ 1_2')).toEqual(
    ['tif', 'contours.geojson', 'bands.geojson'].map((end) => `CU_ 1_2 2.${end}`),
  )
  for (const name of ['Cu_ 1_2.tif', 'CU_ 1_2 2.tif']) expect(out.names).toContain(name)
})

describe('formulas', () => {
  test.each([
    ['formula of ‘unclosed’, at character 6', /bracket|\)/],
    ['formula of ‘misspelt’, at character 12', /"Cu_pm".*"Cu_ppm"/],
    ['name of ‘check’', /fixed column/],
    ['where of ‘gated’, at character 7', /"white mika".*"white mica"/],
    ['formula of ‘leaning’, at character 1', /"misspelt" has an error of its own/],
    ['when of ‘broken’, at character 1', /no such index/],
  ])('the %s is told with what is wrong', (what, why) => {
    const note = out.report.notes.find((words) => words.includes(what)) ?? ''
    expect(note).toMatch(why)
    expect(ran.complained).toContain(note)
  })

  test('those that are right have their columns, those that are wrong have none', () => {
    const columns = Object.keys(out.rows('scans.csv')[0])
    expect(columns.slice(columns.indexOf('class') + 1)).toEqual(['copper', 'copper error'])
    expect(out.row('stations.csv', 'station', 'S3').class).toBe('alunite')
    expect(out.row('stations.csv', 'station', 'S10').class).toBe('mica')
  })
})

describe('surfaces that cannot be drawn say why and have no file', () => {
  test.each([
    ['masked', /mask.*‘nowhere’, does not exist/],
    ['masked by a failure', /mask.*‘too few’, could not be computed/],
    ['too few', /at least 20 stations/],
    ['no such group', /‘white mika’/],
    ['no such class', /‘micca’/],
    ['of a broken index', /no working index ‘misspelt’/],
  ])('%s', (name, why) => {
    const surface = out.report.surfaces.find((entry) => entry.name === name)
    expect(surface?.failure).toMatch(why)
    expect(surface).toMatchObject({ files: [], grid: null })
    expect(out.names).not.toContain(`${name}.tif`)
    expect(ran.said).toMatch(new RegExp(`^${name}: not drawn.*`, 'm'))
  })
})

describe('decisions', () => {
  test('a scan set aside is named by none and counts for no station', () => {
    expect(out.row('scans.csv', 'scan', 'S1')).toMatchObject({ check: 'set aside', mineral: '' })
    expect(out.row('stations.csv', 'station', 'S1')).toMatchObject({
      scans: '0',
      class: 'not measurable',
    })
  })

  test('a place by hand stands over the file’s own', () => {
    expect(out.row('scans.csv', 'scan', 'S2')).toMatchObject({
      longitude: '-69.2481000',
      latitude: '-24.8972000',
      placed_by: 'hand',
    })
  })

  test('a mineral by hand is the scan’s mineral and decides its class', () => {
    expect(out.row('scans.csv', 'scan', 'S4')).toMatchObject({
      mineral: 'dickite',
      group: 'kaolin',
      share: '1.000',
      doubt: 'Overruled by hand.',
      class: 'unclassified',
    })
    expect(out.row('scans.csv', 'scan', 'S5')).toMatchObject({
      mineral: 'nothing diagnostic',
      class: 'unclassified',
    })
  })

  test('the last decision of a kind holds', () => {
    expect(out.row('scans.csv', 'scan', 'S8').check).toBe('sound')
  })

  test('one about an unknown mineral or scan changes nothing and is a problem', () => {
    expect(out.row('scans.csv', 'scan', 'S7')).toMatchObject({ group: 'white mica', class: 'mica' })
    expect(out.row('problems.csv', 'file', 'S7.txt').problem).toContain('‘dikite’')
    expect(out.row('problems.csv', 'file', 'S99.txt').problem).toContain('‘S99’')
  })

  test('the recipe and the decisions are inputs of the report', () => {
    const kinds = out.report.inputs.map(({ kind }) => kind)
    expect(kinds).toContain('recipe')
    expect(kinds).toContain('decisions')
  })
})
