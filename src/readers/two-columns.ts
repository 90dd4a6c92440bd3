/** The fast way through a file of two columns of plain numbers. */
import type { Body, RowFault } from './body'
import type { CellFormat } from './head'
import { keepAxis, readOnKnownAxis } from './known-axis'
import { lineEnd, MOST_ROWS, nextLine } from './lines'
import { keepStencil, readByStencil } from './stencil'
import { isDeleted, parseNumber, TENS } from './numbers'

const NO_FAULTS: ReadonlyMap<number, RowFault> = new Map()

/** Digits of which an integer is exact in 32 bits. */
const SHORT = 9

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
 * The numbers of two columns, row by row, in one pass over the bytes. Up to nine digits gather in a 32-bit
 * integer and up to nine more in a second; the arithmetic is exact as in `parseNumber`, which
 * reads the numbers that are longer.
 *
 * @returns null at the first thing that is not plain
 */
function readPairs(bytes: Uint8Array, start: number, format: CellFormat): Float64Array | null {
  const { delimiter, decimal } = format
  const length = bytes.length
  const tens = TENS
  const short = SHORT
  const between = delimiter === 9 ? 32 : 9
  const firstLength = nextLine(bytes, lineEnd(bytes, start)) - start
  const capacity = Math.ceil((1.2 * (length - start)) / Math.max(4, firstLength)) + 64
  const numbers = new Growing(2 * Math.min(capacity, MOST_ROWS + 64))
  let values = numbers.values
  let count = 0
  let i = start
  while (i < length) {
    if (count + 2 > values.length) {
      if (count > 2 * MOST_ROWS) return null
      values = numbers.grow()
    }
    for (let column = 0; column < 2; column++) {
      while (bytes[i] === 32 || bytes[i] === between) i++
      const cell = i
      let byte = bytes[i]
      const negative = byte === 45
      if (negative || byte === 43) byte = bytes[++i]
      let head = 0
      let tail = 0
      let digits = 0
      let tailDigits = 0
      let scale = 0
      let digit = byte - 48
      while (digit >= 0 && digit <= 9) {
        head = (head * 10 + digit) | 0
        digits++
        digit = bytes[++i] - 48
      }
      if (digits > short) digits = 99
      if (bytes[i] === decimal && decimal !== delimiter) {
        const point = i++
        digit = bytes[i] - 48
        while (digit >= 0 && digit <= 9 && digits < short) {
          head = (head * 10 + digit) | 0
          digits++
          digit = bytes[++i] - 48
        }
        while (digit >= 0 && digit <= 9) {
          tail = (tail * 10 + digit) | 0
          tailDigits++
          digit = bytes[++i] - 48
        }
        scale = point + 1 - i
        if (decimal === 44 && scale === 0) return null
      }
      if (digits + tailDigits === 0) return null
      byte = bytes[i]
      if (byte === 101 || byte === 69) {
        byte = bytes[++i]
        const below = byte === 45
        if (below || byte === 43) byte = bytes[++i]
        const exponentStart = i
        let exponent = 0
        digit = byte - 48
        while (digit >= 0 && digit <= 9) {
          exponent = (exponent * 10 + digit) | 0
          digit = bytes[++i] - 48
        }
        if (i === exponentStart || i - exponentStart > 3) return null
        scale += below ? -exponent : exponent
      }
      let value: number
      if (digits + tailDigits <= 15 && scale >= -22 && scale <= 22) {
        const mantissa = tailDigits === 0 ? head : head * tens[tailDigits] + tail
        value = scale < 0 ? mantissa / tens[-scale] : mantissa * tens[scale]
        if (negative) value = -value
      } else {
        value = parseNumber(bytes, cell, i, decimal)
        if (Number.isNaN(value)) return null
      }
      if (value <= -999 && isDeleted(value)) value = NaN
      values[count++] = value
      while (bytes[i] === 32 || bytes[i] === between) i++
      if (column === 0) {
        if (delimiter === 32) {
          if (bytes[i - 1] !== 32 && bytes[i - 1] !== 9) return null
        } else if (bytes[i++] !== delimiter) return null
      }
    }
    if (i >= length) break
    if (bytes[i] === 13) i += bytes[i + 1] === 10 ? 2 : 1
    else if (bytes[i] === 10) i++
    else return null
    if (bytes[i] === 10 || bytes[i] === 13) {
      // Blank lines are plain only at the end: elsewhere lines would be counted wrongly.
      while (bytes[i] === 10 || bytes[i] === 13) i++
      if (i < length) return null
    }
  }
  return values.subarray(0, count)
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
