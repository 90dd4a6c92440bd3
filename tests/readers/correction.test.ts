/** Corrections of misread files: units, column, decimal mark, encoding, for files alike. */
import { describe, expect, test } from 'vitest'
import type { Correction } from '../../src/readers/correction'
import type { ReadResult } from '../../src/readers/input'
import { NO_COMPANIONS, readFile } from '../../src/readers/read-file'
import { fileOf, readTextOf, reflectanceAt, twoColumns, WAVELENGTHS } from './spectra'

const read = (text: string | Uint8Array, corrections: readonly Correction[] = []): ReadResult =>
  readFile(fileOf(text), NO_COMPANIONS, {}, corrections)

const likeOf = (text: string): string => {
  const { look } = readTextOf(text)
  if (!look) throw new Error('The text has no look.')
  return look.like
}

/** At 2200 nm, rounded as the file is. */
const at2200 = ({ scans }: ReadResult) =>
  Number(scans[0].reflectance[scans[0].wavelengths.indexOf(2200)].toFixed(4))

describe('files alike', () => {
  test('are known by layout, axis and headings, not by values, names or numbers in headings', () => {
    const scan = (heading: string, scale: number) =>
      twoColumns({ heading, reflectance: (fraction) => fraction * scale })
    expect(likeOf(scan('Wavelength\tReflectance 12', 1))).toBe(
      'two columns; tab; 44 from 350 to 2500; Wavelength | Reflectance #',
    )
    expect(likeOf(scan('Wavelength\tReflectance 7', 100))).toBe(
      likeOf(scan('Wavelength\tReflectance 12', 1)),
    )
    expect(likeOf(scan('Wavelength\tRC-12b', 1))).toBe(likeOf(scan('Wavelength\tQuarry', 1)))
  })

  test('and differ by what stands between cells, by decimal mark and by axis', () => {
    const likes = [
      twoColumns(),
      twoColumns({ separator: ';' }),
      twoColumns({ separator: ';', decimal: ',' }),
      twoColumns({ wavelength: (nm) => nm / 1000 }),
    ].map(likeOf)
    expect(new Set(likes).size).toBe(4)
  })
})

describe('a correction', () => {
  /** A dark rock in percent: below 2 throughout, it passes for a fraction. */
  const dark = twoColumns({ reflectance: (fraction) => fraction * 3 })
  const like = likeOf(dark)

  test('of the reflectance scale turns a dark rock’s percent from fractions to what they are', () => {
    expect(readTextOf(dark).layout?.reflectanceUnit).toBe('fraction')
    const corrected = read(dark, [{ like, reflectance: 'percent' }])
    expect(corrected.layout?.reflectanceUnit).toBe('percent')
    const [{ reflectance, wavelengths }] = corrected.scans
    expect(reflectance[wavelengths.indexOf(2200)]).toBeCloseTo(0.03 * reflectanceAt(2200), 7)
    expect(corrected.correction).toEqual({ like, reflectance: 'percent' })
  })

  test('keeps the look that was found before it, so that it is found again', () => {
    expect(read(dark, [{ like, reflectance: 'percent' }]).look?.like).toBe(like)
  })

  test('of other files changes nothing', () => {
    expect(read(dark, [{ like: `${like}, others`, reflectance: 'percent' }])).toEqual(read(dark))
  })

  test('of the wavelength unit reads wavenumbers that pass for nanometres', () => {
    // 400 to 2500 cm⁻¹ is 25 to 4 µm; rising, they look like nm.
    const rows = WAVELENGTHS.map((cm) => `${cm}\t0.3`).join('\n')
    const { scans } = read(rows, [{ like: likeOf(rows), wavelength_unit: 'cm-1' }])
    expect(scans[0].wavelengths[0]).toBe(4000)
    expect(scans[0].wavelengths[WAVELENGTHS.length - 1]).toBeCloseTo(1e7 / 350, 5)
  })

  test('of the column takes another one, by heading or by number', () => {
    const heading = 'Wavelength\tReflectance\tReflectance smoothed'
    const rows = WAVELENGTHS.map((nm) => `${nm}\t${reflectanceAt(nm)}\t0.5`)
    const table = [heading, ...rows].join('\n')
    const { look } = readTextOf(table)
    expect(look?.columns).toEqual(['Reflectance', 'Reflectance smoothed'])
    const smoothed = read(table, [{ like: likeOf(table), column: 'Reflectance smoothed' }])
    expect(smoothed.scans.map(({ reflectance }) => reflectance[0])).toEqual([0.5])
    expect(smoothed.layout?.column).toBe('Reflectance smoothed')
    const bare = rows.join('\n')
    const second = read(bare, [{ like: likeOf(bare), column: 'column 2' }])
    expect(at2200(second)).toBe(reflectanceAt(2200))
  })

  test('of the column lets columns of different kinds be read, which else are refused', () => {
    const rows = WAVELENGTHS.map((nm) => `${nm}\t${5000 + nm}\t${reflectanceAt(nm)}`)
    const table = rows.join('\n')
    expect(read(table).problems[0].problem).toMatch(/columns of different sizes/)
    const corrected = read(table, [{ like: likeOf(table), column: 'column 3' }])
    expect([corrected.scans.length, at2200(corrected)]).toEqual([1, reflectanceAt(2200)])
  })

  test('that names a column which is not there says which are', () => {
    const table = WAVELENGTHS.map((nm) => `${nm}\t0.3\t0.4`).join('\n')
    const { problems, scans } = read(table, [{ like: likeOf(table), column: 'R' }])
    expect(scans).toEqual([])
    expect(problems[0].problem).toMatch(/no column “R” .*“column 2”, “column 3”/)
  })

  test('of the encoding reads a header anew', () => {
    // “Céret” in UTF-8 read as Windows-1252 would be “CÃ©ret”: here the other way round.
    const text = `Sample: C\u00c3\u00a9ret\n${twoColumns()}`
    const bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0))
    expect(read(bytes).scans[0].metadata).toEqual({ Sample: 'Céret' })
    const corrected = read(bytes, [{ like: likeOf(twoColumns()), encoding: 'Windows-1252' }])
    expect(corrected.scans[0].metadata).toEqual({ Sample: 'CÃ©ret' })
  })

  test('of the decimal mark', () => {
    // 350,125 and 400,250 are two cells by their looks; the hand that wrote them meant one number.
    const rows = WAVELENGTHS.map((nm) => `${nm},5;0,3`).join('\n')
    expect(read(rows).layout?.decimal).toBe(',')
    const corrected = read(rows, [{ like: likeOf(rows), decimal: '.' }])
    expect(corrected.layout?.decimal ?? corrected.problems[0].problem).not.toBe(',')
  })
})
