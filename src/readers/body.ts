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
  let rows = 0
  let line = firstLine
  for (let at = start; at < bytes.length; line++) {
    const end = lineEnd(bytes, at)
    const isLast = end >= bytes.length
    if (!isBlank(bytes, at, end) && !COMMENTS.has(bytes[at])) {
      const found = countCells(cells, bytes, at, end, format)
      if (found !== columns && rows > 0 && isWords(bytes, at)) break
      if (found !== columns || rows === MOST_ROWS) {
        const kind = found < 0 ? 'long' : found === columns ? 'many' : 'cells'
        rowFault = { line, kind, start: at, end, found, column: -1, isLast }
        break
      }
      if (rows === lines.length) {
        values = values.map((column) => grown(column))
        const more = new Int32Array(rows * 2)
        more.set(lines)
        lines = more
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
  }
}

/** Longer text below the rows is no remark on their end. */
const LONGEST_REMARK = 200

/** Whether a file ends from here in words alone, such as `End of data`: no row was so. */
function isWords(bytes: Uint8Array, start: number): boolean {
  if (bytes.length - start > LONGEST_REMARK) return false
  const rest = textOf(bytes, start, bytes.length)
  return /\p{L}{2}/u.test(rest) && !/\d/.test(rest)
}

/** The cells of a line; -1 for a line beyond reason. An empty last cell that ends the file is cut off. */
function countCells(
  cells: CellSplitter,
  bytes: Uint8Array,
  start: number,
  end: number,
  format: CellFormat,
): number {
  if (end - start > LONGEST_LINE) return -1
  const found = cells.split(bytes, start, end, format.delimiter)
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

/** The decimal sign as a character. */
export function decimalSign(decimal: number): '.' | ',' {
  return decimal === COMMA ? ',' : '.'
}

/** The byte of a decimal sign. */
export function decimalByte(sign: '.' | ','): number {
  return sign === ',' ? COMMA : POINT
}
