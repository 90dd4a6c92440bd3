/** The walk's files on the command line: whatever the number of workers, as in the window, and failed. */
import { afterAll, beforeAll, expect, test } from 'vitest'
import { findFiles } from '../../src/batch/files'
import { startInlinePool } from '../../src/jobs/inline-pool'
import { planLayers } from '../../src/layers/export-all'
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { Activities } from '../../src/project/activity'
import { Chain } from '../../src/project/chain'
import { layersInput } from '../../src/project/layers-input'
import { emptyProject, NO_HOLDINGS } from '../../src/project/project'
import { readSources } from '../../src/project/reading'
import { parseRecipe } from '../../src/project/recipe'
import { Layers, runMap, Scratch } from './command'
import { degreesAt, scanText } from './made-scans'

const scratch = new Scratch()
afterAll(() => scratch.remove())

const WALK = ['traverse.csv', 'traverse.geojson', 'traverse.gpx']
const GROUPS = ['alunite', 'white mica', 'chlorite']

function recipe(traverse: object): string {
  return JSON.stringify({
    recipe: 1,
    indices: [{ name: 'level', formula: 'mean(800, 990)' }],
    surfaces: [
      {
        name: 'level',
        value: 'level',
        method: 'kriging',
        cell: 20,
        reach: 250,
        variogram: { nugget: 0.001, structures: [{ model: 'spherical', sill: 0.02, range: 400 }] },
      },
    ],
    traverse: {
      surface: 'level',
      start: { longitude: -69.2495, latitude: -24.8995 },
      ...{ leave: '07:30', back: '09:00', stop_minutes: 10, batteries: 3, battery_hours: 0.5 },
      ...{ visit: ['s4'], ...traverse },
    },
  })
}

function mapped(name: string, traverse: object, ...more: readonly string[]) {
  const out = new Layers(scratch.path(name))
  const written = scratch.put(`${name}.json`, recipe(traverse))
  const given = ['--scans', scratch.path('scans'), '--recipe', written, '--out', out.folder]
  return { out, ran: runMap(...given, ...more) }
}

beforeAll(() => {
  for (let i = 0; i < 16; i++) {
    const header = degreesAt(150 * (i % 4), 150 * Math.floor(i / 4))
    scratch.put(`scans/S${i}.txt`, scanText({ group: GROUPS[i % 3], seed: 3 + i, header }))
  }
})

test('the same bytes from one worker, from two, and from the window’s own planning', async () => {
  const one = mapped('one', {}, '--threads', '1')
  const two = mapped('two', {}, '--threads', '2')
  expect([one.ran.code, two.ran.code]).toEqual([0, 0])
  expect(one.ran.said).toMatch(
    /^Traverse: \d+ stops from 07:30 to 0[89]:\d\d, .* km on ground taken as flat\. .*falls from/m,
  )
  const pool = startInlinePool()
  // The window's files are bytes that it sends to workers.
  const found = findFiles([scratch.path('scans')], []).sources
  const sources = found.map(({ path, size, read }) => ({ path, size, read }))
  const holdings = await readSources(pool, sources, NO_HOLDINGS, {})
  const project = emptyProject('window', parseRecipe(recipe({})))
  const references = { sets: [await loadBuiltInSet()], measured: [], off: [], ranges: {} }
  const results = await new Chain(pool, references).run(project, holdings, {
    activities: new Activities(() => undefined),
    controller: new AbortController(),
    publish: () => undefined,
  })
  expect(results.traverse).toMatchObject({ state: 'ready', failure: null })
  const planned = planLayers(layersInput(project, holdings, results))
  for (const name of WALK) {
    expect(two.out.text(name)).toBe(one.out.text(name))
    const here = planned.find(({ file }) => file === name)?.write()
    expect(new TextDecoder().decode(here)).toBe(one.out.text(name))
  }
  const rows = one.out.rows('traverse.csv')
  // A station is named as it is called, not as the recipe spells it.
  expect(rows.map(({ station }) => station).filter(Boolean)).toEqual(['S4'])
  expect(rows.map(({ elevation }) => elevation).filter(Boolean)).toEqual([])
})

test('a walk that cannot be planned is a row of problems.csv, and the rest is written', () => {
  const { out, ran } = mapped('failed', { terrain: 'hill.tif' })
  expect(ran.code).toBe(0)
  expect(ran.said).toMatch(/^Traverse: not planned\. The project has no raster ‘hill.tif’/m)
  expect(out.row('problems.csv', 'file', 'recipe')).toEqual({
    file: 'recipe',
    line: '',
    problem:
      'its traverse cannot be planned: The project has no raster ‘hill.tif’; bring it in, or mend its name.',
    done: 'no walk is planned and everything else goes on; mend the recipe’s traverse',
  })
  expect(out.names.filter((name) => name.startsWith('traverse'))).toEqual([])
  expect(out.names).toContain('level.tif')
  expect(JSON.parse(out.text('report.json'))).toMatchObject({
    traverse: { failure: expect.stringContaining('hill.tif') as string, files: [] },
  })
})
