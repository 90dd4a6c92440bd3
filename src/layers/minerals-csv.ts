/** `minerals.csv`: long, a row for each mineral of each identified scan. */
import type { Origin } from '../minerals/origin'
import { NOTHING_DIAGNOSTIC, type MineralShare } from '../minerals/reference'
import { csv, type CsvColumn } from './csv'
import { SHARE_DECIMALS } from './decimals'
import type { MineralRow } from './rows'

interface Line {
  readonly scan: string
  readonly rank: number
  readonly found: MineralShare | null
  readonly origin: Origin | null
}

const COLUMNS: readonly CsvColumn<Line>[] = [
  { name: 'scan', text: (line) => line.scan },
  { name: 'rank', decimals: 0, number: (line) => line.rank },
  { name: 'mineral', text: (line) => line.found?.mineral ?? NOTHING_DIAGNOSTIC },
  { name: 'group', text: (line) => line.found?.group ?? null },
  { name: 'share', decimals: SHARE_DECIMALS, number: (line) => line.found?.share ?? null },
  { name: 'fit', decimals: SHARE_DECIMALS, number: (line) => line.found?.fit ?? null },
]

/** Stands last, and only where somebody has stated an origin. */
const ORIGIN_COLUMN: CsvColumn<Line> = { name: 'origin', text: (line) => line.origin }

/**
 * The file's bytes. Rank 1 is the largest share; a scan in which nothing can be told has one row
 * of rank 1 that says so; a scan that was not identified has none.
 */
export function mineralsCsv(rows: readonly MineralRow[]): Uint8Array {
  const lines = rows.flatMap(linesOf)
  const stated = lines.some(({ origin }) => origin !== null && origin !== 'unknown')
  return csv(stated ? [...COLUMNS, ORIGIN_COLUMN] : COLUMNS, lines)
}

function linesOf({ scan, minerals, originOf }: MineralRow): Line[] {
  if (minerals === null) return []
  if (minerals.length === 0) return [{ scan, rank: 1, found: null, origin: null }]
  return minerals.map((found, at) => ({
    scan,
    rank: at + 1,
    found,
    origin: originOf?.(found.mineral) ?? 'unknown',
  }))
}
