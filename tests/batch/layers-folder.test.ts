/** How layers are written: whole or not at all, the report last, earlier ones told of. */
import { existsSync, mkdirSync } from 'node:fs'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { earlierLayers, makeLayersFolder, writeLayers } from '../../src/batch/layers-folder'
import { systemWords } from '../../src/batch/system-words'
import type { PlannedFile } from '../../src/layers/export-input'
import { Layers, runMap, Scratch } from './command'
import { degreesAt, scanText } from './made-scans'

let scratch: Scratch
beforeEach(() => {
  scratch = new Scratch()
})
afterEach(() => scratch.remove())

const planned = (file: string, write: () => string): PlannedFile => ({
  file,
  name: file,
  holds: 'table',
  write: () => new TextEncoder().encode(write()),
})

describe('writeLayers', () => {
  test('stops at a file that cannot be written, with its name, and leaves no half and no report', async () => {
    const layers = new Layers(scratch.path('out'))
    await makeLayersFolder(layers.folder)
    scratch.put('out/report.json', 'of an earlier run')
    mkdirSync(layers.path('b.csv'))
    const files = ['a.csv', 'b.csv', 'report.json'].map((name) => planned(name, () => 'new'))
    await expect(writeLayers(layers.folder, files)).rejects.toThrow(
      `b.csv cannot be written to ${layers.folder}: it is a folder (EISDIR).`,
    )
    expect(layers.names).toEqual(['a.csv', 'b.csv'])
  })

  test('leaves an earlier file as it was until the new one is whole', async () => {
    const layers = new Layers(scratch.path('out'))
    scratch.put('out/a.csv', 'earlier')
    const failing = planned('a.csv', () => {
      throw new Error('no more memory')
    })
    await expect(writeLayers(layers.folder, [failing])).rejects.toThrow('no more memory')
    expect(layers.text('a.csv')).toBe('earlier')
  })
})

describe('earlierLayers', () => {
  const reported = (files: unknown) => {
    scratch.json('out/report.json', { files })
    return earlierLayers(scratch.path('out'))
  }

  test('are those that the report lists and that are there', async () => {
    scratch.put('out/a.csv', '')
    mkdirSync(scratch.path('out/folder'))
    scratch.put('b.csv', '')
    const listed = ['a.csv', 'gone.csv', 'folder', '../b.csv'].map((file) => ({ file }))
    expect(await reported(listed)).toEqual(['a.csv'])
  })

  test.each([[null], ['a.csv'], [[null, 3, { file: 4 }]]])('are none in %j', async (files) => {
    scratch.put('out/a.csv', '')
    expect(await reported(files)).toEqual([])
  })

  test.each(['', '[', 'null'])('are none where the report is ‘%s’', async (text) => {
    scratch.put('out/report.json', text)
    expect(await earlierLayers(scratch.path('out'))).toEqual([])
  })
})

describe('the command line', () => {
  const scan = () =>
    scratch.put('in/a.txt', scanText({ group: 'alunite', seed: 1, header: degreesAt(0, 0) }))

  test('ends with 74 and the file’s name where a layer cannot be written', () => {
    mkdirSync(scratch.path('out/stations.csv'), { recursive: true })
    const ran = runMap('--scans', scan(), '--out', scratch.path('out'))
    expect(ran.code).toBe(74)
    expect(ran.complained).toMatch(
      /^stations\.csv cannot be written to .*it is a folder.* run again/,
    )
    expect(ran.complained).not.toMatch(/^\s+at /m)
    expect(existsSync(scratch.path('out/report.json'))).toBe(false)
  })

  test('tells of layers of an earlier run that this one has not', () => {
    const out = scratch.path('out')
    const unplaced = scratch.put('in/b.txt', scanText({ group: 'kaolin', seed: 2 }))
    expect(runMap('--scans', scan(), '--out', out).complained).toBe('')
    expect(runMap('--scans', unplaced, '--out', out).complained).toBe(
      'Of an earlier run, not written anew and left as they are: ' +
        'stations.geojson, stations.sld, map-style.json, stations.gpx.\n',
    )
  })
})

test('a system’s refusal in words (codes: POSIX.1-2017, errno.h)', () => {
  const coded = (code: string) => Object.assign(new Error(`${code}: open '/home/x'`), { code })
  expect(systemWords(coded('ENOSPC'))).toBe('the disk is full (ENOSPC)')
  expect(systemWords(coded('EBADF'))).toBe('EBADF')
  expect(systemWords(new Error('as it is'))).toBe('as it is')
  expect(systemWords('thrown')).toBe('thrown')
})
