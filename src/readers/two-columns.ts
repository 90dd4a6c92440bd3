/** The fast way through a file of two columns of plain numbers. */
import type { Body, RowFault } from './body'
import type { CellFormat } from './head'
import { keepAxis, readOnKnownAxis } from './known-axis'
import { BLANK, lineEnd, MOST_ROWS, nextLine, TAB } from './lines'
import { PlainNumbers } from './plain-numbers'
import { keepStencil, readByStencil } from './stencil'

const LF = 10
const CR = 13

const NO_FAULTS: ReadonlyMap<number, RowFault> = new Map()

/**
 * Two columns of plain numbers, by comparing the first column with those of files before and
 * else by reading both.
 *
 * @returns null at the first thing that is not plain (then the careful way says what it is)
 */
export function readTwoColumns(
  bytes: Uint8Array,
  start: number,
  firstLine: number,
  format: CellFormat,
): Body | null {
  const fitting = readByStencil(bytes, start, format)
  if (fitting !== null)
    return { ...bodyOf(fitting.wavelengths, fitting.room, firstLine), stencil: fitting }
  const known = readOnKnownAxis(bytes, start, format)
  if (known !== null) {
    const { wavelengths, values, isEven } = known
    const stencil = isEven ? keepStencil(bytes, start, format, wavelengths) : undefined
    return { ...bodyOf(wavelengths, values, firstLine), stencil }
  }
  const pairs = readPairs(bytes, start, format)
  if (pairs === null) return null
  const rows = pairs.length >> 1
  const first = new Float64Array(rows)
  const second = new Float64Array(rows)
  for (let row = 0; row < rows; row++) {
    first[row] = pairs[2 * row]
    second[row] = pairs[2 * row + 1]
  }
  keepAxis(bytes, start, format, first)
  const stencil = keepStencil(bytes, start, format, first)
  return { ...bodyOf(first, second, firstLine), stencil }
}

/**
 * The numbers of two columns, row by row, in one pass over the bytes.
 *
 * @returns null at the first thing that is not plain
 */
function readPairs(
  bytes: Uint8Array,
  start: number,
  { delimiter, decimal }: CellFormat,
): Float64Array | null {
  const cells = new PlainNumbers(bytes, start, delimiter, decimal)
  const numbers = new Growing(2 * expectedRows(bytes, start))
  let values = numbers.values
  let count = 0
  while (cells.at < bytes.length) {
    if (count + 2 > values.length) {
      if (count > 2 * MOST_ROWS) return null
      values = numbers.grow()
    }
    values[count++] = cells.read()
    if (!passDelimiter(cells, bytes, delimiter)) return null
    values[count++] = cells.read()
    if (cells.failed || !passLineEnd(cells, bytes)) return null
  }
  return values.subarray(0, count)
}

/** How many rows there may be at most, by the length of the first, with some to spare. */
function expectedRows(bytes: Uint8Array, start: number): number {
  const firstLength = nextLine(bytes, lineEnd(bytes, start)) - start
  const rows = Math.ceil((1.2 * (bytes.length - start)) / Math.max(4, firstLength)) + 64
  return Math.min(rows, MOST_ROWS + 64)
}

/** Passes over what parts two cells; false where it is something else. */
function passDelimiter(cells: PlainNumbers, bytes: Uint8Array, delimiter: number): boolean {
  if (delimiter !== BLANK) return bytes[cells.at++] === delimiter
  const before = bytes[cells.at - 1]
  return before === BLANK || before === TAB
}

/**
 * Passes over the end of a line, or of the file; false where something else stands there. Blank
 * lines are plain only at the end of the file: elsewhere lines would be counted wrongly.
 */
function passLineEnd(cells: PlainNumbers, bytes: Uint8Array): boolean {
  let i = cells.at
  if (i >= bytes.length) return true
  if (bytes[i] !== LF && bytes[i] !== CR) return false
  i = nextLine(bytes, i)
  const next = i
  while (bytes[i] === LF || bytes[i] === CR) i++
  cells.at = i
  return i === next || i >= bytes.length
}

/** Numbers of unknown count. */
class Growing {
  values: Float64Array

  constructor(capacity: number) {
    this.values = new Float64Array(capacity)
  }

  grow(): Float64Array {
    const more = new Float64Array(this.values.length * 2)
    more.set(this.values)
    this.values = more
    return more
  }
}

/** The last body's lines: files alike share them. */
let lastLines = new Int32Array(0)

function linesFrom(firstLine: number, rows: number): Int32Array {
  if (lastLines.length !== rows || lastLines[0] !== firstLine) {
    const lines = new Int32Array(rows)
    for (let row = 0; row < rows; row++) lines[row] = firstLine + row
    lastLines = lines
  }
  return lastLines
}

/** Two columns as the body of a table whose rows stand on consecutive lines. */
function bodyOf(first: Float64Array, second: Float64Array, firstLine: number): Body {
  const lines = linesFrom(firstLine, first.length)
  return { columns: [first, second], lines, rowFault: null, cellFaults: NO_FAULTS }
}
