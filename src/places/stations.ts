/** Stations out of placed scans and out of table rows that no scan names. */
import type { WorkingCrs } from './crs'
import {
  anchorOf,
  draftAt,
  draftOf,
  isParted,
  isWithin,
  join,
  meanOf,
  note,
  reachOf,
  type Draft,
  type Source,
} from './drafts'
import type { Found } from './find-place'
import type { Grouping } from './grouping'
import type { Unit } from './loose-units'
import { compareNatural, foldedName, naturalKey, stemOf } from './names'
import { NearDrafts } from './near-drafts'
import { joinedColumns } from './sample-rows'
import type { Spot } from './spots'
import type { GroupedBy, Position, Station, Support } from './station'

/** A station with what is only needed while placing. */
export interface MadeStation {
  readonly station: Station
  readonly source: Source
  readonly spot: Spot
  readonly draft: Draft
}

/** A spot in the working CRS; null where the two cannot be joined (a grid tied to nothing). */
export function toWorking(spot: Spot, crs: WorkingCrs): Position | null {
  const same = spot.crs.code === crs.code
  const geographic = spot.crs.toGeographic(spot.x, spot.y)
  const plane = same
    ? ([spot.x, spot.y] as const)
    : geographic && crs.fromGeographic(geographic[0], geographic[1])
  if (!plane) return null
  return {
    easting: plane[0],
    northing: plane[1],
    elevation: spot.elevation,
    longitude: geographic?.[0] ?? null,
    latitude: geographic?.[1] ?? null,
    error: spot.error === null ? null : spot.error / crs.metresPerUnit,
  }
}

/** Drafts of one stem that time parts and a spot keeps; nobody visits one more often. */
const MOST_VISITS = 500

/** Gathers scans into stations. */
export class StationBuilder {
  private readonly drafts: Draft[] = []
  private readonly byKey = new Map<string, Draft>()
  private readonly named: NearDrafts
  private readonly unnamed: NearDrafts

  constructor(
    private readonly crs: WorkingCrs,
    private readonly grouping: Grouping,
  ) {
    this.named = new NearDrafts(grouping.widest_m / crs.metresPerUnit)
    this.unnamed = new NearDrafts(grouping.near_m / crs.metresPerUnit, MOST_VISITS)
  }

  /** Adds a scan that a row, a hole or a person's word places to its station, or makes the station. */
  addFixed(
    scan: number,
    scanName: string,
    found: Found,
    position: Position,
    support: Support,
    file: string,
  ): void {
    const known = this.byKey.get(found.key)
    if (known) {
      known.scans.push(scan)
      known.positions.push(position)
      note(known, 'name')
      return
    }
    const draft = draftAt(found, [scan], position, support, scanName, { file, line: null })
    if (found.key.startsWith('hand')) note(draft, 'hand')
    this.drafts.push(draft)
    this.byKey.set(found.key, draft)
  }

  /**
   * Adds a unit to the nearest station of its key that may take it, or makes the station. Units come
   * in order of time.
   */
  addUnit(unit: Unit, support: Support): void {
    const [{ found }] = unit.members
    const { crs, grouping } = this
    const index = found.name === null ? this.unnamed : this.named
    const anchor = anchorOf(unit)
    const known = index.nearest(found.key, anchor, (each, distance) => {
      return (
        distance * crs.metresPerUnit <= reachOf(each, unit, grouping, crs.metresPerUnit) &&
        !isParted(each, unit, grouping) &&
        isWithin(each, unit, grouping.widest_m / crs.metresPerUnit)
      )
    })
    if (known) {
      join(known, unit)
      return
    }
    const draft = draftOf(unit, anchor, support)
    this.drafts.push(draft)
    index.add(found.key, draft)
  }

  /** Adds a station that has no scan. */
  addRow(found: Found, position: Position, support: Support, source: Source): void {
    this.drafts.push(draftAt(found, [], position, support, '', source))
  }

