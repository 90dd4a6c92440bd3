/** The first lines of a text: where its numbers begin, what stands between cells, the decimal sign. */
import { textOf } from './decode'
import {
  BLANK,
  CellSplitter,
  isBlank,
  lineEnd,
  LONGEST_LINE,
  nextLine,
  SEMICOLON,
  TAB,
} from './lines'
import { COMMA, isGapMark, isSpace, parseNumber, POINT } from './numbers'

/** A line of the head: its bytes and its 1-based number. */
export interface HeadLine {
  readonly start: number
  readonly end: number
  readonly number: number
}

export interface Head {
  /** Lines that are not blank, from the first on. */
  readonly lines: readonly HeadLine[]
  /** The index in `lines` of the first of three lines that hold numbers alone, or -1. */
  readonly numeric: number
  /** The line that is too long to be a table's, or null. */
  readonly tooLong: number | null
}

/** How the cells of a table are written. */
export interface CellFormat {
  /** A byte; `BLANK` means runs of blanks, 0 that a line is one cell. */
  readonly delimiter: number
  readonly decimal: number
  /** Cells a line. */
  readonly columns: number
}

/** Of a head; numbers that begin later are not found. */
export const MOST_LINES = 3000
const MOST_BYTES = 2_000_000
/** Lines that are looked at to tell how cells are written. */
const SAMPLE = 12

/** Reads lines until the numbers have begun, or 3000 lines or 2 MB have passed. */
export function readHead(bytes: Uint8Array): Head {
  const lines: HeadLine[] = []
  let numeric = -1
  let run = 0
  let number = 1
  for (let start = 0; start < bytes.length; number++) {
    const end = lineEnd(bytes, start, start + LONGEST_LINE + 1)
    if (end - start > LONGEST_LINE) return { lines, numeric, tooLong: number }
    if (!isBlank(bytes, start, end)) {
      lines.push({ start, end, number })
      run = looksNumeric(bytes, start, end) ? run + 1 : 0
      if (run === 3 && numeric < 0) numeric = lines.length - 3
    }
    if (numeric >= 0 && lines.length >= numeric + SAMPLE) break
    if (lines.length >= MOST_LINES || end > MOST_BYTES) break
    start = nextLine(bytes, end)
  }
  if (numeric < 0 && run > 0 && lines.length < MOST_LINES) numeric = lines.length - run
  return { lines, numeric, tooLong: null }
}

/** Bytes of numbers, of what stands between them, and of `NaN` and `NA`. */
const NUMERIC = new Uint8Array(256)
for (const character of '0123456789+-.,; \t"eEdDnNaA') NUMERIC[character.charCodeAt(0)] = 1

/** Letters that numbers hold: those of a gap, and the sign of an exponent. */
const LETTERS_OF_NUMBERS = /\bnan?\b|(?<=[\d.,])(?:e(?=[+-]?\d)|d(?=[+-]\d))/giu

/**
 * Whether a line holds nothing but numbers, gaps and what stands between them; `A1`, `E5` and `N3`
 * are names of samples.
 */
export function looksNumeric(bytes: Uint8Array, start: number, end: number): boolean {
  let digits = 0
  let letters = 0
  for (let i = start; i < end; i++) {
    const byte = bytes[i]
    if (NUMERIC[byte] === 0) return false
    if (byte >= 48 && byte <= 57) digits++
    else if (byte >= 65) letters++
  }
  if (letters === 0) return digits > 0
  const others = textOf(bytes, start, end).replace(LETTERS_OF_NUMBERS, '')
  return digits > 0 && !/[a-z]/i.test(others)
}

const CANDIDATES: readonly (readonly [delimiter: number, decimal: number])[] = [
  [TAB, POINT],
  [TAB, COMMA],
  [SEMICOLON, POINT],
  [SEMICOLON, COMMA],
  [COMMA, POINT],
  [COMMA, COMMA],
  [BLANK, POINT],
  [BLANK, COMMA],
]

/**
 * How cells are written in lines of numbers: the delimiter and decimal sign under which the
 * most cells are numbers in lines of equal length. The first of equals wins, in the order tab,
 * semicolon, comma, blanks, and a point before a comma.
 */
export function numericFormat(
  bytes: Uint8Array,
  lines: readonly HeadLine[],
  decimal?: number,
): CellFormat {
  const cells = new CellSplitter()
  let best: CellFormat = { delimiter: 0, decimal: decimal ?? POINT, columns: 1 }
  let bestScore = 0
  const present = bytesIn(bytes, lines)
  for (const [delimiter, sign] of CANDIDATES) {
    if (decimal !== undefined && sign !== decimal) continue
    // Without its byte a delimiter parts nothing, and without a comma both signs rate alike.
    const parts = delimiter === BLANK ? present[BLANK] + present[TAB] : present[delimiter]
    if (parts === 0 || (decimal === undefined && sign === COMMA && present[COMMA] === 0)) continue
    const { score, columns } = rate(bytes, lines, cells, delimiter, sign)
    if (columns > 1 && score > bestScore + 1e-9) {
      bestScore = score
      best = { delimiter, decimal: sign, columns }
    }
    if (bestScore === 1) break
  }
  return isOneColumnWithCommas(bytes, lines, best)
    ? { delimiter: 0, decimal: COMMA, columns: 1 }
    : best
}

/**
 * The format with as many columns as the line above the rows has cells, where the rows hold nothing
 * beyond them: spreadsheets write `350,0.21,,` under `nm,R`.
 */
