/** `scans.csv`: a row a scan, unplaced ones too. */
import type { WorkingCrs } from '../places/crs'
import { foundColumns, indexColumns, placeColumns } from './columns'
import { csv, type CsvColumn } from './csv'
import type { IndexColumn, ScanRow } from './rows'

/** The contract's columns in their order, then each index and its error. */
function scanColumns(
  crs: WorkingCrs,
  indices: readonly IndexColumn[],
  rows: readonly ScanRow[],
): CsvColumn<ScanRow>[] {
  return [
    { name: 'scan', text: (row) => row.scan },
    { name: 'file', text: (row) => row.file },
    { name: 'station', text: (row) => row.station },
    { name: 'target', text: (row) => row.target },
    ...placeColumns(crs),
    ...foundColumns(),
    ...indexColumns(indices, rows),
  ]
}

/** The file's bytes; rows in the order given. */
export function scansCsv(
  crs: WorkingCrs,
  indices: readonly IndexColumn[],
  rows: readonly ScanRow[],
): Uint8Array {
  return csv(scanColumns(crs, indices, rows), rows)
}
