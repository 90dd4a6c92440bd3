/**
 * Decimal numbers straight from bytes, correctly rounded.
 *
 * A decimal of at most 15 significant digits is an integer below 2^53, and a power of ten up to
 * 10^22 is exact in a double, so one multiplication or division rounds once and correctly
 * (Clinger 1990, PLDI, "How to read floating point numbers accurately"). Others go to Number().
 */
import { textOf } from './decode'

export const TENS = Float64Array.from({ length: 23 }, (_, power) => Number(`1e${power}`))

export const POINT = 46
export const COMMA = 44

/** A blank or a tab; other control characters are damage. */
export function isSpace(byte: number): boolean {
  return byte === 32 || byte === 9
}

/**
 * The number in `[start, end)`, blanks around it allowed.
 *
 * @param decimal the byte of the decimal sign, `POINT` or `COMMA`
 * @returns NaN where it is not wholly a finite decimal number
 */
export function parseNumber(
  bytes: Uint8Array,
  start: number,
  end: number,
  decimal: number,
): number {
  let i = start
  while (i < end && isSpace(bytes[i])) i++
  while (end > i && isSpace(bytes[end - 1])) end--
  const begin = i
  let byte = bytes[i]
  const negative = byte === 45
  if (negative || byte === 43) i++
  let mantissa = 0
  let digits = 0
  let significant = 0
  let scale = 0
  for (let fraction = false; i < end; i++) {
    byte = bytes[i]
    const digit = byte - 48
    if (digit >= 0 && digit <= 9) {
      mantissa = mantissa * 10 + digit
      digits++
      if (mantissa > 0) significant++
      if (fraction) scale--
    } else if (byte === decimal && !fraction) fraction = true
    else break
  }
  if (digits === 0) return afterPrintedMinus(bytes, begin, end, decimal)
  if (i < end) {
    const mark = bytes[i] | 32
    i++
    if (mark !== 101 && !isFortranExponent(mark, bytes[i])) return NaN
    const below = bytes[i] === 45
    if (below || bytes[i] === 43) i++
    if (i >= end || end - i > 6) return NaN
    let exponent = 0
    for (; i < end; i++) {
      const digit = bytes[i] - 48
      if (!(digit >= 0 && digit <= 9)) return NaN
      exponent = exponent * 10 + digit
    }
    scale += below ? -exponent : exponent
  }
  if (decimal === COMMA && bytes[end - 1] === COMMA) return NaN
  return rounded(mantissa, significant, scale, negative, bytes, begin, end)
}

/** A number behind the sign U+2212, which typesetting puts for the hyphen. */
function afterPrintedMinus(bytes: Uint8Array, start: number, end: number, decimal: number): number {
  const isMinus = bytes[start] === 0xe2 && bytes[start + 1] === 0x88 && bytes[start + 2] === 0x92
  const next = bytes[start + 3]
  if (!isMinus || start + 3 >= end || next === 43 || next === 45) return NaN
  return -parseNumber(bytes, start + 3, end, decimal)
}

/** `1.5D+02`: a double of Fortran; its exponent always has a sign. */
function isFortranExponent(mark: number, next: number): boolean {
  return mark === 100 && (next === 43 || next === 45)
}

/** The exact quotient or product where one rounding is enough, else by Number(). */
function rounded(
  mantissa: number,
  significant: number,
  scale: number,
  negative: boolean,
  bytes: Uint8Array,
  begin: number,
  end: number,
): number {
  if (significant <= 15 && scale >= -22 && scale <= 22) {
    const value = scale < 0 ? mantissa / TENS[-scale] : mantissa * TENS[scale]
    return negative ? -value : value
  }
  let text = ''
  for (let i = begin; i < end; i++) {
    const byte = bytes[i]
    const isExponent = (byte | 32) === 100
    text += String.fromCharCode(byte === COMMA ? POINT : isExponent ? 101 : byte)
  }
  const value = Number(text)
  return Number.isFinite(value) ? value : NaN
}

const WORDS = ['', 'nan', 'na', 'n/a', 'n.a.', 'null', 'none', '-', '--', '*', '–', '—']
/** What C programs on Windows wrote for 0/0 and 1/0 before 2015, from memory. */
const NO_NUMBERS = [
  '1.#ind',
  '-1.#ind',
  '1.#qnan',
  '-1.#qnan',
  '-nan(ind)',
  '-nan',
  '1.#inf',
  '-1.#inf',
]
/** Divided by a panel without signal. */
const INFINITE = ['inf', '+inf', '-inf', 'infinity', '+infinity', '-infinity', '∞', '-∞']
/** What spreadsheets write where a formula has no answer, in English, German, French and Spanish. */
const NO_ANSWER =
  '#n/a #div/0! #num! #value! #nv #zahl! #wert! #nombre! #valeur! #n/d #¡div/0! #¡num! #¡valor!'
const SATURATED = ['sat', 'saturated', 'over', 'overflow', 'overrange']
const GAP_MARKS = new Set([
  ...WORDS,
  ...NO_NUMBERS,
  ...INFINITE,
  ...NO_ANSWER.split(' '),
  ...SATURATED,
])
const LONGEST_MARK = 16

/** Whether a cell says that there is no value. */
export function isGapMark(bytes: Uint8Array, start: number, end: number): boolean {
  if (end - start > LONGEST_MARK) return blank(bytes, start, end)
  return GAP_MARKS.has(textOf(bytes, start, end).toLowerCase())
}

function blank(bytes: Uint8Array, start: number, end: number): boolean {
  for (let i = start; i < end; i++) if (!isSpace(bytes[i])) return false
  return true
}

/**
 * Whether a number stands for a deleted channel: -1.23e34 in the public library (Kokaly et al.
 * 2017, USGS Data Series 1035), -9999 and -999 by common practice.
 */
export function isDeleted(value: number): boolean {
  return value <= -1e30 || value === -9999 || value === -999
}
