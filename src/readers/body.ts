/** The rows of numbers under a heading, as columns. */
import { textOf } from './decode'
import type { CellFormat } from './head'
import { CellSplitter, isBlank, lineEnd, LONGEST_LINE, MOST_ROWS, nextLine } from './lines'
import { COMMA, isDeleted, isGapMark, parseNumber, POINT } from './numbers'
import type { Stencil } from './stencil'
import { readTwoColumns } from './two-columns'

/** A row that cannot be read, and why. */
export interface RowFault {
  readonly line: number
  readonly kind: 'long' | 'many' | 'cells' | 'not a number'
  /** The cell or the row as written. */
  readonly start: number
  readonly end: number
  readonly found: number
  /** The column of a cell that is not a number. */
  readonly column: number
  readonly isLast: boolean
}

export interface Body {
  /** One array a column; a gap is NaN. They are good until the next body is read. */
  readonly columns: readonly Float64Array[]
  /** 1-based line of each row. */
  readonly lines: Int32Array
  /** The first row with a wrong number of cells, or null. */
  readonly rowFault: RowFault | null
  /** The first cell of each column that is neither a number nor marked as a gap. */
  readonly cellFaults: ReadonlyMap<number, RowFault>
  /** Comments among the rows and pairs below them, as written. */
  readonly remarks?: readonly string[]
  /** What the body fits, where files alike can be read by it. */
  readonly stencil?: Stencil
}

/** Bytes that begin a comment among rows of numbers. */
const COMMENTS = new Set([35, 37, 33]) // # % !

/** Reads rows from `start` to the end. A row with a wrong number of cells ends it, or one too many. */
export function readBody(
  bytes: Uint8Array,
  start: number,
  firstLine: number,
  format: CellFormat,
): Body {
  const fast = format.columns === 2 ? readTwoColumns(bytes, start, firstLine, format) : null
  return fast ?? readAnyColumns(bytes, start, firstLine, format)
}

function readAnyColumns(
  bytes: Uint8Array,
  start: number,
  firstLine: number,
  format: CellFormat,
): Body {
  const { columns, decimal } = format
  const cells = new CellSplitter()
  const cellFaults = new Map<number, RowFault>()
  let rowFault: RowFault | null = null
  let values = Array.from({ length: columns }, () => new Float64Array(256))
  let lines = new Int32Array(256)
  const remarks: string[] = []
  let rows = 0
  let line = firstLine
  for (let at = start; at < bytes.length; line++) {
    const end = lineEnd(bytes, at)
    const isLast = end >= bytes.length
    if (COMMENTS.has(bytes[at])) {
      if (remarks.length < MOST_REMARKS) remarks.push(textOf(bytes, at, Math.min(end, at + 500)))
    } else if (!isBlank(bytes, at, end)) {
      const found = countCells(cells, bytes, at, end, format)
      const below = found !== columns && rows > 0 ? linesBelow(bytes, at) : null
      if (below !== null) {
        remarks.push(...below)
        break
      }
      if (found !== columns || rows === MOST_ROWS) {
        const kind = found < 0 ? 'long' : found === columns ? 'many' : 'cells'
        rowFault = { line, kind, start: at, end, found, column: -1, isLast }
        break
      }
      if (rows === lines.length) {
        values = values.map((column) => grown(column))
        lines = moreLines(lines)
      }
      for (let c = 0; c < columns; c++) {
        const from = cells.starts[c]
        const to = cells.ends[c]
        let value = parseNumber(bytes, from, to, decimal)
        if (isDeleted(value)) value = NaN
        else if (Number.isNaN(value) && !cellFaults.has(c) && !isGapMark(bytes, from, to)) {
          const fault = { line, start: from, end: to, found, column: c, isLast }
          cellFaults.set(c, { ...fault, kind: 'not a number' })
        }
        values[c][rows] = value
      }
      lines[rows++] = line
    }
    at = nextLine(bytes, end)
  }
  return {
    columns: values.map((column) => column.slice(0, rows)),
    lines: lines.slice(0, rows),
    rowFault,
    cellFaults,
    remarks,
  }
}

/** Longer text below the rows is no remark on their end, nor what was written of them. Bytes. */
const LONGEST_REMARK = 200
const LONGEST_PAIRS = 5000
const MOST_REMARKS = 200
/** A key of letters with its value. */
const PAIR_BELOW = /^\p{L}[\p{L} _.()-]{1,60}[:=]\s*\S/u

/**
 * What a file ends in from here: words alone, such as `End of data`, or keys with values, which no
 * row was. Null where it is neither.
 */
function linesBelow(bytes: Uint8Array, start: number): string[] | null {
  if (bytes.length - start > LONGEST_PAIRS) return null
  const rest = textOf(bytes, start, bytes.length)
  const lines = rest.split(/[\r\n]+/).filter((line) => line.trim() !== '')
  const areWords = rest.length <= LONGEST_REMARK && /\p{L}{2}/u.test(rest) && !/\d/.test(rest)
  return areWords || lines.every((line) => PAIR_BELOW.test(line.trim())) ? lines : null
}

/**
 * The cells of a line; -1 for a line beyond reason. Empty cells beyond the columns do not count, and
 * an empty last cell that ends the file is cut off.
 */
function countCells(
  cells: CellSplitter,
  bytes: Uint8Array,
  start: number,
  end: number,
  format: CellFormat,
): number {
  if (end - start > LONGEST_LINE) return -1
  cells.split(bytes, start, end, format.delimiter)
  const found = cells.filled(format.columns)
  const last = format.columns - 1
  const isCutOff = end >= bytes.length && found === last + 1 && cells.ends[last] === end
  return isCutOff && last > 0 && cells.starts[last] === end ? found - 1 : found
}

/** A column with room for twice as many rows. */
function grown(column: Float64Array): Float64Array<ArrayBuffer> {
  const more = new Float64Array(column.length * 2)
  more.set(column)
  return more
}

function moreLines(lines: Int32Array): Int32Array<ArrayBuffer> {
  const more = new Int32Array(lines.length * 2)
  more.set(lines)
  return more
}

/** The decimal sign as a character. */
export function decimalSign(decimal: number): '.' | ',' {
  return decimal === COMMA ? ',' : '.'
}

/** The byte of a decimal sign. */
export function decimalByte(sign: '.' | ','): number {
  return sign === ',' ? COMMA : POINT
}
