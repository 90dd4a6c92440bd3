/** What people write of scans and stations: fields, records, structures; kept, usable, taken back. */
import { beforeEach, describe, expect, test } from 'vitest'
import { planLayers } from '../../src/layers/export-all'
import type { DecisionAbout } from '../../src/project/decisions'
import { parseDecisions, writeDecisions } from '../../src/project/decisions'
import { fieldNameFault } from '../../src/project/field-names'
import { ShelfKeeper } from '../../src/project/keeper'
import { layersInput } from '../../src/project/layers-input'
import type { InputSource } from '../../src/project/reading'
import type { Results } from '../../src/project/results'
import { structureWords, trueAzimuth } from '../../src/project/structures'
import { Workspace } from '../../src/project/workspace'
import { rowsOf } from '../sample-area/truth'
import { CountingPool, THREE } from './pools'
import { MemoryShelf } from './shelves'

const decision = (about: object, file = 'a.txt', scan = 'a') => ({
  file,
  scan,
  about,
  who: 'A. Tester',
  when: '2024-05-07T18:00:00Z',
  why: 'seen',
})
const parse = (about: object) =>
  parseDecisions(JSON.stringify({ decisions: 1, list: [decision(about)] }))

describe('decisions', () => {
  const plane = { what: 'vein', form: 'plane', dip: 60, dip_direction: 350, declination: 3.5 }
  const line = { what: 'striae', form: 'line', trend: 10, plunge: 25, declination: 0 }
  const core = { what: 'vein', form: 'core', alpha: 40, beta: 200, reference: 'bottom' }

  test.each([
    { kind: 'field', field: 'Block', value: 'north 4' },
    { kind: 'field', field: 'sample', value: '' },
    { kind: 'field', field: 'time', value: '2024-05-07T14:30-04:00' },
    { kind: 'field', field: 'white reference', value: '14:20' },
    { kind: 'field', field: 'depth', value: '120–121.5' },
    { kind: 'station', station: '' },
    { kind: 'target', target: '' },
    { kind: 'support', support: '' },
    { kind: 'record', part: 'lithology', value: 'andesite' },
    { kind: 'record', part: 'veins', value: 'looked, none seen', station: 'S1' },
    { kind: 'minerals seen', minerals: { quartz: true, pyrite: false } },
    { kind: 'structures', structures: [plane, line, core] },
  ])('%j comes back as it was written', (about) => {
    const read = parse(about)
    expect(read.list[0].about).toEqual(about)
    expect(parseDecisions(writeDecisions(read))).toEqual(read)
  })

  test.each([
    [{ kind: 'field', field: 'mineral', value: 'x' }, /about\.field.*fixed column of scans\.csv/],
    [{ kind: 'field', field: 'time', value: '05/06/2024 14:30' }, /about\.value.*no certain date/],
    [{ kind: 'field', field: 'white reference', value: 'noon' }, /about\.value.*no certain date/],
    [{ kind: 'field', field: 'depth', value: '121–120' }, /about\.value.*no depth: write metres/],
    [{ kind: 'field', field: 'scan probe', value: 'x' }, /about\.field.*set the field ‘probe’/],
    [{ kind: 'field', field: 'lithology', value: 'x' }, /about\.field.*station’s record/],
    [{ kind: 'field', field: ' x', value: 'x' }, /about\.field.*begins or ends with a blank/],
    [{ kind: 'record', part: 'rock', value: 'x' }, /about\.part.*none of lithology/],
    [{ kind: 'minerals seen', minerals: { quartz: 'yes' } }, /minerals\.quartz: true or false/],
    [
      { kind: 'structures', structures: [{ ...plane, dip: 91 }] },
      /dip: 91 is not between 0 and 90/,
    ],
    [
      { kind: 'structures', structures: [{ ...plane, dip_direction: -1 }] },
      /dip_direction: -1 is not between 0 and 360/,
    ],
    [{ kind: 'structures', structures: [{ ...line, plunge: 95 }] }, /plunge: 95/],
    [{ kind: 'structures', structures: [{ ...core, beta: 361 }] }, /beta: 361/],
    [
      {
        kind: 'structures',
        structures: [{ what: 'vein', form: 'plane', dip: 1, dip_direction: 2 }],
      },
      /‘declination’ is missing/,
    ],
    [{ kind: 'structures', structures: [{ ...core, declination: 1 }] }, /declination: no such key/],
  ])('%j is refused', (about, why) => {
    expect(() => parse(about)).toThrow(why)
  })
})

test('an azimuth from magnetic north becomes one from true north by adding the declination east', () => {
  // 350° read where magnetic north lies 15° east of true north is 5°; 3° read with 10° west is 353°.
  expect([trueAzimuth(350, 15), trueAzimuth(3, -10), trueAzimuth(360, 0)]).toEqual([5, 353, 0])
  expect(
    structureWords({ what: 'vein', form: 'plane', dip: 60, dip_direction: 350, declination: 15 }),
  ).toBe('vein 60° to 5°')
})

