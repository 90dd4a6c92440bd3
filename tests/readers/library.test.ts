/** All 414 records of the part of the USGS library in ../shared/spectra (Data Series 1035). */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { collectCompanions } from '../../src/readers/companions'
import type { InputFile } from '../../src/readers/input'
import { readFile } from '../../src/readers/read-file'

const ROOT = '../shared/spectra'
const absent = !existsSync(ROOT)

function load(path: string): InputFile {
  return { path, bytes: new Uint8Array(readFileSync(path)) }
}

function textsIn(folder: string): InputFile[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.txt'))
    .map((name) => load(`${folder}/${name}`))
}

test.skipIf(absent)(
  'every record reads, its deleted channels as gaps (skipped without ../shared)',
  () => {
    const companions = structuredClone(collectCompanions(textsIn(ROOT)))
    expect(companions.axes.map((axis) => axis.values.length).sort()).toEqual([2151, 480])
    expect(companions.bandwidths).toHaveLength(4)
    const records = [...textsIn(`${ROOT}/minerals`), ...textsIn(`${ROOT}/mixtures`)]
    expect(records).toHaveLength(414)
    for (const record of records) {
      const { scans, problems } = readFile(record, companions)
      expect(problems).toEqual([])
      const plain = new TextDecoder()
        .decode(record.bytes)
        .split('\n')
        .slice(1)
        .filter((line) => line.trim())
      const expected = Float32Array.from(plain, (line) =>
        Number(line) < -1e30 ? NaN : Number(line),
      )
      expect(scans[0].reflectance).toEqual(expected)
      expect(scans[0].wavelengths[0]).toBeCloseTo(plain.length === 2151 ? 349.99999 : 205.1, 5)
      expect(scans[0].bandwidths).toHaveLength(plain.length)
    }
  },
)

test.skipIf(absent)('companions are no scans and no problems (skipped without ../shared)', () => {
  for (const file of textsIn(ROOT)) {
    const result = readFile(file)
    expect(result).toMatchObject({ kind: 'companion', scans: [], problems: [] })
  }
})

test.skipIf(absent)('a truncated record is told by its count (skipped without ../shared)', () => {
  const companions = collectCompanions(textsIn(ROOT))
  const [record] = textsIn(`${ROOT}/minerals`)
  const half = { ...record, bytes: record.bytes.slice(0, record.bytes.length / 2) }
  const { scans, problems } = readFile(half, companions)
  expect(scans).toEqual([])
  expect(problems[0].problem).toMatch(/values and no wavelengths/)
})

describe('a record without its wavelengths says which file is missing and what to do', () => {
  const bytes = (text: string) => new TextEncoder().encode(text)
  const record = {
    path: 'lib/minerals/Alunite_A.txt',
    bytes: bytes(`Record=1: Alunite\n${'0.25\n'.repeat(40)}`),
  }
  const axis = (path: string, count: number, from = 400): InputFile => ({
    path,
    bytes: bytes(
      `Wavelengths\n${Array.from({ length: count }, (_, i) => from + 5 * i).join('\n')}`,
    ),
  })
  const told = (...files: InputFile[]) => readFile(record, collectCompanions(files)).problems[0]

  test.each<[what: string, files: InputFile[], problem: RegExp, done: RegExp]>([
    [
      'none',
      [],
      /^40 values and no wavelengths: the library’s file of 40 wavelengths, one a line in nm or µm, stands neither beside it nor in a folder above$/,
      /copy the file that came with the library .* into this folder and choose it again/,
    ],
    [
      'of another length',
      [axis('lib/short.txt', 30)],
      /; found were lib\/short\.txt \(30\)$/,
      /if there is none of 40, the record is not whole/,
    ],
    [
      'elsewhere',
      [axis('other/axis.txt', 40)],
      /in another folder there is other\/axis\.txt$/,
      /copy that file into this record’s folder/,
    ],
    [
      'two that differ',
      [axis('lib/p.txt', 40), axis('lib/q.txt', 40, 500)],
      /lib\/p\.txt, lib\/q\.txt differ/,
      /take the others out/,
    ],
  ])('%s', (_, files, problem, done) => {
    expect(told(...files)).toMatchObject({ file: record.path, line: null })
    expect(told(...files).problem).toMatch(problem)
    expect(told(...files).done).toMatch(done)
  })
})
