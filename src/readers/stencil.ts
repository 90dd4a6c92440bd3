/**
 * Bodies of two columns that differ from one read before in nothing but the digits of their values.
 *
 * An instrument writes the same wavelengths into every file and its values with as many digits, so
 * that each digit of one file stands where it stood in the last. A stencil holds all that stays:
 * one pass compares it, a second reads the digits through its openings. Both are a few operations a
 * word, and a worker has run them thousands of times within its first file.
 */
import type { CellFormat } from './head'
import { lineEnd, nextLine } from './lines'
import { isSpace, parseNumber } from './numbers'

export interface Stencil {
  readonly delimiter: number
  readonly decimal: number
  /** Bytes of the body, from its first row to the file's end. */
  readonly length: number
  /** The body in words of four bytes, and which of their bits stay the same in every file. */
  readonly words: Int32Array
  readonly fixed: Int32Array
  /** Where each row's value begins, from the body's start. */
  readonly cells: Int32Array
  /** Digits after the sign; one stands before it. */
  readonly decimals: number
  /** What the first column says; the array that scans share. */
  readonly wavelengths: Float64Array
  /** Room for a file's values, which the next file overwrites. */
  readonly room: Float64Array
}

/** Stencils that are kept: as many as instruments and settings that a folder mixes. */
const KEPT = 4
/** A longer body is no scan of an instrument's. */
const MOST_BYTES = 2_000_000
/** Of a digit's byte the upper four bits are the same for all ten digits. */
const DIGIT = 0xf0
const MOST_DECIMALS = 8

/**
 * Cuts the stencil of a body that was read in two columns, a row a line.
 *
 * @param start where the first row begins
 * @param wavelengths what the first column says
 * @returns null where a value is not written as one digit, the sign and as many digits as the others
 */
function cutStencil(
  bytes: Uint8Array,
  start: number,
  format: CellFormat,
  wavelengths: Float64Array,
): Stencil | null {
  const { delimiter, decimal } = format
  const length = bytes.length - start
  if (length < 4 || length > MOST_BYTES || delimiter === decimal) return null
  const body = bytes.subarray(start)
  const cells = new Int32Array(wavelengths.length)
  const bits = new Uint8Array(length).fill(255)
  let decimals = 0
  for (let row = 0, at = 0; row < cells.length; row++) {
    const end = lineEnd(body, at)
    const cell = unitCell(body, at, end, format)
    if (row === 0) decimals = end - cell - 2
    if (cell <= at || end - cell - 2 !== decimals || decimals > MOST_DECIMALS) return null
    bits[cell] = DIGIT
    bits.fill(DIGIT, cell + 2, end)
    cells[row] = cell
    at = nextLine(body, end)
  }
  const words = wordsOf(body)
  const fixed = wordsOf(bits)
  const room = new Float64Array(cells.length)
  return { delimiter, decimal, length, words, fixed, cells, decimals, wavelengths, room }
}

/** The last stencils, the newest first. They change how fast a file is read, never its numbers. */
let kept: readonly Stencil[] = []

/** Keeps the stencil of a body, if it has one. Parameters as in `cutStencil`. */
export function keepStencil(
  bytes: Uint8Array,
  start: number,
  format: CellFormat,
  wavelengths: Float64Array,
): Stencil | undefined {
  const stencil = cutStencil(bytes, start, format, wavelengths)
  if (stencil === null) return undefined
  kept = [stencil, ...kept.slice(0, KEPT - 1)]
  return stencil
}

/**
 * Reads two columns if they fit a stencil that is kept.
 *
 * @returns the stencil, its room filled with the values; null where none fits
 */
export function readByStencil(
  bytes: Uint8Array,
  start: number,
  { delimiter, decimal }: CellFormat,
): Stencil | null {
  for (const stencil of kept) {
    if (stencil.delimiter !== delimiter || stencil.decimal !== decimal) continue
    if (readThrough(stencil, bytes, start)) return stencil
  }
  return null
}

