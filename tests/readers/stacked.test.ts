/** Scans one after another in one text, and damage that must not pass for them. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { ReadResult } from '../../src/readers/input'
import { NO_COMPANIONS, readFile } from '../../src/readers/read-file'
import { corrupted, corruptions } from './corruption'
import { fileOf, readTextOf, reflectanceAt, WAVELENGTHS } from './spectra'

const RUNS = Number(process.env.AUREOLE_CORRUPTIONS ?? 300)

interface Written {
  readonly scale?: number
  readonly heading?: string
  readonly separator?: string
  readonly axis?: readonly number[]
}

/** A header and a table of the synthetic scan of a kind. */
function block(kind: number, header: readonly string[], how: Written = {}): string {
  const { scale = 1, heading = 'Wavelength\tReflectance', separator = '\t' } = how
  const rows = (how.axis ?? WAVELENGTHS).map((nm) => {
    const value = Number((scale * reflectanceAt(nm, kind)).toFixed(6))
    return `${nm}${separator}${value}`
  })
  return [...header, heading, ...rows].filter((line) => line !== '').join('\n') + '\n'
}

const NAMES = ['RC-1 a', 'RC-1 b', 'RC-2']
const three = (how: Written = {}) =>
  NAMES.map((name, kind) => block(kind, [`Scan: ${name}`, `Operator: J. Aranda`], how)).join('\n')

const levels = ({ scans }: ReadResult) =>
  scans.map(({ reflectance, wavelengths }) =>
    Number(reflectance[wavelengths.indexOf(1000)].toFixed(4)),
  )
const expected = [0, 1, 2].map((kind) => reflectanceAt(1000, kind))

describe('a stack', () => {
  test('reads as its scans, each with its own header', () => {
    const result = readTextOf(three())
    expect(result.problems).toEqual([])
    expect(levels(result)).toEqual(expected)
    expect(result.scans.map(({ name }) => name)).toEqual(NAMES)
    expect(result.scans.map(({ metadata }) => metadata.Operator)).toEqual(
      NAMES.map(() => 'J. Aranda'),
    )
    expect(result.layout?.name).toBe('stacked, two columns')
    expect(result.scans[2].wavelengths).toBe(result.scans[0].wavelengths)
  })

  test('without names numbers its scans; a name that comes again is numbered too', () => {
    const nameless = [0, 1].map((kind) => block(kind, [])).join('')
    expect(readTextOf(nameless).scans.map(({ name }) => name)).toEqual(['scan 1', 'scan 2'])
    const twice = [0, 1].map((kind) => block(kind, ['Scan: RC-1'])).join('')
    expect(readTextOf(twice).scans.map(({ name }) => name)).toEqual(['RC-1', 'RC-1 2'])
  })

  test('is read in the units that most of its scans show: a dark one is no fraction', () => {
    const dark = block(0, ['Scan: dark'], { scale: 3, heading: 'Wavelength\tR' })
    const others = [0, 1].map((kind) =>
      block(kind, [`Scan: ${kind}`], { scale: 100, heading: 'Wavelength\tR' }),
    )
    const { scans, layout } = readTextOf([dark, ...others].join(''))
    expect(layout?.reflectanceUnit).toBe('percent')
    expect(scans[0].reflectance[0]).toBeCloseTo(0.03 * reflectanceAt(350), 6)
  })

  test('is corrected as a whole, under a look of its own', () => {
    const text = three({ scale: 3, heading: 'Wavelength\tR' })
    const { look } = readTextOf(text)
    expect(look?.like).toBe('stacked, two columns; tab; 44 from 350 to 2500; Wavelength | *')
    const like = look?.like ?? ''
    const corrected = readFile(fileOf(text), NO_COMPANIONS, {}, [{ like, reflectance: 'percent' }])
    expect(corrected.scans).toHaveLength(3)
    expect(corrected.scans[0].reflectance[0]).toBeCloseTo(0.03 * reflectanceAt(350), 6)
  })

  test('tells of a block that differs, by its line, and reads the others', () => {
    const short = block(2, ['Scan: broken off'], { axis: WAVELENGTHS.slice(0, 30) })
    const text = [block(0, ['Scan: a']), block(1, ['Scan: b']), short].join('')
    const { scans, problems } = readTextOf(text)
    expect(scans.map(({ name }) => name)).toEqual(['a', 'b'])
    expect(problems.map(({ line, problem }) => [line, problem])).toEqual([
      [95, 'a table in a file of several scans has 30 rows where the others have 44'],
    ])
  })

  test('with a bad value says in which line of the whole file', () => {
    const lines = three().split('\n')
    const at = lines.findIndex((line, i) => i > 60 && line.startsWith('1000\t'))
    lines[at] = '1000\t0.4.5'
    const { scans, problems } = readTextOf(lines.join('\n'))
    expect([scans.length, problems[0].line]).toEqual([2, at + 1])
  })
})

describe('is no stack', () => {
  test('one scan with a damaged row in its middle', () => {
    const lines = block(0, ['Scan: a']).split('\n')
    lines[24] = `${lines[24].slice(0, 4)}x`
    const { scans, problems } = readTextOf(lines.join('\n'))
    expect(scans).toEqual([])
    expect(problems[0].line).toBe(25)
  })

  test('two tables of different axes', () => {
    const other = block(1, ['Scan: b'], { axis: WAVELENGTHS.slice(0, 30) })
    const { scans, problems } = readTextOf(block(0, ['Scan: a']) + other)
    expect([scans.length, problems.length]).toEqual([0, 1])
  })
})

test(`each scan of ${RUNS} corrupted stacks is a table of a plain parse`, () => {
  const bytes = new TextEncoder().encode(three())
  fc.assert(
    fc.property(corruptions, (edits) => {
      const damaged = corrupted(bytes, edits)
      const { scans, problems, tables, layout, kind } = readFile(fileOf(damaged))
      const isSaid = problems.length > 0 || tables.length > 0 || kind === 'photo'
      expect(scans.length > 0 || isSaid).toBe(true)
      const rows = new TextDecoder('windows-1252')
        .decode(damaged)
        .split(/\r\n|\n|\r/)
        .filter((line) => line.trim() !== '')
        .map((line) =>
          line
            .trim()
            .split(/[\t ;,]+/)
            .map(Number),
        )
      const scale = { fraction: 1, percent: 100, 'per 10000': 1e4 }[
        layout?.reflectanceUnit ?? 'fraction'
      ]
      for (const scan of scans) {
        const isThere = rows.some((_, from) =>
          scan.wavelengths.every((nm, i) => {
            const row = rows[from + i]
            const value = scan.reflectance[i]
            if (row?.[0] !== nm) return false
            return (
              Number.isNaN(value) ||
              Math.abs(row[1] / scale - value) <= 1e-6 * Math.max(1, Math.abs(value))
            )
          }),
        )
        if (layout?.wavelengthUnit === 'nm' && layout.decimal === '.') expect(isThere).toBe(true)
      }
    }),
    { numRuns: RUNS, seed: 11 },
  )
})
