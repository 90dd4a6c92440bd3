/** Columns that people added: after the fixed ones and the indices. */
import type { Cell } from '../places/station'
import type { CsvColumn } from './csv'

/** A row with what people wrote of it, by column. */
export interface WrittenRow {
  readonly written?: Readonly<Record<string, Cell>>
}

/** More decimals than this are written by nobody on purpose. */
const MOST_DECIMALS = 6

/**
 * A column for each name. One whose cells are all numbers is a column of numbers, with as many
 * decimals as the one that has the most; any other is text. A name that an earlier column has,
 * case ignored, gets ` 2`, and so on.
 *
 * @param before names of the columns before these
 */
export function writtenColumns<Row extends WrittenRow>(
  names: readonly string[],
  rows: readonly Row[],
  before: readonly string[],
): CsvColumn<Row>[] {
  const taken = new Set(before.map((name) => name.toLowerCase()))
  return names.map((key): CsvColumn<Row> => {
    let name = key
    for (let n = 2; taken.has(name.toLowerCase()); n++) name = `${key} ${n}`
    taken.add(name.toLowerCase())
    const of = (row: Row): Cell =>
      row.written && Object.hasOwn(row.written, key) ? row.written[key] : null
    const cells = rows.map(of).filter((cell) => cell !== null)
    const numbers = cells.filter((cell) => typeof cell === 'number')
    if (numbers.length === 0 || numbers.length < cells.length) {
      return { name, text: (row) => textOf(of(row)) }
    }
    const decimals = Math.max(...numbers.map(decimalsOf))
    return { name, decimals, number: (row) => numberOf(of(row)) }
  })
}

function textOf(cell: Cell): string | null {
  return cell === null ? null : String(cell)
}

function numberOf(cell: Cell): number | null {
  return typeof cell === 'number' ? cell : null
}

function decimalsOf(value: number): number {
  const written = /^-?\d+\.(\d+)$/.exec(String(value))
  return written
    ? Math.min(MOST_DECIMALS, written[1].length)
    : /e-/.test(String(value))
      ? MOST_DECIMALS
      : 0
}
