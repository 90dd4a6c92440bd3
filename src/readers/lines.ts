/** Lines and cells in UTF-8 bytes, found without making strings. */

import { isSpace } from './numbers'

/** Longer than any row of a table of 50,000 columns: what has such a line is no table. */
export const LONGEST_LINE = 1_000_000

/** More rows than any instrument has channels. */
export const MOST_ROWS = 500_000

export const TAB = 9
export const BLANK = 32
export const SEMICOLON = 59
export const QUOTE = 34

/** Where the line that begins at `start` ends: at its CR or LF, at `limit` or the end of the bytes. */
export function lineEnd(bytes: Uint8Array, start: number, limit = bytes.length): number {
  const last = Math.min(limit, bytes.length)
  let i = start
  while (i < last && bytes[i] !== 10 && bytes[i] !== 13) i++
  return i
}

/** Where the line after the one that ends at `end` begins. CRLF, LF and a lone CR each end a line. */
export function nextLine(bytes: Uint8Array, end: number): number {
  return bytes[end] === 13 && bytes[end + 1] === 10 ? end + 2 : end + 1
}

/** Whether a stretch holds nothing but blanks. */
export function isBlank(bytes: Uint8Array, start: number, end: number): boolean {
  for (let i = start; i < end; i++) if (!isSpace(bytes[i])) return false
  return true
}

/** Splits lines into cells; `starts` and `ends` hold the cells of the last line split. */
export class CellSplitter {
  starts = new Int32Array(64)
  ends = new Int32Array(64)
  count = 0

  /**
   * Splits `[start, end)` at a delimiter byte; `BLANK` splits at runs of blanks and tabs, 0 nowhere.
   * A cell in double quotes (RFC 4180) comes without them.
   */
  split(bytes: Uint8Array, start: number, end: number, delimiter: number): number {
    this.count = 0
    if (delimiter === BLANK) this.splitAtBlanks(bytes, start, end)
    else this.splitAt(bytes, start, end, delimiter)
    return this.count
  }

  /** The cells of the last line split without empty ones at its end, though not fewer than `least`. */
  filled(least: number): number {
    let count = this.count
    while (count > least && this.starts[count - 1] === this.ends[count - 1]) count--
    return count
  }

  private splitAt(bytes: Uint8Array, start: number, end: number, delimiter: number): void {
    let i = start
    for (;;) {
      while (i < end && bytes[i] === 32) i++
      const close = i < end && bytes[i] === QUOTE ? closingQuote(bytes, i + 1, end) : -1
      const begin = i
      while (i < end && bytes[i] !== delimiter) i++
      if (close > i) i = cellEnd(bytes, close, end, delimiter)
      let last = i
      while (last > begin && isSpace(bytes[last - 1])) last--
      // Quotes that do not close, or close before the cell ends, are damage and stay in the cell.
      if (close >= 0 && close === last - 1) this.add(begin + 1, close)
      else this.add(begin, last)
      if (i >= end) return
      i++
    }
  }

  private splitAtBlanks(bytes: Uint8Array, start: number, end: number): void {
    let i = start
    for (;;) {
      while (i < end && isSpace(bytes[i])) i++
      if (i >= end) return
      const begin = i
      while (i < end && !isSpace(bytes[i])) i++
      const isQuoted = bytes[begin] === QUOTE && bytes[i - 1] === QUOTE && i - begin > 1
      if (isQuoted) this.add(begin + 1, i - 1)
      else this.add(begin, i)
    }
  }

  private add(start: number, end: number): void {
    if (this.count === this.starts.length) {
      const starts = new Int32Array(this.count * 2)
      const ends = new Int32Array(this.count * 2)
      starts.set(this.starts)
      ends.set(this.ends)
      this.starts = starts
      this.ends = ends
    }
    this.starts[this.count] = start
    this.ends[this.count++] = end
  }
}

function cellEnd(bytes: Uint8Array, start: number, end: number, delimiter: number): number {
  let i = start
  while (i < end && bytes[i] !== delimiter) i++
  return i
}

/** The quote that closes the cell, or -1; a doubled one stands for itself. */
function closingQuote(bytes: Uint8Array, start: number, end: number): number {
  let i = start
  while (i < end) {
    if (bytes[i] === QUOTE) {
      if (bytes[i + 1] !== QUOTE) return i
      i++
    }
    i++
  }
  return -1
}
