/**
 * Two columns of numbers whose first column is known already, as text, from a file read before:
 * an instrument writes the same wavelengths into every file. Comparing them is several times as
 * fast as reading them, and files that share an axis come out with one array.
 */
import type { CellFormat } from './head'
import { BLANK, lineEnd, nextLine, TAB } from './lines'
import { isDeleted, parseNumber, TENS } from './numbers'

/** A first column as it was written. */
export interface KnownAxis {
  readonly delimiter: number
  readonly decimal: number
  readonly wavelengths: Float64Array
  /**
   * The beginnings of all lines, each up to and with the first delimiter after its first cell: as
   * many words of four bytes a row as the longest needs, and which of their bits count.
   */
  readonly words: Int32Array
  readonly masks: Int32Array
  readonly wordsPerRow: number
  /** Bytes of each beginning. */
  readonly lengths: Uint8Array
}

/** Axes that are kept: as many as instruments and settings that a folder mixes. */
const KEPT = 4
/** A longer axis is no instrument's and is not kept. */
const MOST_ROWS = 65_536
/** The longest beginning of a line that is kept. */
const MOST_TEXT = 32

/** The last axes, the newest first. What is kept changes how fast a file is read, never its numbers. */
let kept: readonly KnownAxis[] = []

/**
 * Keeps the first column of a text that was read in two columns.
 *
 * @param start where the first row begins
 * @param wavelengths what its first cells are, a row each, without rows between
 */
export function keepAxis(
  bytes: Uint8Array,
  start: number,
  { delimiter, decimal }: CellFormat,
  wavelengths: Float64Array,
): void {
  const rows = wavelengths.length
  if (rows > MOST_ROWS || delimiter === decimal) return
  const lengths = new Uint8Array(rows)
  const begins = new Int32Array(rows)
  let longest = 0
  let at = start
  for (let row = 0; row < rows; row++) {
    const count = cellEnd(bytes, at, delimiter) + 1 - at
    if (count > MOST_TEXT) return
    if (count > longest) longest = count
    begins[row] = at
    lengths[row] = count
    at = nextLine(bytes, lineEnd(bytes, at))
  }
  const wordsPerRow = Math.ceil(longest / 4)
  const text = new Uint8Array(rows * wordsPerRow * 4)
  const mask = new Uint8Array(text.length)
  for (let row = 0; row < rows; row++) {
    const to = row * wordsPerRow * 4
    text.set(bytes.subarray(begins[row], begins[row] + lengths[row]), to)
    mask.fill(255, to, to + lengths[row])
  }
  const words = littleEndian(text)
  const masks = littleEndian(mask)
  const axis = { delimiter, decimal, wavelengths, words, masks, wordsPerRow, lengths }
  kept = [axis, ...kept.slice(0, KEPT - 1)]
}

function littleEndian(bytes: Uint8Array): Int32Array {
  const view = new DataView(bytes.buffer)
  return Int32Array.from({ length: bytes.length / 4 }, (_, i) => view.getInt32(4 * i, true))
}

/** Where the delimiter after a line's first cell stands. */
function cellEnd(bytes: Uint8Array, start: number, delimiter: number): number {
  let i = start
  if (delimiter !== BLANK) while (bytes[i] !== delimiter) i++
  else {
    while (bytes[i] === BLANK || bytes[i] === TAB) i++
    while (bytes[i] !== BLANK && bytes[i] !== TAB) i++
  }
  return i
}

/** Both columns of a text whose first column is one that is kept. */
export interface OnKnownAxis {
  /** The array that was kept. */
  readonly wavelengths: Float64Array
  readonly values: Float64Array
  /** Whether all values are written as one digit, the sign and equally many digits. */
  readonly isEven: boolean
}

/**
 * Reads two columns if the first is one that is kept and the second holds numbers throughout.
 *
 * @returns null where it is not so; then a more patient reader says what there is
 */
export function readOnKnownAxis(
  bytes: Uint8Array,
  start: number,
  format: CellFormat,
): OnKnownAxis | null {
  for (const axis of kept) {
    if (axis.delimiter !== format.delimiter || axis.decimal !== format.decimal) continue
    const cells = new CellReader(axis.delimiter, axis.decimal)
    const values = readValuesOn(axis, bytes, start, cells)
    if (values === null) continue
    if (axis !== kept[0]) kept = [axis, ...kept.filter((other) => other !== axis)]
    return { wavelengths: axis.wavelengths, values, isEven: cells.isEven }
  }
  return null
}

