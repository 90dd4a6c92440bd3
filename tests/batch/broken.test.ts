/** 200 files of which 40 are broken; the other 160 are mapped, without a recipe. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { Layers, runMap, Scratch } from './command'
import { degreesAt, scanText } from './made-scans'

const GROUPS = ['white mica', 'kaolin', 'alunite', 'chlorite', 'calcite']
const SOUND = 160

/** How a file is broken, how many are, and what its reason must speak of. */
const BROKEN: readonly [kind: string, count: number, text: (i: number) => string, why: RegExp][] = [
  ['empty', 6, () => '', /empty/],
  ['binary', 6, (i) => String.fromCharCode(1, 0, 2, 0, i, 7).repeat(400), /binary/],
  ['truncated', 6, (i) => whole(i).slice(0, 6000 + 3000 * i), /breaks off/],
  ['non-numeric', 6, () => 'wavelength nm\treflectance\nabc\tdef\nghi\tjkl\n', /number/],
  ['two-wavelengths', 6, () => '500\t0.1\n600\t0.2\n', /2 wavelengths/],
  ['one-repeated', 6, () => '500\t0.1\n'.repeat(60), /same wavelength/],
  ['long-line', 4, (i) => String(i).repeat(30_000_000), /million bytes/],
]

const scratch = new Scratch()
const out = new Layers(scratch.path('out'))
const broken: { file: string; why: RegExp }[] = []

function whole(i: number): string {
  const place = degreesAt(150 * (i % 16), 150 * Math.floor(i / 16))
  const header = { sample: `S${i}`, ...place, support: 'outcrop', target: 'matrix' }
  return scanText({ group: GROUPS[i % GROUPS.length], seed: i + 1, header })
}

beforeAll(() => {
  for (let i = 0; i < SOUND; i++) scratch.put(`scans/S${i}_1.txt`, whole(i))
  for (const [kind, count, text, why] of BROKEN) {
    for (let i = 1; i <= count; i++) {
      const file = `${kind}-${i}.txt`
      broken.push({ file, why })
      scratch.put(`scans/${file}`, text(i))
    }
  }
  const ran = runMap('--scans', scratch.path('scans'), '--out', out.folder)
  expect(ran.complained).toBe('')
  expect(ran.code).toBe(0)
})
afterAll(() => scratch.remove())

test('the folder holds 200 files, 40 of them broken', () => {
  expect(broken).toHaveLength(40)
  expect(out.report.inputs).toHaveLength(200)
})

test('the other 160 are mapped, each at its own station with its mineral’s group', () => {
  const scans = out.rows('scans.csv')
  expect(scans).toHaveLength(SOUND)
  expect(out.rows('stations.csv')).toHaveLength(SOUND)
  for (const { scan, easting, check, group } of scans) {
    const number = Number(scan.slice(1, -2))
    expect(easting, scan).not.toBe('')
    expect(check, scan).toBe('sound')
    expect(group, scan).toBe(GROUPS[number % GROUPS.length])
  }
})

describe('problems.csv', () => {
  test('has the 40 and nothing else', () => {
    const files = out.rows('problems.csv').map(({ file }) => file)
    expect([...new Set(files)].sort()).toEqual(broken.map(({ file }) => file).sort())
  })

  test('says of each what is wrong with it and what to do', () => {
    const problems = out.rows('problems.csv')
    for (const { file, why } of broken) {
      const own = problems.filter((row) => row.file === file)
      expect(own.map(({ problem }) => problem).join(), file).toMatch(why)
      for (const { done } of own) expect(done, file).toMatch(/left out; ./)
    }
  })
})
