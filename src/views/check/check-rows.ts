/** Verdicts as rows of a table that can be filtered and ordered. */
import type { Check, Verdict } from '../../check/verdict'
import type { ScanHead } from '../../project/project'
import { isWithin, type Stretch } from './day-marks'

export interface CheckRow {
  readonly scan: number
  readonly name: string
  /** The scan's file where another scan has the same name; empty where the name will do. */
  readonly file: string
  readonly verdict: Verdict
  /** s; null where the file tells no time. */
  readonly seconds: number | null
}

export const ORDERS = ['scan', 'time', 'check', 'reason'] as const
export type Order = (typeof ORDERS)[number]

/** The rows to show: those with any reason, with one reason, of one verdict, or all. */
export type Filter =
  | { readonly by: 'doubted' }
  | { readonly by: 'reason'; readonly reason: string }
  | { readonly by: 'cannot tell'; readonly what: string }
  | { readonly by: 'all' }

const WORST: readonly Check[] = ['set aside', 'doubtful', 'sound']

/** Every verdict as a row, in the scans' order. */
export function checkRows(heads: readonly ScanHead[], verdicts: readonly Verdict[]): CheckRow[] {
  const times = new Map<string, number>()
  for (const { name } of heads) times.set(name, (times.get(name) ?? 0) + 1)
  return verdicts.map((verdict, scan) => ({
    scan,
    name: heads[scan].name,
    file: (times.get(heads[scan].name) ?? 0) > 1 ? heads[scan].file : '',
    verdict,
    seconds: heads[scan].known.time?.seconds ?? null,
  }))
}

/** How many scans each reason stands against, the most frequent first. */
export function countReasons(verdicts: readonly Verdict[]): (readonly [string, number])[] {
  const counted = new Map<string, number>()
  for (const { reasons } of verdicts) {
    for (const reason of new Set(reasons.map((each) => each.reason))) {
      counted.set(reason, (counted.get(reason) ?? 0) + 1)
    }
  }
  return [...counted].sort((a, b) => b[1] - a[1])
}

/** What could not be told, and of how many scans, the most frequent first. */
export function countUntold(verdicts: readonly Verdict[]): (readonly [string, number])[] {
  const counted = new Map<string, number>()
  for (const { cannotTell = [] } of verdicts) {
    for (const what of new Set(cannotTell)) counted.set(what, (counted.get(what) ?? 0) + 1)
  }
  return [...counted].sort((a, b) => b[1] - a[1])
}

/**
 * Rows that a filter lets through, in an order; equal rows keep the scans' order.
 *
 * @param stretch the part of a day that is asked for, s; null for all days
 */
export function shownRows(
  rows: readonly CheckRow[],
  filter: Filter,
  order: Order,
  down: boolean,
  stretch: Stretch | null = null,
): CheckRow[] {
  const shown = rows.filter(({ verdict, seconds }) => {
    if (stretch !== null && !isWithin(seconds, stretch)) return false
    if (filter.by === 'all') return true
    if (filter.by === 'reason') return verdict.reasons.some((r) => r.reason === filter.reason)
    if (filter.by === 'cannot tell') return verdict.cannotTell?.includes(filter.what) ?? false
    return verdict.check !== 'sound' || verdict.reasons.length > 0
  })
  const sign = down ? -1 : 1
  return shown.sort((a, b) => sign * compare(a, b, order) || a.scan - b.scan)
}

function compare(a: CheckRow, b: CheckRow, order: Order): number {
  switch (order) {
    case 'scan':
      return a.name.localeCompare(b.name, 'en', { numeric: true })
    case 'time':
      return (a.seconds ?? Infinity) - (b.seconds ?? Infinity) || 0
    case 'check':
      return WORST.indexOf(a.verdict.check) - WORST.indexOf(b.verdict.check)
    case 'reason':
      return firstReason(a).localeCompare(firstReason(b))
  }
}

function firstReason({ verdict }: CheckRow): string {
  return verdict.reasons[0]?.reason ?? ''
}
