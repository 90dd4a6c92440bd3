/** Scans and white references by the day they were taken on. */
import type { Verdict } from '../../check/verdict'
import type { ScanHead } from '../../project/project'

export interface TimedScan {
  readonly scan: number
  /** s since 1970, in UTC, or by the instrument's clock where no zone is stated. */
  readonly seconds: number
}

export interface Day {
  /** Such as `2025-03-04`. */
  readonly date: string
  /** Whether its times are UTC; else they are the instrument's own. */
  readonly utc: boolean
  readonly scans: readonly TimedScan[]
  /** Times of white references that the scans' files tell of, s, ascending. */
  readonly references: readonly number[]
}

/** A pause longer than this ends a day's work, s: work past midnight stays one day. */
const NIGHT = 5 * 3600

/** Days in order of time. Scans without a time are in none. */
export function daysOf(heads: readonly ScanHead[]): Day[] {
  const timed = heads
    .flatMap(({ known: { time } }, scan) => (time ? [{ scan, seconds: time.seconds }] : []))
    .sort((a, b) => a.seconds - b.seconds)
  const groups: TimedScan[][] = []
  for (const entry of timed) {
    const last = groups.at(-1)
    if (last && entry.seconds - last[last.length - 1].seconds <= NIGHT) last.push(entry)
    else groups.push([entry])
  }
  const references = whiteReferences(heads)
  return groups.map((scans) => {
    const [from, to] = [scans[0].seconds, scans[scans.length - 1].seconds]
    return {
      date: isoTime(from).slice(0, 10),
      utc: heads[scans[0].scan].known.time?.zoneStated ?? false,
      scans,
      references: references.filter((at) => at >= from - NIGHT && at <= to),
    }
  })
}

/** `14:05`. */
export function clock(seconds: number): string {
  return isoTime(seconds).slice(11, 16)
}

/** Such as `83 scans, 12 doubtful, 2 set aside`. */
export function dayWords({ scans }: Day, verdicts: readonly Verdict[]): string {
  const count = (check: string) =>
    scans.filter(({ scan }) => verdicts[scan]?.check === check).length
  const doubtful = count('doubtful')
  const aside = count('set aside')
  return [
    scans.length === 1 ? '1 scan' : `${scans.length} scans`,
    ...(doubtful > 0 ? [`${doubtful} doubtful`] : []),
    ...(aside > 0 ? [`${aside} set aside`] : []),
  ].join(', ')
}

/** Such as `83 scans, 14 doubted`: short enough for a list. */
export function doubtWords({ scans }: Day, verdicts: readonly Verdict[]): string {
  const doubted = scans.filter(({ scan }) => verdicts[scan] && verdicts[scan].check !== 'sound')
  const words = scans.length === 1 ? '1 scan' : `${scans.length} scans`
  return doubted.length > 0 ? `${words}, ${doubted.length} doubted` : words
}

function whiteReferences(heads: readonly ScanHead[]): number[] {
  const times = new Set<number>()
  for (const { known } of heads) if (known.whiteReference) times.add(known.whiteReference.seconds)
  return [...times].sort((a, b) => a - b)
}

function isoTime(seconds: number): string {
  return new Date(seconds * 1000).toISOString()
}
