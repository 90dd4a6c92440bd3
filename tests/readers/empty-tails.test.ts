/** Rows with empty cells beyond their heading's, as spreadsheets write them. */
import { describe, expect, test } from 'vitest'
import { readFile } from '../../src/readers/read-file'

const read = (text: string) => readFile({ path: 'a.csv', bytes: new TextEncoder().encode(text) })

const rows = Array.from({ length: 60 }, (_, i) => [350 + 5 * i, 0.5 + 0.001 * i] as const)

describe('scans', () => {
  test.each([
    ['commas', 'Wavelength,Reflectance', (nm: number, r: number) => `${nm},${r.toFixed(3)},,`],
    ['one more', 'Wavelength,Reflectance', (nm: number, r: number) => `${nm},${r.toFixed(3)},`],
    ['blanks in them', 'nm,R', (nm: number, r: number) => `${nm},${r.toFixed(3)}, ,`],
    [
      'in some rows',
      'Wavelength,Reflectance',
      (nm: number, r: number) => `${nm},${r.toFixed(3)}${nm % 20 === 0 ? '' : ','}`,
    ],
    [
      'semicolons and decimal commas',
      'nm;R',
      (nm: number, r: number) => `${nm};${r.toFixed(3).replace('.', ',')};;`,
    ],
    [
      'under pairs',
      'Sample: A7\nWavelength,Reflectance',
      (nm: number, r: number) => `${nm},${r.toFixed(3)},,`,
    ],
  ])('%s', (_, heading, row) => {
    const { scans, problems } = read(
      `${heading}\n${rows.map(([nm, r]) => row(nm, r)).join('\n')}\n`,
    )
    expect(problems).toEqual([])
    expect(scans).toHaveLength(1)
    expect([...scans[0].wavelengths].slice(0, 3)).toEqual([350, 355, 360])
    expect(scans[0].reflectance[59]).toBeCloseTo(0.559, 6)
  })

  test('several columns keep their names', () => {
    const body = rows.map(([nm, r]) => `${nm},${r.toFixed(3)},${(r + 0.1).toFixed(3)},,`)
    const { scans } = read(`Wavelength,A_1,A_2\n${body.join('\n')}\n`)
    expect(scans.map(({ name }) => name)).toEqual(['A_1', 'A_2'])
  })

  test('a value beyond the heading is no empty cell: the file is told of', () => {
    const body = rows.map(([nm, r], i) => `${nm},${r.toFixed(3)},${i === 40 ? '7' : ''}`)
    const { problems } = read(`Wavelength,Reflectance\n${body.join('\n')}\n`)
    expect(problems.length).toBeGreaterThan(0)
  })
})

describe('tables', () => {
  const HEADING = 'Sample,East,North,Cu'
  test.each([
    ['all rows', HEADING, ['A,470000,7240000,5,,', 'B,470100,7240000,,,', 'C,470200,7240000,7,,']],
    ['some rows', HEADING, ['A,470000,7240000,5,', 'B,470100,7240000,', 'C,470200,7240000,7']],
    [
      'under a line of its own',
      `Project,Velarca\n${HEADING}`,
      ['A,470000,7240000,5,,', 'B,470100,7240000,,,', 'C,470200,7240000,7,,'],
    ],
  ])('%s', (_, heading, body) => {
    const { tables, problems } = read(`${heading}\n${body.join('\n')}\n`)
    expect(problems).toEqual([])
    expect(tables).toMatchObject([
      {
        header: ['Sample', 'East', 'North', 'Cu'],
        rows: [
          ['A', '470000', '7240000', '5'],
          ['B', '470100', '7240000', ''],
          ['C', '470200', '7240000', '7'],
        ],
      },
    ])
  })

  test('a single row, and rows of numbers alone', () => {
    expect(read('Sample,East,North\nA,470000,7240000,,\n').tables[0].rows).toEqual([
      ['A', '470000', '7240000'],
    ])
    const numbers = ['1', '2', '3'].map((id) => `${id},47000${id},7240000,,`).join('\n')
    expect(read(`id,East,North\n${numbers}\n`).tables[0].header).toEqual(['id', 'East', 'North'])
  })

  test('a note with commas at its ends is no table', () => {
    const note = 'Hello there, friend\nthis is a note, with commas,\nand more, of them,,\n'
    expect(read(note).kind).toBe('unknown')
  })
})
