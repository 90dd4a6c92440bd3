/** The invented sample area placed from its files, against the truth that they were made from. */
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { placeScans, type Placement } from '../../src/places/place-scans'
import { readFile } from '../../src/readers/read-file'
import type { ReadScan, Table, Track } from '../../src/readers/input'

const AREA = 'sample-area'

interface Truth {
  readonly easting: number
  readonly northing: number
  readonly elevation: number
  readonly station: string
  readonly support: string
  readonly target: string
  readonly faults: string
}

const scans: ReadScan[] = []
const tables: Table[] = []
const tracks: Track[] = []
const truth = new Map<string, Truth>()
let placement: Placement

function files(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
}

beforeAll(() => {
  for (const path of [...files(`${AREA}/scans`), ...files(`${AREA}/places`)]) {
    const read = readFile({ path: relative(AREA, path), bytes: readFileSync(path) })
    scans.push(...read.scans)
    tables.push(...read.tables)
    tracks.push(...read.tracks)
  }
  const lines = readFileSync(`${AREA}/truth/scans.csv`, 'utf8').trim().split(/\r?\n/)
  const header = lines[0].split(',')
  for (const line of lines.slice(1)) {
    const cells = line.split(',')
    const cell = (name: string) => cells[header.indexOf(name)]
    truth.set(`${cell('file')} ${cell('scan')}`, {
      easting: Number(cell('easting') || NaN),
      northing: Number(cell('northing') || NaN),
      elevation: Number(cell('elevation') || NaN),
      station: cell('station'),
      support: cell('support'),
      target: cell('target'),
      faults: cell('faults'),
    })
  }
  const recipe = JSON.parse(readFileSync(`${AREA}/recipe.json`, 'utf8'))
  placement = placeScans({ scans, tables, tracks, rules: recipe.places, crs: recipe.crs })
})

test('every scan but the one whose name fits nothing has a place, near where it was taken', () => {
  expect(scans.length).toBe(truth.size)
  const far: string[] = []
  const lost: string[] = []
  scans.forEach((scan, i) => {
    const known = truth.get(`${scan.file.replace(/^scans\//, '')} ${scan.name}`)
    const station = placement.scans[i].station
    if (station === null) {
      lost.push(`${scan.file} ${scan.name}: ${placement.scans[i].unplaced}`)
      return
    }
    if (!known) far.push(`${scan.file} ${scan.name} is not in the truth`)
    else if (Number.isFinite(known.easting)) {
      const { easting, northing } = placement.stations[station].position
      const miss = Math.hypot(easting - known.easting, northing - known.northing)
      if (miss > 12) far.push(`${scan.file} ${scan.name} ${miss.toFixed(1)} m`)
    }
  })
  expect(far).toEqual([])
  // Three scans of a sample that stands in no table, put there on purpose.
  expect(lost.length).toBe(3)
  for (const words of lost) expect(words).toMatch(/no row of samples\.csv is called ‘C99’; nearest/)
  expect(placement.questions).toEqual([])
  expect(placement.problems.length).toBe(3)
})

test('scans of one truth station are one station, and of two are two', () => {
  const seen = new Map<number, string>()
  const back = new Map<string, number>()
  const wrong: string[] = []
  scans.forEach((scan, i) => {
    const known = truth.get(`${scan.file.replace(/^scans\//, '')} ${scan.name}`)
    const station = placement.scans[i].station
    if (!known || station === null) return
    const other = seen.get(station) ?? known.station
    const number = back.get(known.station) ?? station
    if (other !== known.station || number !== station) wrong.push(`${scan.name}: ${known.station}`)
    seen.set(station, other)
    back.set(known.station, number)
  })
  expect(wrong).toEqual([])
})

test('its stations are those of its samples, holes and bursts, and none is unsure', () => {
  expect(placement.stations).toHaveLength(270)
  expect(placement.grouping).toEqual({
    counts: { name: 116, time: 22, likeness: 0, hand: 0 },
    single: 86,
    untimed: 0,
    unsure: [],
  })
})

test('support and target come from header or table', () => {
  const wrong = scans.filter((scan, i) => {
    const known = truth.get(`${scan.file.replace(/^scans\//, '')} ${scan.name}`)
    const { station, target } = placement.scans[i]
    if (!known || station === null) return false
    return placement.stations[station].support !== known.support || target !== known.target
  })
  expect(wrong.map(({ file, name }) => `${file} ${name}`)).toEqual([])
})