  /**
   * Puts scans to the stations of a name, wherever they were taken. A station's first scan names it
   * too, for what a station is called may change when others go from beside it.
   *
   * @returns the scans that found their station
   */
  joinByName(wanted: readonly { readonly scan: number; readonly station: string }[]): Set<number> {
    const joined = new Set<number>()
    if (wanted.length === 0) return joined
    const alone = this.aloneByKey()
    const byName = new Map<string, Draft>()
    const byScan = new Map<string, Draft>()
    for (const draft of this.drafts) {
      setFirst(byName, foldedName(nameOf(draft, alone(draft))), draft)
      if (draft.scanName !== '') setFirst(byScan, foldedName(draft.scanName), draft)
    }
    for (const { scan, station } of wanted) {
      const name = foldedName(station)
      const draft = byName.get(name) ?? byScan.get(name)
      if (!draft) continue
      if (!byName.has(name)) draft.givenName = station
      draft.scans.push(scan)
      note(draft, 'hand')
      joined.add(scan)
    }
    return joined
  }

  /** Whether a station's name is its own: not shared by another spot of the same name. */
  private aloneByKey(): (draft: Draft) => boolean {
    const sharers = new Map<string, number>()
    for (const { found } of this.drafts) {
      if (found.near) sharers.set(found.key, (sharers.get(found.key) ?? 0) + 1)
    }
    return ({ found }) => !found.near || sharers.get(found.key) === 1
  }

  /** All stations in natural order of their names, then by hole, depth and place. */
  finish(): MadeStation[] {
    const alone = this.aloneByKey()
    const made = this.drafts.map((draft) => {
      const name = nameOf(draft, alone(draft))
      return {
        made: { ...this.station(draft, name), source: draft.source, draft },
        key: naturalKey(name),
      }
    })
    made.sort((a, b) => compareNatural(a.key, b.key) || comparePlace(a.made, b.made))
    return made.map((entry) => entry.made)
  }

  private station(draft: Draft, name: string): Pick<MadeStation, 'station' | 'spot'> {
    const { found, scans, positions, support } = draft
    const groupedBy = surest(draft)
    const station: Station = {
      name,
      support,
      position: this.mean(positions),
      placedBy: found.placedBy,
      hole: found.hole,
      from: found.from,
      to: found.to,
      columns: found.rows.length === 0 ? {} : joinedColumns(found.rows),
      scans: scans.sort((a, b) => a - b),
      file: draft.source.file,
      ...(groupedBy === null ? {} : { groupedBy }),
      ...(found.near && found.name === null ? { isUnnamed: true as const } : {}),
    }
    return { station, spot: found.spot }
  }

  /** The mean place of several scans; the error stays the first one's, for fixes minutes apart share it. */
  private mean(positions: readonly Position[]): Position {
    const [first] = positions
    if (
      positions.every((own) => own.easting === first.easting && own.northing === first.northing)
    ) {
      return first
    }
    const easting = meanOf(positions.map((position) => position.easting))
    const northing = meanOf(positions.map((position) => position.northing))
    const heights = positions.flatMap(({ elevation }) => (elevation === null ? [] : [elevation]))
    const geographic = this.crs.toGeographic(easting, northing)
    return {
      easting,
      northing,
      elevation: heights.length === 0 ? null : meanOf(heights),
      longitude: geographic?.[0] ?? null,
      latitude: geographic?.[1] ?? null,
      error: first.error,
    }
  }
}

/** The sample's name; else the stem that several scans share; else the scan's own. */
function nameOf(draft: Draft, alone: boolean): string {
  if (draft.givenName !== null) return draft.givenName
  if (draft.found.name !== null && (alone || draft.scanName === '')) return draft.found.name
  const stem = stemOf(draft.scanName)
  if (alone && draft.scans.length > 1 && stem !== '') return stem
  if (draft.scanName !== '') return draft.scanName
  const { file, line } = draft.source
  return line === null ? file : `row ${line}`
}

/** The surest of what joined a draft's scans; null where it has fewer than two. */
function surest({ scans, by }: Draft): GroupedBy | null {
  if (scans.length < 2) return null
  const order = ['hand', 'name', 'time', 'likeness'] as const
  return order.find((means) => by.includes(means)) ?? null
}

function setFirst(map: Map<string, Draft>, name: string, draft: Draft): void {
  if (!map.has(name)) map.set(name, draft)
}

function comparePlace(a: MadeStation, b: MadeStation): number {
  const [p, q] = [a.station.position, b.station.position]
  return (
    (a.station.from ?? -1) - (b.station.from ?? -1) ||
    p.easting - q.easting ||
    p.northing - q.northing ||
    (a.source.line ?? 0) - (b.source.line ?? 0)
  )
}
