/** Ranges in which minerals are compared with single scans, as people decided. */
import type { UserRanges } from '../minerals/match'
import type { Active } from './active-scans'
import { decisionsByScan, scanKey, type Decisions } from './decisions'
import type { ScanHead } from './project'

/** By the scan's number in the store; scans without a range of their own are not in it. */
export function scanRanges(
  { heads, numbers }: Active,
  decisions: Decisions,
): ReadonlyMap<number, UserRanges> {
  const decided = decisionsByScan(decisions, ['ranges'])
  const ranges = new Map<number, UserRanges>()
  if (decided.size === 0) return ranges
  heads.forEach((head, scan) => {
    const own = rangesDecided(decided, head)
    if (own.size > 0) ranges.set(numbers[scan], own)
  })
  return ranges
}

/** Those of one scan, by mineral: the last word on each. */
export function rangesOfScan(decisions: Decisions, head: ScanHead): UserRanges {
  return rangesDecided(decisionsByScan(decisions, ['ranges']), head)
}

function rangesDecided(
  decided: ReturnType<typeof decisionsByScan<'ranges'>>,
  { file, name }: ScanHead,
): UserRanges {
  const own = new Map<string, readonly (readonly [number, number])[]>()
  for (const { mineral, ranges } of decided.get(scanKey(file, name)) ?? []) {
    if (ranges.length > 0) own.set(mineral, ranges)
    else own.delete(mineral)
  }
  return own
}
