/** Table cells below a laboratory's detection limit, such as `<5`. */
import type { Cell } from '../places/station'

/** What such a cell may count as; common practice is half the limit, and no choice is right. */
export const BELOW_DETECTION = ['half', 'zero', 'limit', 'leave out'] as const
export type BelowDetection = (typeof BELOW_DETECTION)[number]

/** `<5`, `< 0.05`, `<0,5`; nothing else in the cell. */
const BELOW = /^\s*<\s*(\d+(?:[.,]\d+)?|[.,]\d+)\s*$/

/** The limit that a cell says its value is below; null where it says nothing of the kind. */
export function detectionLimit(cell: Cell): number | null {
  const match = typeof cell === 'string' ? BELOW.exec(cell) : null
  return match ? Number(match[1].replace(',', '.')) : null
}

/** A row with its cells below detection made numbers. The row itself where there are none. */
export function countedCells(
  columns: Readonly<Record<string, Cell>>,
  as: BelowDetection,
): Readonly<Record<string, Cell>> {
  if (as === 'leave out') return columns
  const counted: Record<string, Cell> = {}
  let any = false
  for (const [heading, cell] of Object.entries(columns)) {
    const limit = detectionLimit(cell)
    any ||= limit !== null
    counted[heading] = limit === null ? cell : { half: limit / 2, zero: 0, limit }[as]
  }
  return any ? counted : columns
}
