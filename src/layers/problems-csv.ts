/** `problems.csv`: what was wrong with the input and what was done about it. */
import type { Problem } from '../readers/input'
import { csv, type CsvColumn } from './csv'

const COLUMNS: readonly CsvColumn<Problem>[] = [
  { name: 'file', text: (row) => row.file },
  { name: 'line', decimals: 0, number: (row) => row.line },
  { name: 'problem', text: (row) => row.problem },
  { name: 'done', text: (row) => row.done },
]

/** The file's bytes; rows in the order given. `line` is empty where the whole file is meant. */
export function problemsCsv(rows: readonly Problem[]): Uint8Array {
  return csv(COLUMNS, rows)
}
