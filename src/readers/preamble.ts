/** What stands above a table of numbers: pairs, headings, rows of metadata a column. */
import { textOf, untrimmedTextOf } from './decode'
import type { CellFormat, HeadLine } from './head'
import { isChannelHeading, isOtherAxis, isPlaceHeading, isWavelengthHeading } from './headings'
import { BLANK, TAB } from './lines'
import { COMMA } from './numbers'
import { MetadataCollector } from './metadata'
import { fieldOf } from './recognise'
import { pairDelimiter } from './text-file'
import { namedWavelengthUnit } from './units'

export interface Preamble {
  /** A heading for each column, or null. */
  readonly headings: readonly string[] | null
  /** The index of the headings' line, or -1. */
  readonly headingLine: number
  /** The line just above the numbers as written where it is a heading, for hints of units. */
  readonly headingText: string
  /**
   * The cells of the line just above the numbers where they are words, one a column: headings of an
   * axis unknown here, or a key and its value.
   */
  readonly above: readonly string[] | null
  /** Whether that line is the first of all. */
  readonly isAboveFirst: boolean
  /** Rows with a cell a column beside the headings: metadata of each scan by its first cell. */
  readonly columnRows: readonly (readonly string[])[]
  readonly metadata: Readonly<Record<string, string>>
  /** The index of a line that is neither heading nor row though it stands where they do, or -1. */
  readonly damaged: number
}

/** Sorts the lines above the numbers. */
export function readPreamble(
  bytes: Uint8Array,
  lines: readonly HeadLine[],
  format: CellFormat,
): Preamble {
  const rows = lines.map((line) => textOf(bytes, line.start, line.end))
  const cells = lines.map(({ start, end }, index) => {
    const found = headingCells(rows[index], format)
    if (found !== null || format.delimiter !== TAB) return found
    // An empty heading at either end of the line was trimmed away with its tab.
    return headingCells(untrimmedTextOf(bytes, start, end), format)
  })
  const last = rows.length - 1
  const top = topOfCells(cells, format.columns)
  const headingLine = headingIndex(cells, top, format.columns)
  const isNamed = headingLine >= 0 && (cells[headingLine]?.some(isWavelengthHeading) ?? false)
  const hint = headingLine < 0 && last >= 0 && isHint(rows[last]) ? last : -1
  const pairs = pairsOfFile(cells, top, headingLine)
  const isColumnRow = (index: number): boolean =>
    format.columns > 2 &&
    index >= top &&
    index !== headingLine &&
    cells[index] !== null &&
    !pairs.has(index)
  const metadata = new MetadataCollector()
  rows.forEach((row, index) => {
    if (index !== headingLine && index !== hint && !isColumnRow(index))
      metadata.addLine(row, pairDelimiter(format.delimiter))
  })
  return {
    headings: headingLine >= 0 ? cells[headingLine] : null,
    headingLine,
    above: wordsAbove(cells[last] ?? null),
    isAboveFirst: last === 0,
    headingText: headingLine === last || hint === last ? (rows[last] ?? '') : '',
    columnRows: cells.filter((row, index): row is string[] => row !== null && isColumnRow(index)),
    metadata: metadata.record(),
    damaged: damagedLine(rows, cells, isNamed ? headingLine : -1, format),
  }
}

/**
 * Rows above the heading that a spreadsheet filled up with empty cells: a key and a value of the
 * whole file, unless other rows there have a value for each scan.
 */
function pairsOfFile(
  cells: readonly (readonly string[] | null)[],
  top: number,
  heading: number,
): ReadonlySet<number> {
  const filled = (row: readonly string[] | null): number =>
    row === null ? 0 : row.findLastIndex((cell) => cell !== '') + 1
  const above = cells.map((_, index) => index).filter((index) => index >= top && index < heading)
  const isPair = above.every((index) => filled(cells[index]) <= 2)
  return new Set(isPair ? above : [])
}

function wordsAbove(cells: readonly string[] | null): readonly string[] | null {
  const isWords = cells?.every(
    (cell) => /^[^\d]*\p{L}/u.test(cell) || /^2\s*-?\s*[tθ]/iu.test(cell),
  )
  return isWords ? cells : null
}

/** The first of the lines just above the numbers that have a cell a column. */
function topOfCells(cells: readonly (string[] | null)[], columns: number): number {
  let top = cells.length
  const limit = columns > 2 ? 0 : cells.length - 2
  while (top > 0 && top > limit && cells[top - 1] !== null) top--
  return top
}

/** The heading that names wavelengths, or samples, else the lowest that may be one; -1 for none. */
function headingIndex(cells: readonly (string[] | null)[], top: number, columns: number): number {
  const among = cells.map((row, index) => (index >= top ? row : null))
  const named = among.findIndex((row) => row?.some(isWavelengthHeading) ?? false)
  if (named >= 0) return named
  const placed = among.findIndex((row) => (row?.filter(isPlaceHeading).length ?? 0) > 1)
  if (placed >= 0) return placed
  const last = cells.length - 1
  if (columns > 2) {
    const naming = among.findIndex((row) => row !== null && isNameField(row[0]))
    if (naming >= 0) return naming
    return top < cells.length ? last : -1
  }
  return isPairOfHeadings(cells[last] ?? null) ? last : -1
}

/** Whether a row's first cell says that names of scans or samples follow. */
function isNameField(cell: string): boolean {
  const field = fieldOf(cell)
  return field === 'name' || field === 'sample'
}

