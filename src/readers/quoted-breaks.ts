/** Line breaks inside quotes of a heading (RFC 4180), which every reader of lines would part it at. */
import type { TextFile } from './text-file'
import { textOf } from './decode'
import { LONGEST_LINE, nextLine, QUOTE } from './lines'

/** Headings stand in the first bytes of a file. */
const LOOKED_AT = 100_000
/** And the first quote, if there are any, in the first of these. */
const FIRST_QUOTE = 8192
/** Longer text in quotes has lost its closing quote. Bytes. */
const LONGEST_CELL = 2000
const DELIMITERS = new Set([9, 44, 59])

/**
 * The text with such breaks as blanks, in the headings and pairs of words at its beginning. The
 * breaks themselves stand below their line then, so that every later line keeps its number.
 *
 * Rows with numbers are let be: a quote that was lost there is damage.
 */
export function withoutQuotedBreaks(text: TextFile): TextFile {
  const { bytes } = text
  const quote = bytes.subarray(0, FIRST_QUOTE).indexOf(QUOTE)
  if (quote < 0) return text
  const records: Record[] = []
  for (let at = 0; at < Math.min(bytes.length, LOOKED_AT);) {
    const record = recordAt(bytes, at)
    if (record.breaks.length > 0) {
      if (!record.isWords) break
      records.push(record)
    }
    at = nextLine(bytes, record.end)
  }
  return records.length === 0 ? text : { ...text, bytes: withoutBreaks(bytes, records) }
}

interface Record {
  /** Where its line ends. */
  readonly end: number
  /** Where breaks begin inside quotes. */
  readonly breaks: readonly number[]
  /** Whether it has two cells or more, and each holds words or nothing. */
  readonly isWords: boolean
}

function recordAt(bytes: Uint8Array, start: number): Record {
  const breaks: number[] = []
  let cells = 0
  let isWords = true
  let i = start
  for (;;) {
    if (i - start > LONGEST_LINE) return { end: i, breaks: [], isWords: false }
    const close = bytes[i] === QUOTE ? closingQuote(bytes, i + 1) : -1
    const begin = i
    if (close >= 0) {
      for (let at = i; at < close; at = isBreak(bytes[at]) ? nextLine(bytes, at) : at + 1)
        if (isBreak(bytes[at])) breaks.push(at)
      i = close + 1
    }
    while (i < bytes.length && !isBreak(bytes[i]) && !DELIMITERS.has(bytes[i])) i++
    const cell = textOf(bytes, begin, Math.min(i, begin + LONGEST_CELL)).replace(/^"/, '')
    if (cell !== '' && cell !== '"' && !/^\s*\p{L}/u.test(cell)) isWords = false
    cells++
    if (i >= bytes.length || isBreak(bytes[i])) break
    i++
  }
  return { end: i, breaks, isWords: isWords && cells > 1 }
}

/** The quote that closes a cell and stands before a delimiter or the line's end, or -1. */
function closingQuote(bytes: Uint8Array, start: number): number {
  const limit = Math.min(bytes.length, start + LONGEST_CELL)
  for (let i = start; i < limit; i++) {
    if (bytes[i] !== QUOTE) continue
    if (bytes[i + 1] === QUOTE) i++
    else {
      const next = bytes[i + 1]
      return i + 1 >= bytes.length || isBreak(next) || DELIMITERS.has(next) ? i : -1
    }
  }
  return -1
}

function isBreak(byte: number): boolean {
  return byte === 10 || byte === 13
}

/** A blank for each break, and the breaks themselves behind their record. */
function withoutBreaks(bytes: Uint8Array, records: readonly Record[]): Uint8Array {
  const extra = records.reduce((sum, { breaks }) => sum + breaks.length, 0)
  const made = new Uint8Array(bytes.length + extra)
  let from = 0
  let to = 0
  const copy = (start: number, end: number): void => {
    made.set(bytes.subarray(start, end), to)
    to += end - start
  }
  for (const { end, breaks } of records) {
    for (const at of breaks) {
      copy(from, at)
      made[to++] = 32
      from = nextLine(bytes, at)
    }
    copy(from, end)
    for (const at of breaks) copy(at, nextLine(bytes, at))
    from = end
  }
  copy(from, bytes.length)
  return made
}
