/** What joined the stations' scans, and which groups are unsure. */
import { apart, pauseBetween, type Draft } from './drafts'
import type { Grouping } from './grouping'
import { foldedName, seriesOf } from './names'
import { NearDrafts } from './near-drafts'
import { GROUPED_BY, type GroupedBy } from './station'
import type { MadeStation } from './stations'
import { spanOf } from './tracks'

/** A group that may be wrong. */
export interface UnsureGroup {
  /** Index into the stations. */
  readonly station: number
  /** Why, in words that follow the station's name. */
  readonly why: string
  /** The station that it may be one with; null where that is not the question. */
  readonly other: number | null
}

/** How scans were gathered into stations. */
export interface GroupingReport {
  /** Stations of two scans or more, by what joined them. */
  readonly counts: Readonly<Record<GroupedBy, number>>
  /** Stations of one scan. */
  readonly single: number
  /** Scans without a sample's name that time could say nothing of. */
  readonly untimed: number
  readonly unsure: readonly UnsureGroup[]
}

/** A station and its place in the list. */
interface Numbered {
  readonly made: MadeStation
  readonly at: number
}

/** The report on stations, which stand in their final order. */
export function groupingReport(
  made: readonly MadeStation[],
  grouping: Grouping,
  untimed: number,
  metresPerUnit: number,
): GroupingReport {
  const counts = Object.fromEntries(GROUPED_BY.map((means) => [means, 0])) as Record<
    GroupedBy,
    number
  >
  for (const { station } of made) if (station.groupedBy) counts[station.groupedBy]++
  const withScans = made.flatMap((each, at): Numbered[] =>
    each.station.scans.length === 0 ? [] : [{ made: each, at }],
  )
  return {
    counts,
    single: withScans.filter(({ made }) => made.station.scans.length === 1).length,
    untimed,
    unsure: [
      ...withScans.flatMap((each) => doubtful(each, grouping)),
      ...visits(withScans, grouping, metresPerUnit),
      ...scattered(withScans, metresPerUnit),
    ].sort((a, b) => a.station - b.station),
  }
}

/** Stations whose own scans may be of several spots. */
function doubtful({ made: { station, draft }, at }: Numbered, grouping: Grouping): UnsureGroup[] {
  if (station.groupedBy === 'time' && draft.width > grouping.near_m) {
    const why = `scans taken shortly after one another lie up to ${Math.round(draft.width)} m apart`
    return [{ station: at, why: `${why}: taken for the receiver’s wandering`, other: null }]
  }
  if (station.groupedBy === 'likeness' && draft.hasEven) {
    const why =
      'its scans are some of a row of even gaps, as on a walk, in which time tells no spots'
    return [{ station: at, why, other: null }]
  }
  return []
}

/** Stations on the spot of an earlier one of the same series, after a long pause. */
function visits(
  stations: readonly Numbered[],
  grouping: Grouping,
  metresPerUnit: number,
): UnsureGroup[] {
  if (!grouping.by_time) return []
  const numbers = new Map(stations.map(({ made, at }) => [made.draft, at]))
  const near = new NearDrafts(grouping.near_m / metresPerUnit, MOST_VISITS)
  const found: UnsureGroup[] = []
  const timed = stations.filter(({ made: { draft } }) => isOfSeries(draft) && draft.start !== null)
  timed.sort((a, b) => (a.made.draft.start ?? 0) - (b.made.draft.start ?? 0) || a.at - b.at)
  for (const { made, at } of timed) {
    const { draft } = made
    const key = `${foldedName(seriesOf(draft.scanName))}\u0000${holeOf(draft)}`
    const other = near.nearest(key, draft.anchor, (each, distance) => {
      return distance * metresPerUnit <= grouping.near_m && isLongAfter(each, draft, grouping)
    })
    if (other) {
      const metres = apart(other.anchor, draft.anchor) * metresPerUnit
      const pause = spanOf((draft.start ?? 0) - (other.end ?? 0))
      const why = `it lies ${metres.toFixed(1)} m from a station that was left ${pause} before: one spot visited again, or two`
      found.push({ station: at, why, other: numbers.get(other) ?? null })
    }
    near.add(key, draft)
  }
  return found
}

/** Enough to tell a visit by. */
const MOST_VISITS = 50

/** Whether nothing but its scans' names and times told where the draft belongs. */
function isOfSeries({ found, givenName }: Draft): boolean {
  return found.near && found.name === null && found.placedBy !== 'hand' && givenName === null
}

function holeOf({ found }: Draft): string {
  return found.hole === null ? '' : `${foldedName(found.hole)} ${found.from} ${found.to}`
}

function isLongAfter(earlier: Draft, later: Draft, grouping: Grouping): boolean {
  const pause = pauseBetween(earlier, later)
  return pause !== null && pause > grouping.pause_s
}

/** Stations of a sample whose scans lie on several spots. */
function scattered(stations: readonly Numbered[], metresPerUnit: number): UnsureGroup[] {
  const first = new Map<string, Numbered>()
  return stations.flatMap((each): UnsureGroup[] => {
    const { found, anchor } = each.made.draft
    if (!found.near || found.name === null) return []
    const other = first.get(found.key)
    if (other === undefined) {
      first.set(found.key, each)
      return []
    }
    const metres = Math.round(apart(other.made.draft.anchor, anchor) * metresPerUnit)
    const why = `it is of the sample ‘${found.name}’, other scans of which lie ${metres} m away`
    return [{ station: each.at, why, other: other.at }]
  })
}
