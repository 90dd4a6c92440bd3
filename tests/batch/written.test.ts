/** Fields and records in a decisions file, on the command line. */
import { afterAll, expect, test } from 'vitest'
import { Layers, runMap, Scratch } from './command'
import { degreesAt, scanText } from './made-scans'

const scratch = new Scratch()
afterAll(() => scratch.remove())

const by = { who: 'A. Tester', when: '2024-05-07T18:00:00Z', why: 'field book' }
const about = (file: string, scan: string, said: object) => ({ file, scan, about: said, ...by })

test('fields and records of a decisions file stand in tables and serve classes', () => {
  for (const [i, name] of ['S0', 'S1'].entries()) {
    const header = degreesAt(100 * i, 0)
    scratch.put(`scans/${name}.txt`, scanText({ group: 'alunite', seed: 7 + i, header }))
  }
  const table = scratch.put('samples.csv', 'Sample,Latitude,Longitude\nT9,-24.9,-69.2\n')
  const decisions = scratch.json('decisions.json', {
    decisions: 1,
    list: [
      about('S0.txt', 'S0', { kind: 'field', field: 'Block', value: 'north' }),
      about('S0.txt', 'S0', { kind: 'record', part: 'veins', value: 'looked, none seen' }),
      about('samples.csv', '', {
        kind: 'record',
        part: 'lithology',
        value: 'tuff',
        station: 'T9',
      }),
    ],
  })
  const when = 'column("Block") = "north" and column("veins") = "looked, none seen"'
  const recipe = scratch.json('recipe.json', {
    recipe: 1,
    classes: [{ name: 'bare north', when, colour: '#0072B2', symbol: 'circle' }],
  })
  const out = new Layers(scratch.path('out'))
  const given = ['--scans', scratch.path('scans'), '--places', table, '--recipe', recipe]
  const ran = runMap(...given, '--decisions', decisions, '--out', out.folder)
  expect([ran.code, ran.complained]).toEqual([0, ''])
  expect(out.row('scans.csv', 'scan', 'S0').Block).toBe('north')
  expect(out.row('stations.csv', 'station', 'S0')).toMatchObject({
    class: 'bare north',
    veins: 'looked, none seen',
    lithology: '',
  })
  expect(out.row('stations.csv', 'station', 'S1').class).not.toBe('bare north')
  expect(out.row('stations.csv', 'station', 'T9').lithology).toBe('tuff')
})
