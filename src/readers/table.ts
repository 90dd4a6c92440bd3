/** Tables of text cells (RFC 4180, with any of four delimiters). */
import { untrimmedTextOf } from './decode'
import type { Problem, ReadResult, Table } from './input'
import { BLANK, QUOTE } from './lines'
import { COMMA } from './numbers'
import { leftOut, nothingIn } from './result'

interface Row {
  readonly cells: string[]
  readonly line: number
}

/** More cells than any table of samples has: what has more is left out, not read in part. */
const MOST_CELLS = 6_000_000
/** Rows that are told of one by one; of further ones only the number is told. */
const MOST_TOLD = 50

/**
 * The table whose heading begins at byte `start`, on line `firstLine`.
 *
 * Cells are trimmed and NFC. Short rows are filled with empty cells; a row with more cells than
 * the heading is left out, as is a last row that breaks off.
 *
 * @param parted the heading where it stands in two lines, the second of them at `start`
 */
export function readTable(
  file: string,
  bytes: Uint8Array,
  start: number,
  firstLine: number,
  delimiter: number,
  parted?: readonly string[],
): ReadResult {
  if (cellsAbout(bytes, start, delimiter) > MOST_CELLS) {
    const problem = `a table of over ${MOST_CELLS / 1e6} million cells`
    return leftOut(file, firstLine, problem, 'split it, or leave out the columns that are not used')
  }
  const text = untrimmedTextOf(bytes, start, bytes.length)
  const isAscii = text.length === bytes.length - start
  const rows =
    delimiter === BLANK
      ? rowsAtBlanks(text, firstLine)
      : rowsAt(text, String.fromCharCode(delimiter), firstLine, isAscii)
  const units = unitsUnder(rows.at(1)?.cells ?? [])
  const written = parted ?? rows[0]?.cells ?? []
  const header = uniqueHeader(
    written.map((name, i) => (units?.[i] ? `${name} (${units[i]})` : name)),
  )
  const endsWhole = bytes[bytes.length - 1] === 10 || bytes[bytes.length - 1] === 13
  const misfits: Misfit[] = []
  const kept: Row[] = []
  for (let index = units === null ? 1 : 2; index < rows.length; index++) {
    const row = rows[index]
    const { cells } = row
    while (cells.length > header.length && cells[cells.length - 1] === '') cells.pop()
    const breaksOff = index === rows.length - 1 && !endsWhole && cells.length < header.length
    if (cells.length > header.length || breaksOff) {
      misfits.push({ row, breaksOff })
      continue
    }
    while (cells.length < header.length) cells.push('')
    kept.push(row)
  }
  const table: Table = {
    file,
    header,
    rows: kept.map((row) => row.cells),
    lines: kept.map((row) => row.line),
    ...(delimiter === COMMA ? { commaSeparated: true } : {}),
  }
  return { ...nothingIn('table', misfitProblems(file, misfits, header.length)), tables: [table] }
}

const UNIT =
  /^(m|km|ft|mm|cm|nm|µm|um|deg(rees?)?|°|dd|ppm|ppb|ppt|%|wt\.? ?%|pct|percent|g\/?t|oz\/?t|s|min|h|ms|v|°?c|metres?|meters?|feet)$/iu

/**
 * The units of a row of nothing else just under the heading, without brackets; null where that row
 * holds anything more. They belong to the heading: as a row they would be a sample.
 */
function unitsUnder(cells: readonly string[]): readonly string[] | null {
  const plain = cells.map((cell) => cell.replace(/^[([](.*)[)\]]$/u, '$1').trim())
  const filled = plain.filter((cell) => cell !== '' && cell !== '-')
  return filled.length > 1 && filled.every((cell) => UNIT.test(cell)) ? plain : null
}

/** A row that does not fit under its heading. */
interface Misfit {
  readonly row: Row
  readonly breaksOff: boolean
}

function misfitProblems(file: string, misfits: readonly Misfit[], columns: number): Problem[] {
  const problems = misfits.slice(0, MOST_TOLD).map(({ row, breaksOff }) => ({
    file,
    line: row.line,
    problem: `a row of ${row.cells.length} cells under a heading of ${columns}`,
    done: breaksOff
      ? 'row left out; the file breaks off, copy it again'
      : 'row left out; put cells that hold the delimiter in double quotes',
  }))
  const more = misfits.length - problems.length
  if (more > 0) {
    const problem = `${more} more rows that do not fit under the heading of ${columns}`
    const done = 'rows left out; the columns may be parted by another sign than the table’s'
    problems.push({ file, line: misfits[MOST_TOLD].row.line, problem, done })
  }
  return problems
}