/** Where the value of a line begins that is one digit, the sign and digits up to its end; or -1. */
function unitCell(
  body: Uint8Array,
  start: number,
  end: number,
  { delimiter, decimal }: CellFormat,
): number {
  let i = end
  while (i > start && isDigit(body[i - 1])) i--
  const cell = i - 2
  const isUnit = i < end && cell > start && body[i - 1] === decimal && isDigit(body[cell])
  return isUnit && (body[cell - 1] === delimiter || isSpace(body[cell - 1])) ? cell : -1
}

function isDigit(byte: number): boolean {
  return byte >= 48 && byte <= 57
}

/** Words of four bytes from the first byte on, and one more that ends with the last byte. */
function wordsOf(bytes: Uint8Array): Int32Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length)
  const count = bytes.length >> 2
  const words = new Int32Array(count + 1)
  for (let i = 0; i < count; i++) words[i] = view.getInt32(4 * i, true)
  words[count] = view.getInt32(bytes.length - 4, true)
  return words
}

/**
 * Reads the values of a body into a stencil's room, each correctly rounded.
 *
 * @returns whether the body fits; where it does not, the room holds nothing of use
 */
export function readThrough(stencil: Stencil, bytes: Uint8Array, start: number): boolean {
  if (start < 0 || bytes.length - start !== stencil.length) return false
  const view = new DataView(bytes.buffer, bytes.byteOffset + start, stencil.length)
  if (!fits(stencil, view)) return false
  const rows = readDigits(stencil, view)
  return rows >= 0 && readLast(stencil, bytes.subarray(start), rows)
}

/** Whether all that stays the same is the same. */
function fits({ words, fixed, length }: Stencil, view: DataView): boolean {
  const count = words.length - 1
  for (let word = 0; word < count; word++)
    if (((view.getInt32(4 * word, true) ^ words[word]) & fixed[word]) !== 0) return false
  return ((view.getInt32(length - 4, true) ^ words[count]) & fixed[count]) === 0
}

/** Four digits in a word of 32 bits are told and read at once. */
const ZEROS = 0x30303030
const OVER_NINE = 0x06060606
const UPPER_BITS = 0xf0f0f0f0 | 0
const PAIRS = 0x00ff00ff

/**
 * The values of a body whose digits have the upper bits of digits. Read as a whole number of eight
 * decimals, which is exact, and divided once, each is correctly rounded (`numbers.ts`).
 *
 * @returns how many rows were read, all but the last few; -1 where a lower half is no digit's
 */
function readDigits({ cells, decimals, length, room }: Stencil, view: DataView): number {
  const firstMask = maskOf(Math.min(decimals, 4))
  const restMask = maskOf(Math.max(decimals - 4, 0))
  // A cell of eight decimals may not reach past the end: what follows the shorter ones is a line.
  let rows = cells.length
  while (rows > 0 && cells[rows - 1] + 10 > length) rows--
  let over = 0
  for (let row = 0; row < rows; row++) {
    const cell = cells[row]
    const whole = view.getUint8(cell) - 48
    const first = (view.getInt32(cell + 2, true) ^ ZEROS) & firstMask
    const rest = (view.getInt32(cell + 6, true) ^ ZEROS) & restMask
    over |= (whole + 6) | (first + OVER_NINE) | (rest + OVER_NINE)
    room[row] = (whole * 1e8 + fourDigits(first) * 1e4 + fourDigits(rest)) / 1e8
  }
  return (over & UPPER_BITS) === 0 ? rows : -1
}

/** Reads the rows that end too near the file's end for whole words. */
function readLast(
  { cells, decimals, decimal, room }: Stencil,
  body: Uint8Array,
  from: number,
): boolean {
  for (let row = from; row < cells.length; row++) {
    const cell = cells[row]
    room[row] = parseNumber(body, cell, cell + 2 + decimals, decimal)
    if (Number.isNaN(room[row])) return false
  }
  return true
}

/** The bits of a word's first bytes. */
function maskOf(bytes: number): number {
  return bytes >= 4 ? -1 : (1 << (8 * bytes)) - 1
}

/** Four digits, the first in the lowest byte. */
function fourDigits(word: number): number {
  const pairs = (Math.imul(word, 10) + (word >>> 8)) & PAIRS
  return (Math.imul(pairs, 100) + (pairs >>> 16)) & 0xffff
}
