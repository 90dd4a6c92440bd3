/** Fields that the program knows, set by hand; and what files say of the instrument, as columns. */
import { beforeEach, expect, test } from 'vitest'
import { planLayers } from '../../src/layers/export-all'
import type { DecisionAbout } from '../../src/project/decisions'
import { ShelfKeeper } from '../../src/project/keeper'
import { layersInput } from '../../src/project/layers-input'
import type { InputSource } from '../../src/project/reading'
import type { Results } from '../../src/project/results'
import { Workspace } from '../../src/project/workspace'
import { rowsOf } from '../sample-area/truth'
import { CountingPool, THREE } from './pools'
import { MemoryShelf } from './shelves'

let workspace: Workspace

function source(path: string, text: string): InputSource {
  const bytes = new TextEncoder().encode(text)
  return { path, size: bytes.length, read: () => Promise.resolve(bytes) }
}

/** A scan file with lines above its numbers. */
function file(name: string, lines: string): InputSource {
  const rows = Array.from({ length: 431 }, (_, i) => `${350 + 5 * i}\t${0.3 + 0.0001 * i}`)
  return source(`${name}.txt`, [lines, ...rows].join('\n'))
}

beforeEach(async () => {
  workspace = new Workspace(new CountingPool(), THREE, new ShelfKeeper(new MemoryShelf()))
  await workspace.addFiles([
    file('a', 'Sample: S1'),
    file('b', 'Sample: S1'),
    source('samples.csv', 'Sample,Latitude,Longitude\nS1,-24.1,-69.1\nS3,-24.12,-69.1\n'),
  ])
})

async function decide(scans: readonly string[], about: DecisionAbout): Promise<void> {
  const signed = { who: 'A. Tester', when: '2024-05-07T18:00:00Z', why: 'seen' }
  const decisions = scans.map((scan) => ({ file: `${scan}.txt`, scan, about, ...signed }))
  workspace.dispatch({ do: 'decide', decisions })
  await workspace.settled()
}

function results(): Results {
  const { results: found } = workspace.snapshot
  if (!found) throw new Error('Nothing was computed.')
  return found
}

function table(name: string, by: string) {
  const { project, holdings } = workspace.snapshot
  const planned = planLayers(layersInput(project, holdings, results()))
  const text = new TextDecoder().decode(planned.find((each) => each.file === name)?.write())
  return {
    header: text.split('\r\n')[0].split(','),
    rows: new Map(rowsOf(text).map((row) => [row[by], row])),
  }
}

test('hole and depth, time and white reference are set over what the files say, and taken back', async () => {
  const known = () => results().heads.find(({ name }) => name === 'a')?.known
  await decide(['a', 'b'], { kind: 'field', field: 'hole', value: 'DH-7' })
  await decide(['a'], { kind: 'field', field: 'depth', value: '120–121' })
  await decide(['a'], { kind: 'field', field: 'white reference', value: '14:20' })
  expect(results().problems.map(({ problem }) => problem)).toEqual([
    'the white reference of the scan ‘a’ is set to 14:20, and no time of the scan tells the day',
  ])
  await decide(['a'], { kind: 'field', field: 'time', value: '2024-05-07T14:30-04:00' })
  expect(results().problems).toEqual([])
  expect(known()).toMatchObject({ hole: 'DH-7', depth: null, from: 120, to: 121 })
  // 14:30 and 14:20 four hours west of Greenwich.
  expect(known()?.time?.seconds).toBe(Date.UTC(2024, 4, 7, 18, 30) / 1000)
  expect(known()?.whiteReference?.seconds).toBe(Date.UTC(2024, 4, 7, 18, 20) / 1000)
  for (let i = 0; i < 3; i++) workspace.undo()
  await workspace.settled()
  expect(known()).toMatchObject({ hole: 'DH-7', depth: null, from: null, time: null })
})

test('a file’s white reference without a date is on the day of the time that is set', async () => {
  await workspace.addFiles([
    file('c', 'White reference: 14:20'),
    file('d', 'Time: 2024-05-06 14:30\nWhite reference: 14:20'),
    file('e', 'White reference: 2024-05-01 09:00'),
  ])
  const known = (scan: string) => results().heads.find(({ name }) => name === scan)?.known
  await workspace.settled()
  expect(known('c')?.whiteReference).toBeNull()
  await decide(['c', 'd', 'e'], { kind: 'field', field: 'time', value: '2024-05-07T14:30-04:00' })
  const asked = Date.UTC(2024, 4, 7, 18, 20) / 1000
  expect(known('c')?.whiteReference).toEqual({ seconds: asked, zoneStated: true })
  expect(known('d')?.whiteReference?.seconds).toBe(asked)
  // Its own date stays; the zone is the scan's.
  expect(known('e')?.whiteReference?.seconds).toBe(Date.UTC(2024, 4, 1, 13, 0) / 1000)
  await decide(['c'], { kind: 'field', field: 'white reference', value: '14:25' })
  expect(known('c')?.whiteReference?.seconds).toBe(asked + 300)
})

test('a scan is placed in the hole and at the depth that are set', async () => {
  await workspace.addFiles([
    source('collars.csv', 'Hole,Latitude,Longitude,Elevation\nDH-7,-24.2,-69.2,1900\n'),
    source('surveys.csv', 'Hole,Depth,Azimuth,Dip\nDH-7,0,0,-90\n'),
    file('z', ''),
  ])
  await workspace.settled()
  const row = () => table('scans.csv', 'scan').rows.get('z')
  expect(row()).toMatchObject({ hole: '', longitude: '' })
  await decide(['z'], { kind: 'field', field: 'hole', value: 'DH-7' })
  await decide(['z'], { kind: 'field', field: 'depth', value: '120–121' })
  expect(row()).toMatchObject({ hole: 'DH-7', depth: '120.500', latitude: '-24.2000000' })
  workspace.undo()
  await workspace.settled()
  expect(row()).toMatchObject({ longitude: '' })
})

test('what files say of the instrument is a column for rules: numbers in one unit, else text', async () => {
  await workspace.addFiles([
    file('d', 'Sample: S3\nBattery: 12.1 V\nTemperature: 21 C\nOperator: Ana'),
    file('e', 'Sample: S3\nBattery: 11,5 V\nTemperature: 70 F\nOperator: Ana'),
  ])
  workspace.dispatch({
    do: 'set indices',
    indices: [{ name: 'volts', formula: 'column("scan battery") + 0 * mean(1000, 1100)' }],
  })
  const rule = 'column("scan operator") = "Ana" and column("scan temperature") = "21 C"'
  const look = { colour: '#000000', symbol: 'circle' } as const
  workspace.dispatch({
    do: 'set classes',
    classes: [{ name: 'mild', when: rule, ...look }],
  })
  await workspace.settled()
  expect(results().troubles).toEqual([])
  const { rows, header } = table('scans.csv', 'scan')
  expect(['d', 'e', 'a'].map((name) => Number(rows.get(name)?.volts))).toEqual([12.1, 11.5, 0])
  expect(['d', 'e'].map((name) => rows.get(name)?.class)).toEqual(['mild', 'unclassified'])
  expect(header).not.toContain('scan battery')
  // Its scans differ in the temperature, so that the station has none.
  expect(table('stations.csv', 'station').rows.get('S3')?.class).not.toBe('mild')
})