/** More bytes than a plain row has. */
const PAD = 96

function readValuesOn(
  axis: KnownAxis,
  bytes: Uint8Array,
  start: number,
  cells: CellReader,
): Float64Array | null {
  const values = new Float64Array(axis.wavelengths.length)
  const reached = readRows(axis, bytes, { row: 0, at: start }, bytes.length - PAD, cells, values)
  if (reached === null) return null
  // The rest is read from a copy: looking past an array's end is slow throughout.
  const tail = new Uint8Array(bytes.length - reached.at + PAD)
  tail.set(bytes.subarray(reached.at))
  const end = tail.length - PAD
  const last = readRows(axis, tail, { row: reached.row, at: 0 }, end, cells, values)
  if (last === null || last.row < values.length) return null
  let i = last.at
  while (tail[i] === 10 || tail[i] === 13) i++
  return i < end ? null : values
}

/** A row and where it begins. */
interface Reached {
  readonly row: number
  readonly at: number
}

/** Reads rows from one on, up to those that begin at `limit`; null at one that is not plain. */
function readRows(
  axis: KnownAxis,
  bytes: Uint8Array,
  from: Reached,
  limit: number,
  cells: CellReader,
  values: Float64Array,
): Reached | null {
  const { words, masks, wordsPerRow, lengths, decimal } = axis
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length)
  let { row, at } = from
  let word = row * wordsPerRow
  let { wholes, decimals } = cells
  for (; row < values.length && at < limit; row++) {
    if (wholes === 1 && decimals > 4) {
      ;({ row, at } = readUnitRows(axis, bytes, view, { row, at }, limit, decimals, values))
      if (row >= values.length || at >= limit) break
      word = row * wordsPerRow
    }
    for (let k = 0; k < wordsPerRow; k++, word++)
      if (((view.getInt32(at + 4 * k, true) ^ words[word]) & masks[word]) !== 0) return null
    at += lengths[row]
    while (bytes[at] === BLANK) at++
    // Many blanks may have led to where a cell of that length would reach past the end.
    const isPlain = decimals > 0 && at < limit
    const digits = isPlain ? fixedPoint(view, at, decimal, wholes, decimals) : -1
    if (digits >= 0) {
      values[row] = digits / TENS[decimals]
      at += wholes + 1 + decimals
    } else {
      values[row] = cells.read(bytes, at)
      at = cells.end
      wholes = cells.wholes
      decimals = cells.decimals
      if (at < 0) return null
    }
    if (bytes[at] === 13) at++
    if (bytes[at] === 10) at++
  }
  return { row, at }
}

/**
 * Reads rows whose value has one digit before the sign and as many as the row before after it, as
 * most instruments write reflectance: no loop within a row. Stops at the first other row.
 */
function readUnitRows(
  { words, masks, wordsPerRow, lengths, decimal }: KnownAxis,
  bytes: Uint8Array,
  view: DataView,
  from: Reached,
  limit: number,
  decimals: number,
  values: Float64Array,
): Reached {
  let { row, at } = from
  if (wordsPerRow > 2) return from
  const second = wordsPerRow - 1
  const shift = 8 * (8 - decimals)
  const power = TENS[decimals - 4]
  const divisor = TENS[decimals]
  const rows = values.length
  for (; row < rows && at < limit; row++) {
    const word = row * wordsPerRow
    const differs =
      ((view.getInt32(at, true) ^ words[word]) & masks[word]) |
      ((view.getInt32(at + 4 * second, true) ^ words[word + second]) & masks[word + second])
    const cell = at + lengths[row]
    const head = view.getUint16(cell, true)
    const first = view.getInt32(cell + 2, true) ^ ZEROS
    const rest = (view.getInt32(cell + 6, true) ^ ZEROS) << shift
    const whole = (head & 255) - 48
    const others = (first + OVER_NINE) | first | (rest + OVER_NINE) | rest
    if (differs !== 0 || (others & HIGH_BITS) !== 0 || head >> 8 !== decimal) break
    if (whole < 0 || whole > 9) break
    const end = cell + 2 + decimals
    const byte = bytes[end]
    if (byte === 10) at = end + 1
    else if (byte === 13) at = bytes[end + 1] === 10 ? end + 2 : end + 1
    else break
    values[row] = ((whole * 10_000 + fourDigits(first)) * power + fourDigits(rest)) / divisor
  }
  return { row, at }
}

