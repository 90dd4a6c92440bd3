/**
 * The corpus reads to the right numbers; corrupted at random it ends in a clear problem or in what
 * an independent plain parse of the corrupted text gives. `AUREOLE_CORRUPTIONS=10000` makes more.
 */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { ReadResult } from '../../src/readers/input'
import { readFile } from '../../src/readers/read-file'
import { CORPUS, type CorpusFile } from './corpus'
import { corrupted, corruptions } from './corruption'
import { disagreement } from './plain-parse'
import { fileOf, reflectanceAt, WAVELENGTHS } from './spectra'

const RUNS = Number(process.env.AUREOLE_CORRUPTIONS ?? 600)

const SEED = Number(process.env.AUREOLE_SEED ?? 7)

describe(`the ${CORPUS.length} files`, () => {
  test('are sixty or more', () => expect(CORPUS.length).toBeGreaterThanOrEqual(60))

  test.each(CORPUS.map((file): [string, CorpusFile] => [file.name, file]))('%s', (_, file) => {
    const { scans, problems, kind } = readFile(fileOf(file.bytes))
    expect(problems).toEqual([])
    expect(kind).toBe('scans')
    expect(scans).toHaveLength(file.kinds.length)
    scans.forEach((scan, index) => {
      WAVELENGTHS.forEach((nm, channel) => {
        expect(scan.wavelengths[channel]).toBeCloseTo(nm, 5)
        expect(scan.reflectance[channel]).toBeCloseTo(reflectanceAt(nm, file.kinds[index]), 6)
      })
    })
  })
})

test(`${RUNS} corruptions end in a problem or in the plain parse`, () => {
  fc.assert(
    fc.property(fc.nat(CORPUS.length - 1), corruptions, (index, edits) => {
      const file = CORPUS[index]
      const bytes = corrupted(file.bytes, edits)
      const result: ReadResult = readFile(fileOf(bytes))
      const { scans, tables, tracks, problems, kind } = result
      const said = problems.length > 0 || tables.length > 0 || tracks.length > 0
      const forOthers = ['raster', 'photo', 'geojson', 'companion'].includes(kind ?? '')
      expect(scans.length > 0 || said || forOthers).toBe(true)
      for (const problem of problems) expect(problem.problem.length).toBeGreaterThan(5)
      expect(disagreement(file, bytes, result)).toBeNull()
    }),
    { numRuns: RUNS, seed: SEED },
  )
})
