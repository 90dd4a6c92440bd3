/** Minerals over the whole project. */
import type { Identification } from '../../minerals/reference'

export interface MineralCount {
  readonly mineral: string
  readonly group: string
  /** Scans in which it has the largest share. */
  readonly main: number
  /** Scans in which it was found at all. */
  readonly scans: number
  /** Over the scans in which it was found. */
  readonly meanShare: number
}

/** A row a mineral, the most frequent main mineral first. */
export function mineralTable(found: readonly (Identification | null)[]): MineralCount[] {
  const rows = new Map<string, { group: string; main: number; scans: number; sum: number }>()
  for (const scan of found) {
    scan?.minerals.forEach(({ mineral, group, share }, rank) => {
      const row = rows.get(mineral) ?? { group, main: 0, scans: 0, sum: 0 }
      row.scans++
      row.sum += share
      if (rank === 0) row.main++
      rows.set(mineral, row)
    })
  }
  return [...rows]
    .map(([mineral, { group, main, scans, sum }]) => ({
      mineral,
      group,
      main,
      scans,
      meanShare: sum / scans,
    }))
    .sort((a, b) => b.main - a.main || b.scans - a.scans || (a.mineral < b.mineral ? -1 : 1))
}
