/** What people wrote of scans and stations: records, and cells for rules and for the files that leave. */
import type { Placement } from '../places/place-scans'
import type { Cell } from '../places/station'
import type { Decisions } from './decisions'
import type { ScanHead } from './project'
import { agreedCells, ownCells, ownFields } from './scan-fields'
import { isRecorded, recordCells, stationRecords, type StationRecord } from './station-record'

export type Cells = Readonly<Record<string, Cell>>

/** What people wrote; lists have an entry a scan or station. */
export interface Written {
  readonly records: readonly StationRecord[]
  /** Names of the users' own fields. */
  readonly own: readonly string[]
  /** Whether any station has a record. */
  readonly anyRecord: boolean
  /** Each scan's own fields. */
  readonly scans: readonly Cells[]
  /** Each station's record, and the fields on which its scans agree. */
  readonly stations: readonly Cells[]
}

const NONE: Cells = {}

/** All that people wrote, of scans that count and of their stations. */
export function writtenOf(
  placement: Placement,
  heads: readonly ScanHead[],
  decisions: Decisions,
): Written {
  const records = stationRecords(placement, heads, decisions)
  const own = ownFields(heads)
  const anyRecord = records.some(isRecorded)
  return {
    records,
    own,
    anyRecord,
    scans: heads.map((head) => (head.own === undefined ? NONE : ownCells(head))),
    stations: placement.stations.map(({ scans }, station) => {
      if (!anyRecord && own.length === 0) return NONE
      const agreed = own.length === 0 ? NONE : agreedCells(scans.map((scan) => heads[scan]))
      return anyRecord ? { ...agreed, ...recordCells(records[station]) } : agreed
    }),
  }
}