test('names of fields that other columns have are refused, others not', () => {
  expect(['Block', 'Bench level', 'dip angle'].map(fieldNameFault)).toEqual([null, null, null])
  for (const name of ['', 'SCAN', 'depth', 'seen gold', 'cu error', 'dip']) {
    expect(fieldNameFault(name), name).not.toBeNull()
  }
})

describe('in a workspace', () => {
  let workspace: Workspace
  let shelf: MemoryShelf
  const encoder = new TextEncoder()
  const source = (path: string, text: string): InputSource => {
    const bytes = encoder.encode(text)
    return { path, size: bytes.length, read: () => Promise.resolve(bytes) }
  }
  const scan = (name: string, sample: string, level: number) =>
    source(
      `${name}.txt`,
      `Sample: ${sample}\n` +
        Array.from({ length: 431 }, (_, i) => `${350 + 5 * i}\t${level + 0.0001 * i}`).join('\n'),
    )
  const TABLE =
    'Sample,Latitude,Longitude,Cu\nS1,-24.1,-69.1,40\nS2,-24.11,-69.1,50\nS3,-24.12,-69.1,60\n'

  beforeEach(async () => {
    shelf = new MemoryShelf()
    workspace = new Workspace(new CountingPool(), THREE, new ShelfKeeper(shelf))
    await workspace.addFiles([
      scan('a', 'S1', 0.3),
      scan('b', 'S1', 0.31),
      scan('c', 'S2', 0.4),
      source('samples.csv', TABLE),
    ])
  })

  const decide = async (scans: readonly string[], about: DecisionAbout) => {
    const list = scans.map((name) => decision(about, `${name}.txt`, name))
    workspace.dispatch({ do: 'decide', decisions: list as never })
    await workspace.settled()
  }
  const results = (): Results => {
    const { results: found } = workspace.snapshot
    if (!found) throw new Error('Nothing was computed.')
    return found
  }
  const table = (file: string, by: string) => {
    const { project, holdings } = workspace.snapshot
    const planned = planLayers(layersInput(project, holdings, results()))
    const text = new TextDecoder().decode(planned.find((each) => each.file === file)?.write())
    return {
      header: text.split('\r\n')[0].split(','),
      rows: new Map(rowsOf(text).map((row) => [row[by], row])),
    }
  }
  const stationOf = (name: string) => {
    const { placement, heads } = results()
    const number = placement.scans[heads.findIndex((head) => head.name === name)].station
    return number === null ? null : placement.stations[number].name
  }

  test('without any of it the files have no further column', () => {
    expect(table('scans.csv', 'scan').header.at(-1)).toBe('class')
    expect(table('stations.csv', 'station').header.at(-1)).toBe('class')
  })

  test('a field of many scans is a column, for rules and in scans.csv, and undo takes it back', async () => {
    workspace.dispatch({
      do: 'set indices',
      indices: [
        { name: 'bench', formula: 'column("Bench level") + 0 * mean(1000, 1100)', unit: 'm' },
      ],
    })
    workspace.dispatch({
      do: 'set classes',
      classes: [
        { name: 'north', when: 'column("Block") = "north"', colour: '#000000', symbol: 'circle' },
      ],
    })
    await decide(['a', 'b'], { kind: 'field', field: 'Block', value: 'north' })
    await decide(['a'], { kind: 'field', field: 'Bench level', value: '1240.5' })
    const { header, rows } = table('scans.csv', 'scan')
    expect(header.slice(-2)).toEqual(['Bench level', 'Block'])
    expect(rows.get('a')).toMatchObject({
      'Bench level': '1240.5',
      Block: 'north',
      bench: '1240.50',
    })
    expect(rows.get('c')).toMatchObject({ 'Bench level': '', Block: '' })
    expect(results().troubles).toEqual([])
    const stations = table('stations.csv', 'station').rows
    expect(stations.get('S1')).toMatchObject({ class: 'north', Block: 'north' })
    expect(stations.get('S2')?.class).not.toBe('north')
    workspace.undo()
    workspace.undo()
    await workspace.settled()
    expect(table('scans.csv', 'scan').header.at(-1)).toBe('class')
    expect(results().troubles.map(({ name }) => name)).toEqual(['bench', 'north'])
  })

  test('a field on which a station’s scans differ is empty for the station', async () => {
    await decide(['a'], { kind: 'field', field: 'Block', value: 'north' })
    await decide(['b'], { kind: 'field', field: 'Block', value: 'south' })
    expect(table('stations.csv', 'station').rows.get('S1')?.Block).toBe('')
  })

  test('a sample that is set places the scan by its row; taken back, it stands where it stood', async () => {
    expect(stationOf('b')).toBe('S1')
    await decide(['b'], { kind: 'field', field: 'sample', value: 'S2' })
    expect(stationOf('b')).toBe('S2')
    await decide(['b'], { kind: 'field', field: 'sample', value: '' })
    expect(stationOf('b')).toBe('S1')
    expect(results().heads.find(({ name }) => name === 'b')?.metadata).toEqual({ Sample: 'S1' })
  })

  test('station, target and support set by hand are taken back by an empty one', async () => {
    await decide(['b'], { kind: 'station', station: 'S2' })
    await decide(['b'], { kind: 'target', target: 'vein' })
    await decide(['c'], { kind: 'support', support: 'float' })
    const targetOf = (name: string) =>
      results().placement.scans[results().heads.findIndex((head) => head.name === name)].target
    const supportOf = (name: string) => table('stations.csv', 'station').rows.get(name)?.support
    expect([stationOf('b'), targetOf('b'), supportOf('S2')]).toEqual(['S2', 'vein', 'float'])
    await decide(['b'], { kind: 'station', station: '' })
    await decide(['b'], { kind: 'target', target: '' })
    await decide(['c'], { kind: 'support', support: '' })
    expect([stationOf('b'), targetOf('b'), supportOf('S2')]).toEqual(['S1', 'matrix', 'outcrop'])
  })

  test('scans are split out into a station of a new name, and grouped again', async () => {
    await decide(['b'], { kind: 'station', station: 'S1 vein' })
    expect([stationOf('a'), stationOf('b')]).toEqual(['S1', 'S1 vein'])
    await decide(['b'], { kind: 'station', station: 'S1' })
    expect(stationOf('b')).toBe('S1')
  })

  test('a record serves rules and files; not recorded is empty, looked and none seen is not', async () => {
    await decide(['a'], { kind: 'record', part: 'veins', value: 'looked, none seen' })
    await decide(['a'], { kind: 'minerals seen', minerals: { quartz: true, pyrite: false } })
    await decide(['a'], {
      kind: 'structures',
      structures: [
        { what: 'vein', form: 'plane', dip: 60, dip_direction: 350, declination: 3.5 },
        { what: 'fault', form: 'plane', dip: 80, dip_direction: 10, declination: 3.5 },
      ],
    })
    workspace.dispatch({
      do: 'set classes',
      classes: [
        {
          name: 'veinless',
          when: 'column("veins") = "looked, none seen" and column("seen pyrite") = "no" and column("dip") = 60',
          colour: '#000000',
          symbol: 'circle',
        },
      ],
    })
    await workspace.settled()
    expect(results().troubles).toEqual([])
    const { rows, header } = table('stations.csv', 'station')
    expect(header.slice(header.indexOf('class') + 1)).toEqual([
      'lithology',
      'weathering',
      'alteration',
      'alteration_intensity',
      'veins',
      'cover',
      'sample_ticket',
      'minerals_seen',
      'minerals_not_seen',
      'structures',
      'dip',
      'dip_direction',
      'trend',
      'plunge',
      'alpha',
      'beta',
      'note',
      'photos',
    ])
    expect(rows.get('S1')).toMatchObject({
      class: 'veinless',
      veins: 'looked, none seen',
      lithology: '',
      minerals_seen: 'quartz',
      minerals_not_seen: 'pyrite',
      structures: 'vein 60° to 353.5°; fault 80° to 13.5°',
      dip: '60',
      dip_direction: '353.5',
    })
    expect(rows.get('S2')).toMatchObject({ veins: '', minerals_not_seen: '', dip: '' })
    const { project, holdings } = workspace.snapshot
    const geojson = planLayers(layersInput(project, holdings, results())).find(
      ({ file }) => file === 'stations.geojson',
    )
    const { features } = JSON.parse(new TextDecoder().decode(geojson?.write())) as {
      features: { properties: Record<string, unknown> }[]
    }
    const byName = new Map(features.map(({ properties }) => [properties.station, properties]))
    expect(byName.get('S1')).toMatchObject({ dip_direction: 353.5, lithology: null })
    expect(byName.get('S2')).toMatchObject({ veins: null, dip: null })
  })

  test('a station without scans has a record too, and a decision about none is told of', async () => {
    const about = { kind: 'record', part: 'lithology', value: 'tuff' } as const
    workspace.dispatch({
      do: 'decide',
      decisions: [
        decision({ ...about, station: 'S3' }, 'samples.csv', '') as never,
        decision({ ...about, station: 'S9' }, 'samples.csv', '') as never,
      ],
    })
    await workspace.settled()
    expect(table('stations.csv', 'station').rows.get('S3')?.lithology).toBe('tuff')
    expect(results().problems.map(({ problem }) => problem)).toEqual([
      'a decision speaks of the station ‘S9’ of this file, which is not there',
    ])
  })

  test('all of it stands again when the project is opened anew', async () => {
    await decide(['a'], { kind: 'record', part: 'lithology', value: 'andesite' })
    await decide(['a'], { kind: 'field', field: 'Block', value: 'north' })
    workspace = new Workspace(new CountingPool(), THREE, new ShelfKeeper(shelf))
    await workspace.restore()
    await workspace.settled()
    expect(table('stations.csv', 'station').rows.get('S1')).toMatchObject({
      lithology: 'andesite',
      Block: 'north',
    })
  })
})
