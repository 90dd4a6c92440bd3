/** The command that fits a reference set, on folders as users have them. The spectra are invented. */
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { readReferenceSet } from '../../src/minerals/set-file'
import { Layers, runMap, Scratch } from './command'

let scratch: Scratch
beforeEach(() => {
  scratch = new Scratch()
})
afterEach(() => scratch.remove())

const NM = Array.from({ length: 216 }, (_, at) => 350 + at * 10)
/** One absorption at a wavelength, on level ground. */
const dip = (centre: number) => (nm: number) =>
  (0.6 - 0.2 * Math.exp(-0.5 * ((nm - centre) / 25) ** 2)).toFixed(5)

function fit(...words: readonly string[]): { code: number | null; complained: string } {
  const command = ['src/batch/launch.mjs', 'fit', ...words]
  const { status, stderr } = spawnSync('node', command, { encoding: 'utf8' })
  return { code: status, complained: stderr }
}

/** A library of three layouts: wavelengths apart and above, a table of many, a header with a name. */
function putLibrary(): string {
  scratch.put(
    'lib/wavelengths.txt',
    ['Wavelengths in micrometers', ...NM.map((nm) => nm / 1000)].join('\n'),
  )
  scratch.put('lib/clays/kaolinite-01.txt', ['A record', ...NM.map(dip(2206))].join('\n'))
  const rows = NM.map((nm) => [nm, dip(2200)(nm), dip(2340)(nm)].join())
  scratch.put('lib/table.csv', ['Wavelength,Muscovite A,Calcite_B', ...rows].join('\n'))
  const header = [
    'Name: Alunite KAl3(SO4)2(OH)6',
    'X Units: Wavelength (micrometers)',
    'Y Units: Reflectance (percent)',
  ]
  const pairs = NM.map((nm) => `${nm / 1000}\t${Number(dip(1480)(nm)) * 100}`)
  scratch.put('lib/sulfates/file_17.txt', [...header, '', ...pairs].join('\n'))
  return scratch.path('lib')
}

const EXPECTED = [
  ['alunite', 'alunite'],
  ['calcite', 'calcite'],
  ['kaolinite', 'kaolin'],
  ['muscovite', 'white mica'],
]

test('folders are walked, and each scan is named by what names it', { timeout: 60_000 }, () => {
  const library = putLibrary()
  const out = scratch.path('sets/mine.json')
  expect(fit('--library', library, '--out', out, '--name', 'mine').code).toBe(0)
  const { references } = readReferenceSet(JSON.parse(readFileSync(out, 'utf8')))
  expect(references.map(({ mineral, group }) => [mineral, group]).sort()).toEqual(EXPECTED)
})

test('as references that replace the built-in ones they have the same names', () => {
  const library = putLibrary()
  scratch.put(
    'scans/s.csv',
    ['Wavelength,S', ...NM.map((nm) => `${nm},${dip(2340)(nm)}`)].join('\n'),
  )
  const out = scratch.path('out')
  const words = ['--scans', scratch.path('scans'), '--references', library, '--out', out]
  expect(runMap(...words).code).toBe(0)
  const layers = new Layers(out)
  expect(layers.rows('scans.csv')[0].mineral).toBe('calcite')
  const { identified } = JSON.parse(layers.text('report.json')) as {
    identified: { against: { set: string; references: number }[] }
  }
  expect(identified.against).toMatchObject([{ set: 'measured records', references: 4 }])
})

test('a wrong call says what is wrong with it', () => {
  scratch.put('a.txt', 'a')
  expect(fit('--library', scratch.path('none'), '--out', scratch.path('s.json'))).toMatchObject({
    code: 64,
    complained: expect.stringContaining(
      'cannot be read: there is no such file or folder (ENOENT)',
    ) as string,
  })
  expect(fit('--library', scratch.path(), '--out', scratch.path('a.txt/s.json'))).toMatchObject({
    code: 64,
    complained: expect.stringMatching(/cannot be made: .*\(E[A-Z]+\)/) as string,
  })
  expect(fit('--libary', 'x', '--out', 'y').complained).toContain('There is no option --libary.')
})
