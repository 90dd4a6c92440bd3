/** Stations in the making. */
import type { Found } from './find-place'
import { spread, type Grouping } from './grouping'
import type { Unit } from './loose-units'
import type { GroupedBy, Position, Support } from './station'

/** What a station is made from. */
export interface Draft {
  readonly found: Found
  readonly scans: number[]
  readonly positions: Position[]
  readonly support: Support
  /** The first scan's own name. */
  readonly scanName: string
  /** Where the first scan or the row stands, for messages. */
  readonly source: Source
  /** The name that a person put scans to it by; it stands, whatever the scans are called. */
  givenName: string | null
  /** What joined its scans. */
  readonly by: GroupedBy[]
  /** Where scans of like names join it: its first scan's place, or the middle of its first burst. */
  readonly anchor: { readonly easting: number; readonly northing: number }
  /** How far from there its farthest scan lies, working units. */
  radius: number
  /** Whose bursts it holds. */
  readonly burstsOf: string[]
  /** Of its widest burst, metres. */
  width: number
  hasEven: boolean
  /** The time of its first scan and its last, as a unit's. */
  readonly start: number | null
  end: number | null
  readonly zoneStated: boolean
}

/** A file and line that a message can point to. */
export interface Source {
  readonly file: string
  readonly line: number | null
}

/** A draft of a burst or a single scan; the anchor is the middle of its places. */
export function draftOf(unit: Unit, anchor: Draft['anchor'], support: Support): Draft {
  const [{ head, found }] = unit.members
  const positions = unit.members.map(({ position }) => position)
  return {
    found,
    scans: unit.members.map(({ scan }) => scan),
    positions,
    support,
    scanName: head.name,
    source: { file: head.file, line: null },
    givenName: null,
    by: unit.width === null ? [] : ['time'],
    anchor,
    radius: Math.max(...positions.map((position) => apart(anchor, position))),
    burstsOf: unit.width === null ? [] : [unit.instrument],
    width: unit.width ?? 0,
    hasEven: unit.isEven,
    start: unit.start,
    end: unit.end,
    zoneStated: unit.zoneStated,
  }
}

/** A draft of one scan, or of a row without scans. */
export function draftAt(
  found: Found,
  scans: number[],
  position: Position,
  support: Support,
  scanName: string,
  source: Source,
): Draft {
  return {
    found,
    scans,
    positions: [position],
    support,
    scanName,
    source,
    givenName: null,
    by: [],
    anchor: position,
    radius: 0,
    burstsOf: [],
    width: 0,
    hasEven: false,
    start: null,
    end: null,
    zoneStated: false,
  }
}

/** Adds a unit's scans to a draft that may take them. */
export function join(draft: Draft, unit: Unit): void {
  for (const { scan, position } of unit.members) {
    draft.scans.push(scan)
    draft.positions.push(position)
    draft.radius = Math.max(draft.radius, apart(draft.anchor, position))
  }
  note(draft, meansOf(draft, unit))
  if (unit.width !== null) {
    note(draft, 'time')
    draft.burstsOf.push(unit.instrument)
    draft.width = Math.max(draft.width, unit.width)
  }
  draft.hasEven ||= unit.isEven
  if (unit.end !== null && (draft.end === null || unit.end > draft.end)) draft.end = unit.end
}

/** Notes what joined scans. */
export function note({ by }: Draft, means: GroupedBy): void {
  if (!by.includes(means)) by.push(means)
}

function meansOf({ found }: Draft, unit: Unit): GroupedBy {
  if (found.placedBy === 'hand' || unit.members[0].found.placedBy === 'hand') return 'hand'
  return found.name === null ? 'likeness' : 'name'
}

/** How far from a draft's anchor a unit of its key may lie, metres. */
export function reachOf(draft: Draft, unit: Unit, grouping: Grouping, perUnit: number): number {
  const [{ found, position }] = unit.members
  const isPut = found.placedBy === 'hand' || draft.found.placedBy === 'hand'
  // A stem may be no more than a counter; only a sample's name is worth the receiver's whole error.
  if (found.name === null || isPut) return grouping.near_m
  const errors = [position.error, draft.positions[0].error]
  const worst = errors.includes(null) ? null : Math.max(...errors.map((error) => error ?? 0))
  return spread(worst === null ? null : worst * perUnit, grouping)
}

/** The seconds between a draft's last scan and the first of what is later; null where clocks differ. */
export function pauseBetween(
  draft: Draft,
  later: Pick<Unit, 'start' | 'zoneStated'>,
): number | null {
  if (later.start === null || draft.end === null || draft.zoneStated !== later.zoneStated)
    return null
  return Math.max(0, later.start - draft.end)
}

/** Whether time keeps a unit out of a draft of its key. */
export function isParted(draft: Draft, unit: Unit, grouping: Grouping): boolean {
  const [{ found }] = unit.members
  if (!grouping.by_time || found.name !== null || found.placedBy === 'hand') return false
  // Of two bursts of one instrument each is a spot.
  if (unit.width !== null && draft.burstsOf.includes(unit.instrument)) return true
  const pause = pauseBetween(draft, unit)
  return pause !== null && pause > grouping.pause_s
}

/** Whether all of a unit's scans lie within a distance of all of a draft's, in working units. */
export function isWithin(draft: Draft, unit: Unit, most: number): boolean {
  return unit.members.every(
    ({ position }) =>
      // Where that is plain from the outermost scan, the others need no look.
      apart(draft.anchor, position) + draft.radius <= most ||
      draft.positions.every((own) => apart(own, position) <= most),
  )
}

/** The distance between two places in the plane. */
export function apart(a: Draft['anchor'], b: Draft['anchor']): number {
  return Math.hypot(a.easting - b.easting, a.northing - b.northing)
}

/** The mean of a unit's places in the plane. */
export function anchorOf({ members }: Unit): Draft['anchor'] {
  if (members.length === 1) return members[0].position
  return {
    easting: meanOf(members.map(({ position }) => position.easting)),
    northing: meanOf(members.map(({ position }) => position.northing)),
  }
}

/** The mean of one number or more. */
export function meanOf(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0) / values.length
}
