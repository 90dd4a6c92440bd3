/** What people wrote of scans and stations: records, and cells for rules and for the files that leave. */
import type { Placement } from '../places/place-scans'
import type { Cell } from '../places/station'
import type { Decisions } from './decisions'
import type { ScanHead } from './project'
import { scanCells } from './scan-columns'
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
  /** Each scan's fields: what its file says of the instrument, and the users' own. */
  readonly scans: readonly Cells[]
  /** Each station's record, and the fields on which its scans agree. */
  readonly stations: readonly Cells[]
}

/** All that people wrote, of scans that count and of their stations. */
export function writtenOf(
  placement: Placement,
  heads: readonly ScanHead[],
  decisions: Decisions,
): Written {
  const records = stationRecords(placement, heads, decisions)
  const own = ownFields(heads)
  const anyRecord = records.some(isRecorded)
  const said = scanCells(heads)
  const scans = heads.map((head, scan) =>
    head.own === undefined ? said[scan] : { ...said[scan], ...ownCells(head) },
  )
  return {
    records,
    own,
    anyRecord,
    scans,
    stations: placement.stations.map((of, station) => {
      const agreed = agreedCells(of.scans.map((scan) => scans[scan]))
      return anyRecord ? { ...agreed, ...recordCells(records[station]) } : agreed
    }),
  }
}
