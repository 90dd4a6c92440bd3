/** An independent plain parse by split and Number, to hold a corrupted file's reading against. */
import type { ReadResult, ReadScan } from '../../src/readers/input'
import type { CorpusFile, PlainRows } from './corpus'

/** Where a result that holds scans departs from the plain parse, or null. */
export function disagreement(
  file: CorpusFile,
  bytes: Uint8Array,
  result: ReadResult,
): string | null {
  if (result.scans.length === 0 || result.layout === null) return null
  if (file.wide !== undefined) return wideDisagreement(decoded(bytes), file.wide, result)
  const { rows: how } = file
  if (how === null) return null
  const text = decoded(bytes)
  const blanks = result.layout.delimiter === 'blanks'
  const rows = plainRows(text, blanks ? { ...how, delimiter: /[ \t]+/ } : how)
  for (const scan of result.scans) {
    if (rows.length !== scan.wavelengths.length)
      return `${scan.wavelengths.length} channels where ${rows.length} rows are plain`
    const fits = how.columns.some((column) => sameScan(scan, rows, column, how, result))
    if (!fits) return `the scan ${scan.name} is no column of the plain parse`
  }
  return null
}

/** As text; a last byte of 26 ends it, as old programs had it. */
function decoded(whole: Uint8Array): string {
  const bytes = whole.at(-1) === 26 ? whole.subarray(0, -1) : whole
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes)
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes)
  const nulAt = (odd: number): number =>
    bytes.filter((byte, i) => byte === 0 && i % 2 === odd).length
  if (nulAt(1) > 0.3 * bytes.length) return new TextDecoder('utf-16le').decode(bytes)
  if (nulAt(0) > 0.3 * bytes.length) return new TextDecoder('utf-16be').decode(bytes)
  return new TextDecoder('windows-1252').decode(bytes)
}

const MISSING = new Set(['', 'nan', 'na', '-', '--', '*'])

function numberOf(cell: string, decimal: '.' | ','): number {
  const plain = decimal === ',' ? cell.replace(',', '.') : cell
  return MISSING.has(plain.toLowerCase()) ? NaN : Number(plain)
}

function blanksOnly(delimiter: string | RegExp): boolean {
  return delimiter instanceof RegExp
}

/** Lines whose first wavelength cell is a number, as cells. */
function plainRows(text: string, { delimiter, decimal, wavelength }: PlainRows): number[][] {
  return text
    .split(/\r\n|\n|\r/)
    .map((line) =>
      (blanksOnly(delimiter) ? line.trim() : line.replace(/^ +| +$/g, '')).split(delimiter),
    )
    .map((cells) => cells.map((cell) => cell.trim()))
    .filter((cells) => cells.length > 1 && cells[wavelength] !== '')
    .map((cells) => cells.map((cell) => numberOf(cell, decimal)))
    .filter((cells) => Number.isFinite(cells[wavelength]))
}

function sameScan(
  scan: ReadScan,
  rows: readonly (readonly number[])[],
  column: number,
  { wavelength, columns, ratio }: PlainRows,
  { layout }: ReadResult,
): boolean {
  const sorted = rows.map((row) => ({
    nm: nanometres(row[wavelength], layout?.wavelengthUnit),
    row,
  }))
  sorted.sort((a, b) => a.nm - b.nm)
  const scale = { fraction: 1, percent: 100, 'per 10000': 10000 }[
    layout?.reflectanceUnit ?? 'fraction'
  ]
  return sorted.every(({ nm, row }, i) => {
    const raw = ratio ? row[columns[1]] / row[columns[0]] : row[column]
    const gap =
      Number.isNaN(raw) || raw === -999 || raw === -9999 || (ratio && row[columns[0]] <= 0)
    const value = scan.reflectance[i]
    const close = gap
      ? Number.isNaN(value)
      : Math.abs(value - raw / scale) <= 1e-6 * Math.abs(value) + 1e-9
    return close && Math.abs(scan.wavelengths[i] - nm) < 1e-4
  })
}

function nanometres(value: number, unit: string | undefined): number {
  if (unit === 'µm') return value * 1000
  return unit === 'cm⁻¹' ? 1e7 / value : value
}

/** Every scan's values must be the last cells of a line, and its axis those of another. */
function wideDisagreement(
  text: string,
  { delimiter, decimal }: Pick<PlainRows, 'delimiter' | 'decimal'>,
  { scans, layout }: ReadResult,
): string | null {
  const lines = text
    .split(/\r\n|\n|\r/)
    .map((line) => line.split(layout?.delimiter === 'blanks' ? /[ \t]+/ : delimiter))
  const numbers = lines.map((cells) => cells.map((cell) => numberOf(cell.trim(), decimal)))
  const headings = lines.map((cells) =>
    cells.map((cell) => Number(/\d[\d.]*/.exec(cell)?.[0] ?? NaN)),
  )
  const scale = { fraction: 1, percent: 100, 'per 10000': 10000 }[
    layout?.reflectanceUnit ?? 'fraction'
  ]
  for (const { name, wavelengths, reflectance } of scans) {
    const nm = (value: number): number => nanometres(value, layout?.wavelengthUnit)
    if (!headings.some((row) => endsWith(row.map(nm), wavelengths)))
      return `the axis of ${name} is no line of the plain parse`
    const gapped = (row: number[]): number[] =>
      row.map((value) => (value === -999 || value === -9999 ? NaN : value / scale))
    if (!numbers.some((row) => endsWith(gapped(row), reflectance)))
      return `the scan ${name} is no line of the plain parse`
  }
  return null
}

/** Whether a row's last cells are these values in their order or reversed. */
function endsWith(row: readonly number[], values: ArrayLike<number>): boolean {
  const count = values.length
  const cells = row.slice(-count)
  const same = (a: number, b: number): boolean =>
    (Number.isNaN(a) && Number.isNaN(b)) || Math.abs(a - b) <= 1e-6 * Math.abs(b) + 1e-9
  if (cells.length !== count) return false
  const forward = cells.every((cell, i) => same(cell, values[i]))
  return forward || cells.every((cell, i) => same(cell, values[count - 1 - i]))
}
