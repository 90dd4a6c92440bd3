/** Decimal numbers read one after another, without looking for their ends first. */
import { BLANK, TAB } from './lines'
import { COMMA, isDeleted, parseNumber, TENS } from './numbers'

/** Digits of which an integer is exact in 32 bits. */
const SHORT = 9

/** The letters e and E, and the signs. */
const E_SMALL = 101
const E_LARGE = 69
const PLUS = 43
const MINUS = 45
const ZERO = 48

/**
 * Reads plain numbers from bytes. Up to nine digits gather in a 32-bit integer and up to nine more
 * in a second; the arithmetic is exact as in `parseNumber`, which reads the numbers that are longer.
 */
export class PlainNumbers {
  /** Where the next number or what stands between is looked for. */
  at: number
  /** Whether what was read last was no plain number. */
  failed = false
  /** What may stand around a number besides blanks. */
  private readonly between: number

  /**
   * @param delimiter the byte that parts cells, `BLANK` for any blanks
   * @param decimal the byte of the decimal sign
   */
  constructor(
    private readonly bytes: Uint8Array,
    start: number,
    private readonly delimiter: number,
    private readonly decimal: number,
  ) {
    this.at = start
    this.between = delimiter === TAB ? BLANK : TAB
  }

  private behindBlanks(start: number): number {
    const { bytes, between } = this
    let i = start
    while (bytes[i] === BLANK || bytes[i] === between) i++
    return i
  }

  /** The number at `at`, blanks around it passed over; a deleted channel is NaN. */
  read(): number {
    const { bytes, decimal } = this
    const cell = this.behindBlanks(this.at)
    let i = cell
    const negative = bytes[i] === MINUS
    if (negative || bytes[i] === PLUS) i++
    let head = 0
    let tail = 0
    let tailDigits = 0
    let scale = 0
    const first = i
    let digit = bytes[i] - ZERO
    while (digit >= 0 && digit <= 9) {
      head = (head * 10 + digit) | 0
      digit = bytes[++i] - ZERO
    }
    let digits = i - first
    if (digits > SHORT) digits = 99
    if (bytes[i] === decimal && decimal !== this.delimiter) {
      const point = i++
      digit = bytes[i] - ZERO
      while (digit >= 0 && digit <= 9 && digits < SHORT) {
        head = (head * 10 + digit) | 0
        digits++
        digit = bytes[++i] - ZERO
      }
      while (digit >= 0 && digit <= 9) {
        tail = (tail * 10 + digit) | 0
        tailDigits++
        digit = bytes[++i] - ZERO
      }
      scale = point + 1 - i
      if (decimal === COMMA && scale === 0) this.failed = true
    }
    if (digits + tailDigits === 0) this.failed = true
    this.at = i
    if (bytes[i] === E_SMALL || bytes[i] === E_LARGE) scale += this.exponent()
    let value: number
    if (digits + tailDigits <= 15 && scale >= -22 && scale <= 22) {
      const mantissa = tailDigits === 0 ? head : head * TENS[tailDigits] + tail
      value = scale < 0 ? mantissa / TENS[-scale] : mantissa * TENS[scale]
      if (negative) value = -value
    } else {
      value = parseNumber(bytes, cell, this.at, decimal)
      if (Number.isNaN(value)) this.failed = true
    }
    this.at = this.behindBlanks(this.at)
    return value <= -999 && isDeleted(value) ? NaN : value
  }

  /** The exponent whose letter stands at `at`. */
  private exponent(): number {
    const { bytes } = this
    let i = this.at + 1
    const below = bytes[i] === MINUS
    if (below || bytes[i] === PLUS) i++
    const start = i
    let exponent = 0
    let digit = bytes[i] - ZERO
    while (digit >= 0 && digit <= 9) {
      exponent = (exponent * 10 + digit) | 0
      digit = bytes[++i] - ZERO
    }
    if (i === start || i - start > 3) this.failed = true
    this.at = i
    return below ? -exponent : exponent
  }
}
