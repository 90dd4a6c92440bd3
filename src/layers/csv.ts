/** CSV as RFC 4180 has it: UTF-8 without a mark, CRLF, a point for decimals, null as empty. */
import { fixed } from './decimals'

/** A column of text or of numbers; numbers carry their decimals. */
export type CsvColumn<Row> =
  | { readonly name: string; readonly text: (row: Row) => string | null }
  | {
      readonly name: string
      readonly decimals: number
      readonly number: (row: Row) => number | null
    }

/**
 * A table with one header row.
 *
 * Text that a spreadsheet would run as a formula (headings too) gets a leading apostrophe and is
 * quoted; numbers never do.
 *
 * @returns UTF-8 bytes; every line, the last too, ends in CRLF.
 */
export function csv<Row>(columns: readonly CsvColumn<Row>[], rows: Iterable<Row>): Uint8Array {
  const lines = [columns.map((column) => textCell(column.name)).join(',')]
  for (const row of rows) lines.push(columns.map((column) => cell(column, row)).join(','))
  return new TextEncoder().encode(lines.join('\r\n') + '\r\n')
}

function cell<Row>(column: CsvColumn<Row>, row: Row): string {
  return 'number' in column
    ? fixed(column.number(row), column.decimals)
    : textCell(column.text(row))
}

/** What a spreadsheet takes for a formula, or skips before one. Common practice; full-width forms too. */
const WOULD_RUN = /^[=+\-@\t\r\n＝＋－＠]/

/** One text cell, quoted where it must be. */
export function textCell(text: string | null): string {
  if (text === null) return ''
  const whole = text.replaceAll('\0', '\uFFFD')
  if (WOULD_RUN.test(whole)) return quoted(`'${whole}`)
  return /[",\r\n]|^\s|\s$/.test(whole) ? quoted(whole) : whole
}

function quoted(text: string): string {
  return `"${text.replaceAll('"', '""')}"`
}
