/** Broken files each get a reason of their own, quickly. */
import { describe, expect, test } from 'vitest'
import { readFile } from '../../src/readers/read-file'
import { fileOf, readTextOf, twoColumns } from './spectra'

const LINES = twoColumns().trim().split('\n')
const BROKEN: Record<string, [text: string, reason: RegExp, line: number | null]> = {
  empty: ['', /is empty/, null],
  'blank lines alone': ['\n \r\n\n', /is empty/, null],
  binary: ['\u0001\u0002\u0000\u0007'.repeat(50), /binary/, null],
  'NUL bytes far down': [
    LINES.join('\n').padEnd(400, '0') + '\n' + '\u0000\u0000 1\n',
    /binary|NUL/,
    null,
  ],
  'words for numbers': ['Wavelength,Reflectance\nabc,def\nghi,jkl\n', /abc,def.*where numbers/, 2],
  'words alone': ['abc,def\n350,xyz\n351,qrs\n', /where numbers|no table/, null],
  'one word': [LINES.join('\n').replace('0.35\n', 'rock\n'), /“rock” is not a number/, 1],
  'two wavelengths': ['500\t0.1\n600\t0.2\n', /only 2 wavelengths/, 1],
  'one wavelength': ['Wavelength,Reflectance\n500,0.1\n', /only one wavelength/, 2],
  'one wavelength for all rows': ['500\t0.1\n'.repeat(60), /same wavelength, 500/, 2],
  'a wavelength twice': [
    [...LINES.slice(0, 9), ...LINES.slice(8)].join('\n'),
    /750 stands twice/,
    10,
  ],
  'wavelengths that run back': [[...LINES, '400\t0.1'].join('\n'), /run back/, 45],
  truncated: [[...LINES, '2550'].join('\n'), /breaks off/, 45],
  'values without wavelengths': ['0.5\n0.4\n'.repeat(30), /60 values and no wavelengths/, null],
  'raw counts': [twoColumns({ reflectance: (r) => r * 6e5 }), /no reflectance/, 1],
  'headings alike without end': ['a,'.repeat(4e5) + '\n' + 'a,'.repeat(4e5), /no table/, null],
  'more rows than channels': ['1\n'.repeat(600_000), /more than 500000 rows/, 500_001],
  'more rows of two than channels': [
    Array.from({ length: 510_000 }, (_, i) => `${300 + i / 1e4}\t0.1\n`).join(''),
    /more than 500000 rows/,
    500_001,
  ],
  'more cells than a table': [
    `sample,x,y\n${'A,1,2\n'.repeat(2_700_000)}`,
    /a table of over 6 million cells/,
    1,
  ],
  prose: ['Hello, this is\nprose and no table.\n', /no table|where numbers/, null],
  'a 30 MB line': ['1'.repeat(30_000_000), /over 1 million bytes/, 1],
  'a 30 MB line after good ones': [
    LINES.join('\n') + '\n' + '1 '.repeat(15e6),
    /million bytes/,
    45,
  ],
}

describe('broken files', () => {
  for (const [name, [text, reason, line]] of Object.entries(BROKEN))
    test(name, () => {
      const { scans, tables, problems } = readTextOf(text)
      expect(scans).toEqual([])
      expect(tables).toEqual([])
      expect(problems).toHaveLength(1)
      expect(problems[0].problem).toMatch(reason)
      expect(problems[0].done).toMatch(/left out; ./)
      if (line !== null) expect(problems[0].line).toBe(line)
    })

  test('a bad cell costs its own scan alone', () => {
    const rows = Array.from({ length: 40 }, (_, i) => `${400 + i},0.3,${i === 20 ? 'x' : '0.4'}`)
    const { scans, problems } = readTextOf(['Wavelength,A,B', ...rows].join('\n'))
    expect(scans.map((scan) => scan.name)).toEqual(['A'])
    expect(problems[0]).toMatchObject({ line: 22, file: 'day 1/scan.txt' })
  })

  test('rows that do not fit are told of one by one up to fifty, then by number', () => {
    const { tables, problems } = readTextOf(
      `sample,x,y\n${'A,1,2\n'.repeat(100)}${'B,1,2,3\n'.repeat(70)}`,
    )
    expect(tables[0].rows).toHaveLength(100)
    expect(problems).toHaveLength(51)
    expect(problems[0]).toMatchObject({
      line: 102,
      problem: 'a row of 4 cells under a heading of 3',
    })
    expect(problems[50].line).toBe(152)
    expect(problems[50].problem).toMatch(/^20 more rows that do not fit/)
  })

  test('every way of cutting a file short ends in a result', () => {
    const bytes = new TextEncoder().encode(twoColumns({ heading: 'Wavelength\tReflectance' }))
    for (let length = 0; length < bytes.length; length += 7) {
      const result = readFile(fileOf(bytes.slice(0, length)))
      expect(result.scans.length + result.problems.length).toBeGreaterThan(0)
    }
  })
})
