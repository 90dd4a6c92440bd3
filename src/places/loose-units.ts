/**
 * What is gathered into stations at once: bursts of scans that time and distance join, and single
 * scans. They come in an order that does not depend on the files'.
 */
import { findBursts, type Shot } from './bursts'
import type { Found, NotFound } from './find-place'
import type { Grouping } from './grouping'
import type { Header, ScanHead } from './header'
import { foldedName, seriesOf } from './names'
import { folderOf } from './rules'
import type { Position } from './station'

/** A scan as far as grouping is concerned. */
export interface LooseScan {
  /** Index into the scans. */
  readonly scan: number
  readonly head: ScanHead
  readonly header: Header
  readonly found: Found | NotFound
  /** Null where it has no place, or where a person put it to a station: then only its time counts. */
  readonly position: Position | null
  /** When it was taken by its instrument's clock; null where that is not known. */
  readonly seconds: number | null
}

/** One scan, or the scans of a burst in order of time. */
export interface Unit {
  readonly members: readonly Member[]
  /** Of the first and last scan by the instrument's clock, s; null where the time is not known. */
  readonly start: number | null
  readonly end: number | null
  readonly zoneStated: boolean
  /** Whose clock it is; also parts scans that a person placed from the others. */
  readonly instrument: string
  /** Of a burst, metres; null for a single scan. */
  readonly width: number | null
  /** Whether it is one of a row of scans that follow each other evenly. */
  readonly isEven: boolean
}

export interface Member extends LooseScan {
  readonly found: Found
  readonly position: Position
}

/** The units of scans, and how many scans time can say nothing of. */
export interface Units {
  readonly units: readonly Unit[]
  readonly untimed: number
}

/** When a scan was taken, by the reading that its track uses, or by the only one; else null. */
export function secondsOf(header: Header, found: Found | NotFound): number | null {
  return found.seconds ?? (header.times.length === 1 ? header.times[0] : null)
}

/**
 * The units of scans, by time and, of those without one, as the scans stand.
 *
 * @param scans in the order of their files' paths and as they stand in each
 */
export function looseUnits(
  scans: readonly LooseScan[],
  grouping: Grouping,
  metresPerUnit: number,
): Units {
  const units: Unit[] = []
  let untimed = 0
  const rows = new Map<string, LooseScan[]>()
  for (const each of scans) {
    const row = grouping.by_time ? rowOf(each) : null
    if (row !== null) {
      const list = rows.get(row)
      if (list) list.push(each)
      else rows.set(row, [each])
    } else if (isMember(each)) {
      units.push(single(each))
      if (each.found.sample === null && each.found.placedBy !== 'hand') untimed++
    }
  }
  for (const row of rows.values()) units.push(...unitsIn(row, grouping, metresPerUnit))
  const rank = new Map(scans.map(({ scan }, i) => [scan, i]))
  const place = (unit: Unit) => rank.get(unit.members[0].scan) ?? 0
  const byStart = (a: Unit, b: Unit) => (grouping.by_time ? startOf(a) - startOf(b) : 0)
  units.sort((a, b) => byStart(a, b) || place(a) - place(b))
  return { units, untimed: grouping.by_time ? untimed : 0 }
}

/**
 * What scans that may follow each other in a burst share: instrument, zone, series of names, hole
 * and depth, support. Null for a scan that a sample's name or a person speaks for, or whose time is
 * not known to the second.
 */
function rowOf({ head, header, found, seconds }: LooseScan): string | null {
  if (found.sample !== null || !header.toTheSecond || seconds === null) return null
  const support = header.support ?? found.rows.find(({ row }) => row.support !== null)?.row.support
  return [
    instrumentOf(head, header),
    header.zoneStated ? 'zone' : '',
    foldedName(seriesOf(head.name)),
    foldedName(header.hole ?? ''),
    header.depth ?? '',
    support ?? '',
  ].join('\u0000')
}

function instrumentOf(head: ScanHead, { serial }: Header): string {
  return serial === null ? `folder ${folderOf(head.file)}` : `serial ${foldedName(serial)}`
}

function isMember(each: LooseScan): each is Member {
  return each.position !== null && !('unplaced' in each.found)
}

function asMember(each: LooseScan): Member[] {
  return isMember(each) ? [each] : []
}

/** The bursts of a row and its other scans. Those placed by a person stand in a row of their own. */
function unitsIn(row: readonly LooseScan[], grouping: Grouping, metresPerUnit: number): Unit[] {
  const own = [...row].sort((a, b) => (a.seconds ?? 0) - (b.seconds ?? 0))
  const isByHand = (each: LooseScan) =>
    !('unplaced' in each.found) && each.found.placedBy === 'hand'
  const units = burstsAndRest(own, (each) => !isByHand(each), grouping, metresPerUnit)
  const hands = own.filter(isByHand)
  // What a person placed lies where it was put: it does not wander.
  const still = { ...grouping, widest_m: grouping.near_m }
  return hands.length === 0
    ? units
    : [...units, ...burstsAndRest(hands, () => true, still, metresPerUnit)]
}

/** @param counts whether a scan's place counts; of the others only the time does */
function burstsAndRest(
  scans: readonly LooseScan[],
  counts: (each: LooseScan) => boolean,
  grouping: Grouping,
  metresPerUnit: number,
): Unit[] {
  const isIn = scans.map((each) => isMember(each) && counts(each))
  const shots = scans.map((each, i) => shotOf(each, isIn[i], metresPerUnit))
  const { bursts, even } = findBursts(shots, grouping)
  const units: Unit[] = []
  let next = 0
  const rest = (to: number) => {
    for (; next < to; next++) {
      const [member] = isIn[next] ? asMember(scans[next]) : []
      if (member) units.push({ ...single(member), isEven: even[next] })
    }
  }
  for (const { from, to, width } of bursts) {
    rest(from)
    next = to
    const members = scans
      .slice(from, to)
      .flatMap((each, i) => (isIn[from + i] ? asMember(each) : []))
    if (members.length > 0) units.push(joined(members, width))
  }
  rest(scans.length)
  return units
}

function shotOf(each: LooseScan, isIn: boolean, metresPerUnit: number): Shot {
  const seconds = each.seconds ?? NaN
  if (!isIn || each.position === null) return { seconds, at: null, error: null }
  const { easting, northing, error } = each.position
  return {
    seconds,
    at: { east: easting * metresPerUnit, north: northing * metresPerUnit },
    error: error === null ? null : error * metresPerUnit,
  }
}

function single(member: Member): Unit {
  return { ...joined([member], 0), width: null }
}

function joined(members: readonly Member[], width: number): Unit {
  const [first, last] = [members[0], members[members.length - 1]]
  const byHand = first.found.placedBy === 'hand' ? 'hand ' : ''
  return {
    members,
    start: first.seconds,
    end: last.seconds,
    zoneStated: first.header.zoneStated,
    instrument: byHand + instrumentOf(first.head, first.header),
    width: members.length > 1 ? width : null,
    isEven: false,
  }
}

function startOf({ start }: Unit): number {
  return start ?? Number.MAX_VALUE
}
