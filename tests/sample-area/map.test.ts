/**
 * The command line on the sample area, scored against the truth. Floors for an invented area
 * whose scans are made from the program's own references: no evidence of how it does on rock.
 */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { scoreChecks, scoreMica, scoreMinerals, scorePlaces } from './score'
import { rowsOf, SAMPLE_AREA, truthOfScans } from './truth'

const out = mkdtempSync(join(tmpdir(), 'sample-area-map-'))
let scans = ''

beforeAll(() => {
  const inputs = ['--scans', join(SAMPLE_AREA, 'scans'), '--places', join(SAMPLE_AREA, 'places')]
  const recipe = ['--recipe', join(SAMPLE_AREA, 'recipe.json'), '--out', out]
  execFileSync('node', ['src/batch/launch.mjs', 'map', ...inputs, ...recipe], { stdio: 'pipe' })
  scans = readFileSync(join(out, 'scans.csv'), 'utf8')
})
afterAll(() => rmSync(out, { recursive: true, force: true }))

test('every scan of the truth is in scans.csv, once', () => {
  expect(rowsOf(scans).length).toBe(truthOfScans().length)
  expect(scorePlaces(scans).placed + scorePlaces(scans).unplaced.length).toBe(truthOfScans().length)
})

test('only the name that no table has stays unplaced; all else stands within 5 m', () => {
  const { unplaced, largest } = scorePlaces(scans)
  expect(unplaced).toEqual(['C99_1', 'C99_2', 'C99_3'])
  expect(largest).toBeLessThan(5)
})

test('at least 90 % of sound scans get the right main mineral', () => {
  const score = scoreMinerals(scans)
  console.log(`main mineral right in ${score.right} of ${score.scans}`, score.wrong)
  expect(score.scans).toBeGreaterThan(360)
  expect(score.accuracy).toBeGreaterThanOrEqual(0.9)
})

test('each fault that a check can see is doubted, and hardly a sound scan', () => {
  const { faults, sound } = scoreChecks(scans)
  for (const fault of [
    'stale white reference',
    'detector step',
    'wet sample',
    'panel',
    'duplicate',
  ]) {
    expect(faults[fault].doubted / faults[fault].scans, fault).toBeGreaterThanOrEqual(0.9)
  }
  expect(sound.doubted / sound.scans).toBeLessThan(0.02)
})

test('the white mica surface: RMSE ≤ 3 nm, bias ≤ 1 nm, nothing over the alunite core', async () => {
  const score = await scoreMica(join(out, 'mica.tif'))
  console.log('white mica surface', score)
  expect(score.rmse).toBeLessThanOrEqual(3)
  expect(Math.abs(score.bias)).toBeLessThanOrEqual(1)
  expect(score.overCore).toBe(0)
  expect(score.covered).toBeGreaterThan(0.4)
})

test('every class of the recipe is found somewhere', () => {
  const stations = rowsOf(readFileSync(join(out, 'stations.csv'), 'utf8'))
  const found = new Set(stations.map((station) => station.class))
  const recipe = JSON.parse(readFileSync(join(SAMPLE_AREA, 'recipe.json'), 'utf8')) as {
    classes: { name: string }[]
  }
  for (const { name } of recipe.classes) expect(found).toContain(name)
})

test('the report says how stations visited again repeat themselves, as the tables have it', () => {
  const { revisited } = JSON.parse(readFileSync(join(out, 'report.json'), 'utf8'))
  const again = new Set(
    truthOfScans().flatMap(({ scan, station }) => (/_4$/.test(scan) ? station : [])),
  )
  expect(revisited.stations).toBe(again.size)
  const name = 'white mica position'
  const position = revisited.indices.find(({ index }: { index: string }) => index === name)
  // By pairs, Σ d²/2n, from the means of the first three scans and of the last three.
  const values = rowsOf(scans).filter((row) => again.has(row.station) && row.check === 'sound')
  const pairs = [...again].flatMap((station) => {
    const mean = (late: boolean) => {
      const own = values.filter(
        (row) => row.station === station && row.scan > `${station}_3` === late,
      )
      const known = own.flatMap((row) => (row[name] === '' ? [] : Number(row[name])))
      return known.reduce((sum, value) => sum + value, 0) / known.length
    }
    const difference = mean(true) - mean(false)
    return Number.isNaN(difference) ? [] : [difference]
  })
  expect(position.stations).toBe(pairs.length)
  const deviation = Math.sqrt(pairs.reduce((sum, d) => sum + d * d, 0) / (2 * pairs.length))
  // The table's values are rounded.
  expect(position.deviation).toBeCloseTo(deviation, 2)
})