/** Two cells just above two columns that are headings rather than a key and its value. */
function isPairOfHeadings(cells: readonly string[] | null): boolean {
  if (cells?.length !== 2) return false
  if (cells[0] === '' || isChannelHeading(cells[0])) return true
  // `x (cm-1)` above words.
  const isUnit =
    /[([].+[)\]]/u.test(cells[0].slice(0, 100)) && namedWavelengthUnit(cells[0]) !== null
  return isUnit && !/\d/.test(cells[1].slice(0, 1)) && !isOtherAxis(cells[0])
}

/** Whether a line without a cell a column still speaks of wavelengths. */
function isHint(row: string): boolean {
  return !/[:=]/.test(row) && row.split(/[\s,;]+/).some(isWavelengthHeading)
}

/** Splits at a sign that stands outside quotes; those that do not close part nothing. */
function quotedCells(line: string, sign: string): string[] {
  const parts = line.split(sign)
  if (!line.includes('"')) return parts
  const cells: string[] = []
  let begin = 0
  let quotes = 0
  let isQuoted = false
  for (const [i, part] of parts.entries()) {
    if (i === begin) isQuoted = /^\s*"/.test(part)
    if (isQuoted) quotes += part.split('"').length - 1
    if (isQuoted && quotes % 2 === 1) continue
    cells.push(i === begin ? part : parts.slice(begin, i + 1).join(sign))
    begin = i + 1
    quotes = 0
  }
  return begin === parts.length ? cells : parts
}

/** A line's cells where there is one a column, by the table's delimiter or another. */
function headingCells(row: string, format: CellFormat): string[] | null {
  const line = row.replace(/^\s*(?:#|%|\/\/)\s*/, '')
  const sign = format.delimiter === BLANK ? null : String.fromCharCode(format.delimiter)
  const tries: (string | RegExp)[] =
    sign === null ? ['\t', /\t+|\s{2,}/, /\s+(?![([])/, /\s+/, ',', ';'] : [sign, '\t', /\s{2,}/]
  for (const by of tries) {
    const cells = (typeof by === 'string' ? quotedCells(line, by) : line.split(by)).map((cell) =>
      cell
        .trim()
        .replace(/^"(.*)"$/, '$1')
        .trim(),
    )
    if (cells.length === format.columns) return cells
  }
  return null
}

/**
 * A line that was a row before it was damaged: what begins with a number; what follows a heading of wavelengths and is no row
 * of units or metadata, or what stands just above the numbers and is nearly a number itself; or a
 * heading with too few or too many cells for several columns.
 */
function damagedLine(
  rows: readonly string[],
  cells: readonly (string[] | null)[],
  heading: number,
  format: CellFormat,
): number {
  const { columns } = format
  const last = rows.length - 1
  if (last < 0) return -1
  const beginsAsRow = rows.findIndex((row) => beginsWithNumbers(row, format))
  if (beginsAsRow >= 0) return beginsAsRow
  if (heading >= 0) {
    const below = rows.findIndex(
      (_, index) => index > heading && !isUnitsOrMetadata(cells[index], cells[heading]),
    )
    return below
  }
  if (isNearlyNumbers(rows[last]) && !areNumbersOfScans(cells[last])) return last
  return columns > 2 && cells[last] === null && isHint(rows[last]) ? last : -1
}

/** Whether a line's first cell is a number, and between blanks the second too: header lines begin with words. */
function beginsWithNumbers(row: string, { delimiter, decimal }: CellFormat): boolean {
  const cells = row.split(delimiter === BLANK ? /\s+/ : String.fromCharCode(delimiter))
  if (cells.length < 2) return false
  const isNumber = (cell: string): boolean => {
    const text = decimal === COMMA ? cell.replace(',', '.') : cell
    return text.trim() !== '' && Number.isFinite(Number(text))
  }
  return isNumber(cells[0]) && (delimiter !== BLANK || isNumber(cells[1]))
}

/** A row below the heading that holds no numbers, or a key and a value for each of many scans. */
function isUnitsOrMetadata(
  cells: readonly string[] | null,
  headings: readonly string[] | null,
): boolean {
  if (cells === null || headings === null) return false
  if (cells.every((cell) => !/\d{2}/.test(cell))) return true
  const wavelength = headings.findIndex(isWavelengthHeading)
  return cells.length > 2 && wavelength === 0 && /^\p{L}{2}/u.test(cells[0])
}

/** Whole numbers that rise beside an empty first cell: no row of values is so, but names of scans. */
function areNumbersOfScans(cells: readonly string[] | null): boolean {
  if (cells === null || cells.length < 3 || cells[0] !== '') return false
  const numbers = cells.slice(1).map((cell) => (/^\d{1,6}$/.test(cell) ? Number(cell) : NaN))
  return numbers.every((value, i) => (i === 0 ? !Number.isNaN(value) : value > numbers[i - 1]))
}

/** Three digits or more and at most one sign that belongs to no number; dates and counts are let be. */
function isNearlyNumbers(row: string): boolean {
  if (/^\W*\d+\W*$/.test(row) || /\d{1,4}[-/]\d{1,2}[-/]\d{1,4}|\d:\d\d/.test(row)) return false
  const others = row.replace(/[\d.,;\s+\-eE"]/g, '').length
  return others <= 1 && row.replace(/\D/g, '').length >= 3
}
