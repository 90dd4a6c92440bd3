/** Tables of text cells (RFC 4180, with any of four delimiters). */
import { textOf } from './decode'
import type { Problem, ReadResult, Table } from './input'
import { BLANK } from './lines'
import { nothingIn } from './result'

interface Row {
  readonly cells: string[]
  readonly line: number
}

/** More cells than any table of samples has; what has more is not read on. */
const MOST_CELLS = 20_000_000

/**
 * The table whose heading begins at byte `start`, on line `firstLine`.
 *
 * Cells are trimmed and NFC. Short rows are filled with empty cells; a row with more cells than
 * the heading is left out, as is a last row that breaks off.
 */
export function readTable(
  file: string,
  bytes: Uint8Array,
  start: number,
  firstLine: number,
  delimiter: number,
): ReadResult {
  const text = textOf(bytes, start, bytes.length)
  const rows =
    delimiter === BLANK
      ? rowsAtBlanks(text, firstLine)
      : rowsAt(text, String.fromCharCode(delimiter), firstLine)
  const header = uniqueHeader(rows[0]?.cells ?? [])
  const endsWhole = bytes[bytes.length - 1] === 10 || bytes[bytes.length - 1] === 13
  const problems: Problem[] = []
  const kept: Row[] = []
  rows.slice(1).forEach((row, index) => {
    const cells = row.cells
    while (cells.length > header.length && cells[cells.length - 1] === '') cells.pop()
    const breaksOff = index === rows.length - 2 && !endsWhole && cells.length < header.length
    if (cells.length > header.length || breaksOff) {
      problems.push({
        file,
        line: row.line,
        problem: `a row of ${cells.length} cells under a heading of ${header.length}`,
        done: breaksOff
          ? 'row left out; the file breaks off, copy it again'
          : 'row left out; put cells that hold the delimiter in double quotes',
      })
      return
    }
    while (cells.length < header.length) cells.push('')
    kept.push(row)
  })
  const table: Table = {
    file,
    header,
    rows: kept.map((row) => row.cells),
    lines: kept.map((row) => row.line),
  }
  return { ...nothingIn('table', problems), tables: [table] }
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

function rowsAtBlanks(text: string, firstLine: number): Row[] {
  return text
    .split(/\r\n|\n|\r/)
    .map((line, index) => ({ cells: line.trim().split(/\s+/), line: firstLine + index }))
    .filter((row) => row.cells.some((cell) => cell !== ''))
}

function rowsAt(text: string, delimiter: string, firstLine: number): Row[] {
  const rows: Row[] = []
  let cells: string[] = []
  let line = firstLine
  let rowLine = firstLine
  let count = 0
  const endRow = (): void => {
    if (cells.some((cell) => cell !== '')) rows.push({ cells, line: rowLine })
    cells = []
    rowLine = line
  }
  let i = 0
  while (i <= text.length && count++ < MOST_CELLS) {
    const cell = nextCell(text, i, delimiter)
    cells.push(cell.text.trim().normalize('NFC'))
    line += cell.newlines
    i = cell.end
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

/** One cell from `start`; it ends at a delimiter, a line's end or the text's. */
function nextCell(
  text: string,
  start: number,
  delimiter: string,
): { text: string; end: number; newlines: number } {
  let i = start
  while (text[i] === ' ') i++
  if (text[i] === '"') {
    const close = closingQuote(text, i + 1)
    if (close > 0) {
      const inner = text.slice(i + 1, close)
      const newlines = inner.split(/\r\n|\n|\r/).length - 1
      return {
        text: inner.replaceAll('""', '"'),
        end: cellEnd(text, close + 1, delimiter),
        newlines,
      }
    }
  }
  const end = cellEnd(text, start, delimiter)
  return { text: text.slice(start, end), end, newlines: 0 }
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
  let i = start
  while (i < text.length && text[i] !== delimiter && text[i] !== '\n' && text[i] !== '\r') i++
  return i
}