export function underHeading(
  bytes: Uint8Array,
  format: CellFormat,
  heading: HeadLine | undefined,
  rows: readonly HeadLine[],
): CellFormat {
  const { delimiter } = format
  if (heading === undefined || delimiter === BLANK || delimiter === 0) return format
  const cells = new CellSplitter()
  const columns = cells.split(bytes, heading.start, heading.end, delimiter)
  if (columns < 2 || columns >= format.columns) return format
  const fits = rows.every(({ start, end }) => {
    cells.split(bytes, start, end, delimiter)
    return cells.filled(columns) === columns
  })
  return fits ? { ...format, columns } : format
}

/** Which bytes occur in some lines: 1 at their place, else 0. */
function bytesIn(bytes: Uint8Array, lines: readonly HeadLine[]): Uint8Array {
  const present = new Uint8Array(256)
  for (const { start, end } of lines) for (let i = start; i < end; i++) present[bytes[i]] = 1
  return present
}

/** The share of cells that are numbers, times the share of lines with the commonest count of cells. */
function rate(
  bytes: Uint8Array,
  lines: readonly HeadLine[],
  cells: CellSplitter,
  delimiter: number,
  decimal: number,
): { score: number; columns: number } {
  const counts = new Map<number, number>()
  let numbers = 0
  let all = 0
  for (const { start, end } of lines) {
    const count = cells.split(bytes, start, end, delimiter)
    counts.set(count, (counts.get(count) ?? 0) + 1)
    all += count
    for (let c = 0; c < count; c++) {
      const value = parseNumber(bytes, cells.starts[c], cells.ends[c], decimal)
      if (!Number.isNaN(value) || isGapMark(bytes, cells.starts[c], cells.ends[c])) numbers++
    }
  }
  let columns = 1
  let most = 0
  for (const [count, times] of counts) {
    if (times > most || (times === most && count > columns)) {
      most = times
      columns = count
    }
  }
  return { score: (numbers / Math.max(1, all)) * (most / Math.max(1, lines.length)), columns }
}

/** Lines such as `0,123`: read as two columns, the first would hardly change. */
function isOneColumnWithCommas(
  bytes: Uint8Array,
  lines: readonly HeadLine[],
  format: CellFormat,
): boolean {
  if (format.delimiter !== COMMA || format.columns !== 2 || lines.length < 3) return false
  let previous = NaN
  let turns = false
  for (const { start, end } of lines) {
    let comma = start
    while (comma < end && bytes[comma] !== COMMA) comma++
    const first = parseNumber(bytes, start, comma, POINT)
    for (let i = start; i < end; i++) if (bytes[i] === POINT || bytes[i] === 34) return false
    if (!Number.isInteger(first) || isSpace(bytes[comma + 1])) return false
    if (first === previous) turns = true
    previous = first
  }
  return turns && Math.abs(previous) < 100
}

/**
 * How cells are written in lines of text: the delimiter under which most lines, from some line
 * on, have the same number of cells, and that line's index.
 *
 * @returns null where no delimiter gives two lines of two cells or more
 */
export function textFormat(
  bytes: Uint8Array,
  lines: readonly HeadLine[],
): (CellFormat & { readonly first: number }) | null {
  const cells = new CellSplitter()
  let best: (CellFormat & { first: number }) | null = null
  let bestRun = 1
  for (const delimiter of [TAB, SEMICOLON, COMMA, BLANK]) {
    const counts = lines.map(({ start, end }) => cells.split(bytes, start, end, delimiter))
    const run = longestRun(counts)
    // Words of prose stand between blanks too: blanks only where nothing else serves.
    const isProse = best !== null || run.length < 3 || run.first + run.length < lines.length
    if (run.columns < 2 || (delimiter === BLANK && isProse)) continue
    if (run.length > bestRun) {
      bestRun = run.length
      best = { delimiter, decimal: POINT, columns: run.columns, first: run.first }
    }
  }
  return best
}

/**
 * The same where rows have empty cells beyond their heading's: the first line that all lines below
 * fit under, of which one at least has such cells.
 *
 * @returns null where no delimiter gives a heading and a row
 */
export function textFormatWithEmptyTails(
  bytes: Uint8Array,
  lines: readonly HeadLine[],
): (CellFormat & { readonly first: number }) | null {
  const cells = new CellSplitter()
  for (const delimiter of [TAB, SEMICOLON, COMMA]) {
    const counts = lines.map(({ start, end }) => {
      const all = cells.split(bytes, start, end, delimiter)
      return { all, filled: cells.filled(1) }
    })
    // How many cells hold something in the fullest of the lines below each.
    const below = counts.map(() => 0)
    for (let i = counts.length - 2; i >= 0; i--)
      below[i] = Math.max(below[i + 1], counts[i + 1].filled)
    const first = counts.findIndex(
      ({ filled }, i) => filled > 1 && below[i] > 0 && below[i] <= filled,
    )
    const columns = first < 0 ? 0 : counts[first].filled
    const rows = counts.slice(first + 1)
    if (columns > 1 && rows.every(({ all }) => all > 1) && rows.some(({ all }) => all > columns))
      return { delimiter, decimal: POINT, columns, first }
  }
  return null
}

/** The longest run of equal counts above 1. */
function longestRun(counts: readonly number[]): { first: number; length: number; columns: number } {
  let best = { first: 0, length: 0, columns: 1 }
  for (let first = 0; first < counts.length;) {
    let end = first + 1
    while (end < counts.length && counts[end] === counts[first]) end++
    if (counts[first] > 1 && end - first > best.length)
      best = { first, length: end - first, columns: counts[first] }
    first = end
  }
  return best
}
