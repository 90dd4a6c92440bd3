/** Files whose detectors overlap: hand-made, with the splice worked out by hand. Invented. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { corrupted, corruptions } from './corruption'
import { bytesOf, fileOf, readTextOf } from './spectra'
import { NO_COMPANIONS, readFile } from '../../src/readers/read-file'

/** A detector's rows: from, to and step in nm, and what its reflectance is multiplied by. */
type Detector = readonly [from: number, to: number, step: number, factor: number]

/** Visible to 1020 nm, infrared from 980 and from 1790 to 2500: overlaps of 40 and of 40 nm. */
const THREE: readonly Detector[] = [
  [350, 1020, 10, 1],
  [980, 1830, 10, 1.02],
  [1790, 2500, 10, 1],
]

const level = (nm: number): number => 0.3 + nm / 1e4

function rowsOf(detectors: readonly Detector[]): [nm: number, value: number][] {
  return detectors.flatMap(([from, to, step, factor]) =>
    Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i): [number, number] => [
      from + step * i,
      Number((factor * level(from + step * i)).toFixed(5)),
    ]),
  )
}

function textOf(rows: readonly (readonly number[])[], heading = 'Wavelength\tReflectance'): string {
  return [heading, ...rows.map((row) => row.join('\t'))].join('\n') + '\n'
}

/** What the rule gives: 1000 and 1810 nm are the middles, the channel in the middle the first's. */
const SPLICED = rowsOf([
  [350, 1000, 10, 1],
  [1010, 1810, 10, 1.02],
  [1820, 2500, 10, 1],
])

function expectSpliced({ scans, problems }: ReturnType<typeof readTextOf>): void {
  expect(problems).toEqual([])
  expect(scans).toHaveLength(1)
  expect([...scans[0].wavelengths].map((nm) => Math.round(nm * 1e3) / 1e3)).toEqual(
    SPLICED.map(([nm]) => nm),
  )
  SPLICED.forEach(([, value], i) => expect(scans[0].reflectance[i]).toBeCloseTo(value, 5))
}

describe('three detectors that overlap', () => {
  test('each counts to the middle of the overlap, and the file says so', () => {
    const result = readTextOf(textOf(rowsOf(THREE)))
    expectSpliced(result)
    expect(result.scans[0].metadata['detectors spliced']).toBe(
      'at 1000 nm (both read 980 to 1020 nm, where the next reads 2.0 % more); ' +
        'at 1810 nm (both read 1790 to 1830 nm, where the next reads 2.0 % less)',
    )
    expect(result.layout?.reasons?.at(-1)).toBe(
      'detectors overlap from 980 to 1020 nm, spliced at 1000 nm and from 1790 to 1830 nm, spliced at 1810 nm; each counts to the middle',
    )
  })

  test('without a heading, in micrometres and percent, and from the longest wavelength down', () => {
    const rows = rowsOf(THREE)
    expectSpliced(readTextOf(textOf(rows).replace(/^.*\n/, '')))
    const percent = rows.map(([nm, value]) => [nm / 1000, Number((100 * value).toFixed(3))])
    expectSpliced(readTextOf(textOf(percent, 'Wavelength (µm)\tReflectance (%)')))
  })

  test('from the longest wavelength down the channel in the middle is the longer detector’s', () => {
    const { scans, problems } = readTextOf(textOf([...rowsOf(THREE)].reverse()))
    expect(problems).toEqual([])
    expect(scans[0].wavelengths).toHaveLength(SPLICED.length)
    expect(scans[0].reflectance[65]).toBeCloseTo(1.02 * level(1000), 4)
  })

  test('many scans in columns are spliced alike, each with its own figures', () => {
    const rows = rowsOf(THREE).map(([nm, value]) => [nm, value, 0.5])
    const { scans } = readTextOf(textOf(rows, 'Wavelength\tA\tB'))
    expect(scans.map(({ name }) => name)).toEqual(['A', 'B'])
    expect(scans[0].metadata['detectors spliced']).toContain('2.0 % more')
    expect(scans[1].metadata['detectors spliced']).toContain('0.0 % more')
    expect(scans[1].reflectance).toHaveLength(SPLICED.length)
  })

  test('where one detector has no values the splice stands and no difference is told', () => {
    const rows = rowsOf(THREE).map(([nm, value], i) => [nm, i > 60 && i < 68 ? NaN : value])
    const [scan] = readTextOf(textOf(rows)).scans
    expect(scan.metadata['detectors spliced']).toMatch(/^at 1000 nm \(both read 980 to 1020 nm\);/)
  })
})