/** Four digits in a word of 32 bits are told and read at once. */
const ZEROS = 0x30303030
const OVER_NINE = 0x06060606
const HIGH_BITS = 0xf0f0f0f0 | 0
const PAIRS = 0x00ff00ff

/**
 * The digits of a cell such as 0.123456 as one whole number, if the cell ends the line.
 *
 * @param wholes how many digits before the sign
 * @param decimals how many after it, 1 to 8
 * @returns -1 where the cell is not written so
 */
function fixedPoint(
  view: DataView,
  at: number,
  decimal: number,
  wholes: number,
  decimals: number,
): number {
  let whole = view.getUint8(at) - 48
  let others = whole < 0 || whole > 9
  for (let i = at + 1; i < at + wholes; i++) {
    const digit = view.getUint8(i) - 48
    if (digit < 0 || digit > 9) others = true
    whole = whole * 10 + digit
  }
  const point = at + wholes
  const end = view.getUint8(point + 1 + decimals)
  if (others || view.getUint8(point) !== decimal || (end !== 13 && end !== 10)) return -1
  const word = view.getInt32(point + 1, true) ^ ZEROS
  if (decimals <= 4) {
    const digits = word << (8 * (4 - decimals))
    return hasOthers(digits) ? -1 : whole * TENS[decimals] + fourDigits(digits)
  }
  const rest = (view.getInt32(point + 5, true) ^ ZEROS) << (8 * (8 - decimals))
  if (hasOthers(word) || hasOthers(rest)) return -1
  return (whole * 10_000 + fourDigits(word)) * TENS[decimals - 4] + fourDigits(rest)
}

/** Whether a byte of a word is none of the digits 0 to 9. */
function hasOthers(word: number): boolean {
  return (((word + OVER_NINE) | word) & HIGH_BITS) !== 0
}

/** Four digits, the first in the lowest byte. */
function fourDigits(word: number): number {
  const pairs = (Math.imul(word, 10) + (word >>> 8)) & PAIRS
  return (Math.imul(pairs, 100) + (pairs >>> 16)) & 0xffff
}

/** Reads the last cell of a line, however its number is written. */
class CellReader {
  /** Where the line of the last cell ends; -1 where it held no number. */
  end = 0
  /** How `fixedPoint` may read the next cell: as the last that was written so; 0 where none was. */
  wholes = 0
  decimals = 0
  /** How many cells were not as the one before. */
  #turns = 0

  constructor(
    private readonly delimiter: number,
    private readonly decimal: number,
  ) {}

  /** Whether all cells were written as the first, with one digit before the sign. */
  get isEven(): boolean {
    return this.#turns === 1 && this.wholes === 1
  }

  /** The number from `start` to the line's end, blanks around it allowed; a gap is NaN. */
  read(bytes: Uint8Array, start: number): number {
    this.#turns++
    let end = start
    while (bytes[end] !== 13 && bytes[end] !== 10 && bytes[end] > 0) end++
    const value = parseNumber(bytes, start, end, this.decimal)
    const isOneCell = this.delimiter === BLANK || !hasByte(bytes, start, end, this.delimiter)
    this.end = isOneCell && !Number.isNaN(value) ? end : -1
    let point = start
    while (point < end && bytes[point] !== this.decimal) point++
    const decimals = end - point - 1
    if (point > start && point - start <= 5 && decimals >= 1 && decimals <= 8) {
      this.wholes = point - start
      this.decimals = decimals
    }
    return isDeleted(value) ? NaN : value
  }
}

function hasByte(bytes: Uint8Array, start: number, end: number, byte: number): boolean {
  for (let i = start; i < end; i++) if (bytes[i] === byte) return true
  return false
}
