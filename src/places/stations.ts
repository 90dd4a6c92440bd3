/** Stations out of placed scans and out of table rows that no scan names. */
import type { WorkingCrs } from './crs'
import type { Found } from './find-place'
import { compareNatural, foldedName, naturalKey, stemOf } from './names'
import { joinedColumns } from './sample-rows'
import type { Spot } from './spots'
import type { Position, Station, Support } from './station'

/** Scans of one name within this distance were taken on one spot, metres (common practice). */
const TOGETHER = 6

/** What a station is made from. */
interface Draft {
  readonly found: Found
  readonly scans: number[]
  readonly positions: Position[]
  readonly support: Support
  /** The first scan's own name. */
  readonly scanName: string
  /** Where the first scan or the row stands, for messages. */
  readonly source: Source
}

/** A file and line that a message can point to. */
export interface Source {
  readonly file: string
  readonly line: number | null
}

/** A station with what is only needed while placing. */
export interface MadeStation {
  readonly station: Station
  readonly source: Source
  readonly spot: Spot
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

/** Gathers scans into stations. */
export class StationBuilder {
  private readonly drafts: Draft[] = []
  private readonly byKey = new Map<string, Draft>()
  private readonly cells = new Map<string, Draft[]>()

  constructor(private readonly crs: WorkingCrs) {}

  /** Adds a scan to its station, or makes the station. */
  addScan(
    scan: number,
    scanName: string,
    found: Found,
    position: Position,
    support: Support,
    source: Source,
  ): void {
    const known = found.near ? this.nearby(found.key, position) : this.byKey.get(found.key)
    if (known) {
      known.scans.push(scan)
      known.positions.push(position)
      return
    }
    this.open({ found, scans: [scan], positions: [position], support, scanName, source })
  }

  /** Adds a station that has no scan. */
  addRow(found: Found, position: Position, support: Support, source: Source): void {
    this.open({ found, scans: [], positions: [position], support, scanName: '', source })
  }

  /**
   * Puts scans to the stations of a name, wherever they were taken.
   *
   * @returns the scans that found their station
   */
  joinByName(wanted: readonly { readonly scan: number; readonly station: string }[]): Set<number> {
    const joined = new Set<number>()
    if (wanted.length === 0) return joined
    const alone = this.aloneByKey()
    const byName = new Map<string, Draft>()
    for (const draft of this.drafts) {
      const name = foldedName(nameOf(draft, alone(draft)))
      if (!byName.has(name)) byName.set(name, draft)
    }
    for (const { scan, station } of wanted) {
      const draft = byName.get(foldedName(station))
      if (!draft) continue
      draft.scans.push(scan)
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

  private open(draft: Draft): void {
    this.drafts.push(draft)
    if (!draft.found.near) {
      this.byKey.set(draft.found.key, draft)
      return
    }
    const cell = this.cellKey(draft.found.key, draft.positions[0], 0, 0)
    const list = this.cells.get(cell)
    if (list) list.push(draft)
    else this.cells.set(cell, [draft])
  }

  /** The first station of the same key whose first scan lies within reach. */
  private nearby(key: string, position: Position): Draft | undefined {
    const reach = TOGETHER / this.crs.metresPerUnit
    for (const north of [-1, 0, 1]) {
      for (const east of [-1, 0, 1]) {
        for (const draft of this.cells.get(this.cellKey(key, position, east, north)) ?? []) {
          const { easting, northing } = draft.positions[0]
          if (Math.hypot(easting - position.easting, northing - position.northing) <= reach) {
            return draft
          }
        }
      }
    }
    return undefined
  }

  private cellKey(key: string, position: Position, east: number, north: number): string {
    const size = TOGETHER / this.crs.metresPerUnit
    const column = Math.floor(position.easting / size) + east
    const row = Math.floor(position.northing / size) + north
    return `${column} ${row}\u0000${key}`
  }

  /** All stations in natural order of their names, then by hole, depth and place. */
  finish(): MadeStation[] {
    const alone = this.aloneByKey()
    const made = this.drafts.map((draft) => {
      const name = nameOf(draft, alone(draft))
      return { made: { ...this.station(draft, name), source: draft.source }, key: naturalKey(name) }
    })
    made.sort((a, b) => compareNatural(a.key, b.key) || comparePlace(a.made, b.made))
    return made.map((entry) => entry.made)
  }

  private station(draft: Draft, name: string): Pick<MadeStation, 'station' | 'spot'> {
    const { found, scans, positions, support } = draft
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
  if (draft.found.name !== null && (alone || draft.scanName === '')) return draft.found.name
  const stem = stemOf(draft.scanName)
  if (alone && draft.scans.length > 1 && stem !== '') return stem
  if (draft.scanName !== '') return draft.scanName
  const { file, line } = draft.source
  return line === null ? file : `row ${line}`
}

function meanOf(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0) / values.length
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
