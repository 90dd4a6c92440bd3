/** The sample area as it stands in the repo: complete, small, and the script's own work. */
import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { makeSampleArea, type MadeFile } from '../../sample-area/make/area'
import { rowsOf, SAMPLE_AREA, truthOfFaults, truthOfScans, zoneCodes } from './truth'

let made: MadeFile[] = []
beforeAll(() => {
  made = makeSampleArea()
})

function read(path: string): string {
  return readFileSync(join(SAMPLE_AREA, path), 'utf8')
}

function filesIn(folder: string): string[] {
  return readdirSync(join(SAMPLE_AREA, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(SAMPLE_AREA.length + 1))
    .map((path) => path.replaceAll('\\', '/'))
}

test('the script makes the very bytes that stand in the repo, and nothing else stands there', () => {
  const differing = made.filter(
    ({ path, content }) => !readFileSync(join(SAMPLE_AREA, path)).equals(content),
  )
  expect(differing.map(({ path }) => path)).toEqual([])
  const standing = ['scans', 'places', 'ground', 'truth'].flatMap(filesIn)
  const written = made.map(({ path }) => path).filter((path) => path.includes('/'))
  expect(standing.sort()).toEqual(written.sort())
})

test('everything together takes at most 12 MB', () => {
  const bytes = filesIn('.').reduce((sum, path) => sum + statSync(join(SAMPLE_AREA, path)).size, 0)
  expect(bytes).toBeLessThanOrEqual(12e6)
})

test('at least 360 scans, each with its truth and its file', () => {
  const truths = truthOfScans()
  expect(truths.length).toBeGreaterThanOrEqual(360)
  expect(new Set(truths.map(({ scan, file }) => `${file} ${scan}`)).size).toBe(truths.length)
  const files = new Set(truths.map(({ file }) => `scans/${file}`))
  expect([...files].sort()).toEqual(filesIn('scans').sort())
  for (const truth of truths) {
    expect(truth.main, truth.scan).not.toBe('')
    expect(truth.accepted.split(';'), truth.scan).toContain(truth.main)
    expect(zoneCodes().has(truth.zone), truth.scan).toBe(true)
    expect(truth['white_mica_position'] !== '', truth.scan).toBe(Number(truth['white mica']) > 0)
  }
})

test('parts by mass sum to 1 but for the panel, which is no rock', () => {
  const names =
    'host,sulfide,alunite,pyrophyllite,dickite,kaolinite,white mica,chlorite,epidote,calcite,goethite,hematite,jarosite'
  for (const truth of truthOfScans()) {
    const sum = names.split(',').reduce((total, name) => total + Number(truth[name]), 0)
    expect(sum, truth.scan).toBeCloseTo(truth.faults.includes('panel') ? 0 : 1, 2)
  }
})

test('every zone and every fault of the issue is there', () => {
  const truths = truthOfScans()
  expect(new Set(truths.map(({ zone }) => zone))).toEqual(new Set(zoneCodes().keys()))
  expect(new Set(truthOfFaults().map(({ fault }) => fault))).toEqual(
    new Set([
      'stale white reference',
      'detector step',
      'wet sample',
      'panel',
      'duplicate',
      'name without sample',
      'clock off',
    ]),
  )
  const mains = new Set(truths.map(({ main }) => main))
  for (const mineral of [
    'alunite',
    'pyrophyllite',
    'dickite',
    'kaolinite',
    'muscovite',
    'epidote',
    'calcite',
  ]) {
    expect(mains).toContain(mineral)
  }
  expect(mains).toContain('nothing diagnostic')
})

test('the stale white reference lasts over an hour', () => {
  const stale = truthOfFaults().filter(({ fault }) => fault === 'stale white reference')
  const minutes = stale.map(({ size }) => Number(size))
  expect(Math.max(...minutes)).toBeGreaterThan(60)
  expect(Math.min(...minutes)).toBeGreaterThan(15)
})

test('the duplicate is a copy to the byte', () => {
  const { file, detail } = truthOfFaults().filter(({ fault }) => fault === 'duplicate')[0]
  expect(read(`scans/${file}`)).toBe(read(`scans/${detail.replace('a copy of ', '')}`))
})

test('the unlisted name stands in no table, all other names of its days do', () => {
  const samples = new Set(rowsOf(read('places/samples.csv')).map(({ SampleID }) => SampleID))
  const byName = truthOfScans().filter(({ station }) => /^[CDEF]\d/.test(station))
  const missing = new Set(byName.map(({ station }) => station).filter((name) => !samples.has(name)))
  expect([...missing]).toEqual(['C99'])
})

test('the sample table has assays below detection, soils without a scan, and cover', () => {
  const rows = rowsOf(read('places/samples.csv'))
  expect(rows.filter(({ Au_ppb }) => Au_ppb === '<5').length).toBeGreaterThan(10)
  const scanned = new Set(truthOfScans().map(({ station }) => station))
  const bare = rows.filter(({ SampleID }) => !scanned.has(SampleID))
  expect(bare.length).toBeGreaterThan(20)
  expect(new Set(bare.map(({ Support }) => Support))).toEqual(new Set(['soil']))
  expect(new Set(rows.map(({ Support }) => Support))).toEqual(new Set(['outcrop', 'float', 'soil']))
  expect(new Set(rows.map(({ Target }) => Target)).size).toBeGreaterThan(2)
})

test('each layout has its scans', () => {
  const count = (folder: string) =>
    truthOfScans().filter(({ file }) => file.startsWith(folder)).length
  expect(count('day-1')).toBe(66)
  expect(count('day-2')).toBe(77)
  expect(count('day-3')).toBe(87)
  expect(count('day-4')).toBe(81)
  expect(count('day-5')).toBe(66)
  expect(count('day-6')).toBe(66)
  expect(count('core')).toBe(85)
})

test('it says that it is invented wherever it speaks', () => {
  const about = JSON.parse(read('about.json')) as { name: string; statement: string }
  expect(about.statement).toContain('invented scenario, invented data')
  expect(read('README.md')).toContain('invented scenario, invented data')
  expect(read('ground/geology.geojson')).toContain(about.statement)
  expect(read('places/day1.gpx')).toContain('invented')
  expect(read('scans/day-2/B01_1.txt')).toContain('invented')
})
