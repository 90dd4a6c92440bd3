/** A station's record: what a person saw there that a spectrum does not show. */
import type { Placement } from '../places/place-scans'
import type { Cell } from '../places/station'
import { scanKey, type Decision, type Decisions } from './decisions'
import type { Photo } from './photos'
import type { ScanHead } from './project'
import {
  isRecordAbout,
  RECORD_COLUMNS,
  RECORD_PARTS,
  seenColumn,
  type RecordAbout,
  type RecordPart,
} from './record-parts'
import { structureWords, trueAzimuth, type Structure } from './structures'

export interface StationRecord {
  readonly words: Readonly<Partial<Record<RecordPart, string>>>
  /** True where seen, false where looked for and not seen. */
  readonly minerals: Readonly<Record<string, boolean>>
  readonly structures: readonly Structure[]
  readonly photos: readonly Photo[]
}

export const NO_RECORD: StationRecord = { words: {}, minerals: {}, structures: [], photos: [] }

/**
 * The record of each station. A decision names a scan and speaks of the station that the scan
 * belongs to; of a station without scans it names the file and the station. The last one counts.
 */
export function stationRecords(
  placement: Placement,
  heads: readonly ScanHead[],
  { list }: Decisions,
): readonly StationRecord[] {
  const records: StationRecord[] = placement.stations.map(() => NO_RECORD)
  const about = list.filter((decision) => isRecordAbout(decision.about))
  if (about.length === 0) return records
  const byScan = new Map(
    heads.map(({ file, name }, scan) => [scanKey(file, name), placement.scans[scan].station]),
  )
  const byName = new Map(
    placement.stations.map(({ file = '', name }, station) => [scanKey(file, name), station]),
  )
  for (const decision of about) {
    const said = decision.about
    if (!isRecordAbout(said)) continue
    const station = stationMeant(decision, said, byScan, byName)
    if (station !== null) records[station] = withSaid(records[station], said)
  }
  return records
}

function stationMeant(
  { file, scan }: Decision,
  { station }: RecordAbout,
  byScan: ReadonlyMap<string, number | null>,
  byName: ReadonlyMap<string, number>,
): number | null {
  if (scan !== '') return byScan.get(scanKey(file, scan)) ?? null
  return byName.get(scanKey(file, station ?? '')) ?? null
}

function withSaid(record: StationRecord, said: RecordAbout): StationRecord {
  switch (said.kind) {
    case 'record':
      return { ...record, words: { ...record.words, [said.part]: said.value || undefined } }
    case 'minerals seen':
      return { ...record, minerals: said.minerals }
    case 'structures':
      return { ...record, structures: said.structures }
    case 'photos':
      return { ...record, photos: said.photos }
  }
}

/** Whether anything is recorded. */
export function isRecorded({ words, minerals, structures, photos }: StationRecord): boolean {
  return (
    structures.length > 0 ||
    photos.length > 0 ||
    Object.keys(minerals).length > 0 ||
    Object.values(words).some((word) => word !== undefined)
  )
}

/**
 * A record as columns, all of {@link RECORD_COLUMNS}, null where not recorded; besides, for rules,
 * `seen MINERAL` as `yes` or `no`. Angles are those of the first structure of each form, azimuths
 * from true north.
 */
export function recordCells(record: StationRecord): Readonly<Record<string, Cell>> {
  const { words, minerals, structures, photos } = record
  const cells: Record<string, Cell> = Object.fromEntries(RECORD_COLUMNS.map((name) => [name, null]))
  for (const part of RECORD_PARTS) cells[part] = words[part] ?? null
  const named = (seen: boolean) =>
    Object.keys(minerals)
      .filter((mineral) => minerals[mineral] === seen)
      .join('; ') || null
  cells.minerals_seen = named(true)
  cells.minerals_not_seen = named(false)
  for (const [mineral, seen] of Object.entries(minerals))
    cells[seenColumn(mineral)] = seen ? 'yes' : 'no'
  cells.photos = photos.map(({ file }) => file).join('; ') || null
  cells.structures = structures.map(structureWords).join('; ') || null
  for (const structure of [...structures].reverse()) {
    if (structure.form === 'plane') {
      cells.dip = structure.dip
      cells.dip_direction = trueAzimuth(structure.dip_direction, structure.declination)
    } else if (structure.form === 'line') {
      cells.trend = trueAzimuth(structure.trend, structure.declination)
      cells.plunge = structure.plunge
    } else {
      cells.alpha = structure.alpha
      cells.beta = structure.beta
    }
  }
  return cells
}
