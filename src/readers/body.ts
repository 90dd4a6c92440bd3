/** The rows of numbers under a heading, as columns. */
import type { CellFormat } from './head'
import { CellSplitter, isBlank, lineEnd, LONGEST_LINE, nextLine } from './lines'
import { COMMA, isDeleted, isGapMark, parseNumber, POINT, TENS } from './numbers'

/** A row that cannot be read, and why. */
export interface RowFault {
  readonly line: number
  readonly kind: 'long' | 'cells' | 'not a number'
  /** The cell or the row as written. */
  readonly start: number
  readonly end: number
  readonly found: number
  /** The column of a cell that is not a number. */
  readonly column: number
  readonly isLast: boolean
}

export interface Body {
  /** One array a column; a gap is NaN. */
  readonly columns: readonly Float64Array[]
  /** 1-based line of each row. */
  readonly lines: Int32Array
  /** The first row with a wrong number of cells, or null. */
  readonly rowFault: RowFault | null
  /** The first cell of each column that is neither a number nor marked as a gap. */
  readonly cellFaults: ReadonlyMap<number, RowFault>
}

/** Bytes that begin a comment among rows of numbers. */
const COMMENTS = new Set([35, 37, 33]) // # % !

/** Reads rows from `start` to the end. A row with a wrong number of cells ends it. */
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
      const found = end - at > LONGEST_LINE ? -1 : cells.split(bytes, at, end, format.delimiter)
      if (found !== columns) {
        const kind = found < 0 ? 'long' : 'cells'
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

function grown(column: Float64Array): Float64Array<ArrayBuffer> {
  const more = new Float64Array(column.length * 2)
  more.set(column)
  return more
}

/**
 * Two columns of plain numbers in one pass over the bytes; the arithmetic is `parseNumber`'s.
 *
 * @returns null at the first thing that is not plain (then the careful way says what it is)
 */
function readTwoColumns(
  bytes: Uint8Array,
  start: number,
  firstLine: number,
  format: CellFormat,
): Body | null {
  const { delimiter, decimal } = format
  const length = bytes.length
  const firstLength = nextLine(bytes, lineEnd(bytes, start)) - start
  let capacity = Math.ceil((1.1 * (length - start)) / Math.max(4, firstLength)) + 16
  let first = new Float64Array(capacity)
  let second = new Float64Array(capacity)
  let rows = 0
  let i = start
  while (i < length) {
    if (rows === capacity) {
      capacity *= 2
      first = grown(first)
      second = grown(second)
    }
    for (let column = 0; column < 2; column++) {
      while (i < length && (bytes[i] === 32 || (bytes[i] === 9 && delimiter !== 9))) i++
      let byte = bytes[i]
      const negative = byte === 45
      if (negative || byte === 43) byte = bytes[++i]
      let mantissa = 0
      let significant = 0
      let digits = 0
      let scale = 0
      let digit = byte - 48
      while (digit >= 0 && digit <= 9) {
        mantissa = mantissa * 10 + digit
        digits++
        if (mantissa !== 0) significant++
        digit = (byte = bytes[++i]) - 48
      }
      if (byte === decimal && byte !== delimiter) {
        const point = i
        digit = (byte = bytes[++i]) - 48
        while (digit >= 0 && digit <= 9) {
          mantissa = mantissa * 10 + digit
          if (mantissa !== 0) significant++
          digit = (byte = bytes[++i]) - 48
        }
        scale = point + 1 - i
        digits -= scale
        if (decimal === COMMA && scale === 0) return null
      }
      if (digits === 0) return null
      if (byte === 101 || byte === 69) {
        byte = bytes[++i]
        const below = byte === 45
        if (below || byte === 43) byte = bytes[++i]
        const exponentStart = i
        let exponent = 0
        digit = byte - 48
        while (digit >= 0 && digit <= 9) {
          exponent = exponent * 10 + digit
          digit = (byte = bytes[++i]) - 48
        }
        if (i === exponentStart || i - exponentStart > 3) return null
        scale += below ? -exponent : exponent
      }
      if (significant > 15 || scale < -22 || scale > 22) return null
      const size = scale < 0 ? mantissa / TENS[-scale] : mantissa * TENS[scale]
      const value = negative ? -size : size
      if (value === -9999 || value === -999) return null
      if (column === 0) first[rows] = value
      else second[rows] = value
      while (i < length && (bytes[i] === 32 || (bytes[i] === 9 && delimiter !== 9))) i++
      if (column === 0) {
        if (delimiter !== 32) {
          if (bytes[i] !== delimiter) return null
          i++
        } else if (bytes[i - 1] !== 32 && bytes[i - 1] !== 9) return null
      }
    }
    rows++
    if (i >= length) break
    if (bytes[i] === 13) i += bytes[i + 1] === 10 ? 2 : 1
    else if (bytes[i] === 10) i++
    else return null
    if (bytes[i] === 10 || bytes[i] === 13) {
      // Blank lines are plain only at the end: elsewhere lines would be counted wrongly.
      while (i < length && (bytes[i] === 10 || bytes[i] === 13)) i++
      if (i < length) return null
    }
  }
  const lines = new Int32Array(rows)
  for (let row = 0; row < rows; row++) lines[row] = firstLine + row
  return {
    columns: [first.slice(0, rows), second.slice(0, rows)],
    lines,
    rowFault: null,
    cellFaults: NO_FAULTS,
  }
}

const NO_FAULTS: ReadonlyMap<number, RowFault> = new Map()

/** The decimal sign as a character. */
export function decimalSign(decimal: number): '.' | ',' {
  return decimal === COMMA ? ',' : '.'
}

/** The byte of a decimal sign. */
export function decimalByte(sign: '.' | ','): number {
  return sign === ',' ? COMMA : POINT
}