/** What is no overlap, and the words. */
const REFUSED: Record<string, [rows: readonly (readonly number[])[], words: RegExp]> = {
  'a piece that stands twice': [
    rowsOf([
      [350, 1020, 10, 1],
      [980, 2500, 10, 1],
    ]),
    /the rows from 980 to 1020 stand twice \(again from line 70\)/,
  ],
  'two scans one after the other': [
    [...rowsOf([[350, 2500, 10, 1]]), ...rowsOf([[350, 2500, 10, 1.1]])],
    /run back from 2500 to 350 at line 218, where the rows before began: two scans in one/,
  ],
  'a detector within another': [
    rowsOf([
      [350, 2500, 10, 1],
      [2200, 2400, 10, 1.1],
    ]),
    /run back from 2500 to 2200 at line 218 and end at 2400, within the rows before/,
  ],
  'an overlap of half a detector': [
    rowsOf([
      [350, 1500, 10, 1],
      [900, 2500, 10, 1.1],
    ]),
    /run back from 1500 to 900 at line 118, too far for detectors that overlap/,
  ],
  'detectors that saw different things': [
    rowsOf([
      [350, 1020, 10, 1],
      [980, 2500, 10, 2.5],
    ]),
    /no one scan: its detectors differ by 60 % where they overlap \(980 to 1020 nm\)/,
  ],
  'one damaged wavelength': [
    rowsOf([[350, 2500, 10, 1]]).map(([nm, value]) => [nm === 1000 ? 960 : nm, value]),
    /run back from 990 to 960 at line 67$/,
  ],
  'more turns than detectors': [
    rowsOf([
      [350, 700, 10, 1],
      [680, 1020, 10, 1.02],
      [1000, 1340, 10, 1],
      [1320, 1660, 10, 1.02],
      [1640, 2500, 10, 1],
    ]),
    /run back from 700 to 680 at line 38, and 3 times more/,
  ],
}

describe('what is no overlap is refused', () => {
  for (const [name, [rows, words]] of Object.entries(REFUSED))
    test(name, () => {
      const { scans, problems } = readTextOf(textOf(rows))
      expect(scans).toEqual([])
      expect(problems).toHaveLength(1)
      expect(problems[0].problem).toMatch(words)
      expect(problems[0].done).toMatch(/left out; export/)
    })
})

/** The rule once more, by split and Number and on its own feet. */
function plainSplice(text: string): [number, number][] {
  const rows = text
    .split(/\r\n|\r|\n/)
    .map((line) => line.split(/\t+/).map((cell) => (cell === '' ? NaN : Number(cell))))
    .filter((row) => row.length === 2 && Number.isFinite(row[0]))
  const parts: number[][][] = [[]]
  for (const row of rows) {
    const last = parts[parts.length - 1].at(-1)
    if (last !== undefined && row[0] < last[0]) parts.push([])
    parts[parts.length - 1].push(row)
  }
  return parts.flatMap((part, i) => {
    const low = i > 0 ? (parts[i - 1].at(-1)![0] + part[0][0]) / 2 : -Infinity
    const high = i + 1 < parts.length ? (part.at(-1)![0] + parts[i + 1][0][0]) / 2 : Infinity
    return part
      .filter(([nm]) => nm > low && nm <= high)
      .map(([nm, value]): [number, number] => [nm, value])
  })
}

test('damaged at random, a file with overlaps is refused or reads as the rule says', () => {
  const bytes = bytesOf(textOf(rowsOf(THREE)))
  let read = 0
  fc.assert(
    fc.property(corruptions, (edits) => {
      const damaged = corrupted(bytes, edits)
      const { scans } = readFile(fileOf(damaged), NO_COMPANIONS)
      if (scans.length === 0) return
      read++
      const plain = plainSplice(new TextDecoder().decode(damaged))
      expect(scans[0].wavelengths).toHaveLength(plain.length)
      const differ = plain.findIndex(([nm, value], i) => {
        const read = scans[0].reflectance[i]
        const isGap = Number.isNaN(value) && Number.isNaN(read)
        return scans[0].wavelengths[i] !== nm || !(isGap || read === Math.fround(value))
      })
      expect(differ).toBe(-1)
    }),
    { numRuns: 2000, seed: 5 },
  )
  expect(read).toBeGreaterThan(100)
})
