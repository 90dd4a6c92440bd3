/** `scans.csv`: a row a scan, unplaced ones too. */
import type { WorkingCrs } from '../places/crs'
import { foundColumns, indexColumns, placeColumns } from './columns'
import { csv, type CsvColumn } from './csv'
import type { IndexColumn, ScanRow } from './rows'
import { writtenColumns } from './written-columns'

/** The contract's columns in their order, each index and its error, then the users' own fields. */
function scanColumns(
  crs: WorkingCrs,
  indices: readonly IndexColumn[],
  rows: readonly ScanRow[],
  written: readonly string[],
): CsvColumn<ScanRow>[] {
  const columns: CsvColumn<ScanRow>[] = [
    { name: 'scan', text: (row) => row.scan },
    { name: 'file', text: (row) => row.file },
    { name: 'station', text: (row) => row.station },
    { name: 'target', text: (row) => row.target },
    ...placeColumns(crs),
    ...foundColumns(),
    ...indexColumns(indices, rows),
  ]
  const before = columns.map(({ name }) => name)
  return [...columns, ...writtenColumns(written, rows, before)]
}

/** The file's bytes; rows in the order given. */
export function scansCsv(
  crs: WorkingCrs,
  indices: readonly IndexColumn[],
  rows: readonly ScanRow[],
  written: readonly string[] = [],
): Uint8Array {
  return csv(scanColumns(crs, indices, rows, written), rows)
}