function uniqueHeader(cells: readonly string[]): string[] {
  const end = cells.findLastIndex((cell) => cell !== '') + 1
  const taken = new Set<string>()
  const times = new Map<string, number>()
  return cells.slice(0, end).map((cell, index) => {
    const plain = cell === '' ? `column ${index + 1}` : cell
    let name = plain
    let again = times.get(plain) ?? 1
    while (taken.has(name)) name = `${plain} ${++again}`
    times.set(plain, again)
    taken.add(name)
    return name
  })
}

/** How many cells there are, quotes not heeded. */
function cellsAbout(bytes: Uint8Array, start: number, delimiter: number): number {
  let count = 0
  for (let i = start; i < bytes.length; i++)
    if (bytes[i] === delimiter || bytes[i] === 10 || bytes[i] === 13) count++
  return count
}

function rowsAtBlanks(text: string, firstLine: number): Row[] {
  const rows: Row[] = []
  let line = firstLine
  for (const written of text.split(/\r\n|\n|\r/)) {
    const cells = written.trim().split(/\s+/)
    if (cells.length > 1 || cells[0] !== '') rows.push({ cells, line })
    line++
  }
  return rows
}

function rowsAt(text: string, delimiter: string, firstLine: number, isAscii: boolean): Row[] {
  const rows: Row[] = []
  let cells: string[] = []
  let line = firstLine
  let rowLine = firstLine
  let isFilled = false
  const endRow = (): void => {
    if (isFilled) rows.push({ cells, line: rowLine })
    cells = []
    isFilled = false
    rowLine = line
  }
  let i = 0
  while (i <= text.length) {
    const start = i
    while (text.charCodeAt(i) === BLANK) i++
    const quoted = text.charCodeAt(i) === QUOTE ? quotedCell(text, i, delimiter) : null
    i = quoted?.end ?? cellEnd(text, start, delimiter)
    const written = quoted?.text ?? text.slice(start, i)
    const tidy = isAscii ? trimmed(written) : written.trim().normalize('NFC')
    if (tidy !== '') isFilled = true
    cells.push(tidy)
    line += quoted?.newlines ?? 0
    if (i >= text.length) break
    if (text[i] === delimiter) i++
    else {
      i += text[i] === '\r' && text[i + 1] === '\n' ? 2 : 1
      line++
      endRow()
    }
  }
  endRow()
  return rows
}

/** A text of ASCII without blanks around it; most have none, and that is quickly seen. */
function trimmed(text: string): string {
  if (text === '') return text
  const isTidy = text.charCodeAt(0) > 32 && text.charCodeAt(text.length - 1) > 32
  return isTidy ? text : text.trim()
}

/** A cell whose quotes open at `open`, up to the next delimiter or line; null where none close. */
function quotedCell(
  text: string,
  open: number,
  delimiter: string,
): { text: string; end: number; newlines: number } | null {
  const close = closingQuote(text, open + 1)
  if (close < 0) return null
  const inner = text.slice(open + 1, close)
  return {
    text: inner.replaceAll('""', '"'),
    end: cellEnd(text, close + 1, delimiter),
    newlines: inner.split(/\r\n|\n|\r/).length - 1,
  }
}

/** A quoted cell longer than this has lost its closing quote: it is read as plain text instead. */
const LONGEST_QUOTED = 100_000

function closingQuote(text: string, start: number): number {
  const limit = Math.min(text.length, start + LONGEST_QUOTED)
  for (let i = start; i < limit; i++) {
    if (text[i] !== '"') continue
    if (text[i + 1] !== '"') return i
    i++
  }
  return -1
}

function cellEnd(text: string, start: number, delimiter: string): number {
  const sign = delimiter.charCodeAt(0)
  let i = start
  for (; i < text.length; i++) {
    const code = text.charCodeAt(i)
    if (code === sign || code === 10 || code === 13) return i
  }
  return i
}
