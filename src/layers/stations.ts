/** `stations.csv` and `stations.geojson`: one a station, the same columns in both. */
import type { WorkingCrs } from '../places/crs'
import { foundColumns, indexColumns, LIST_SEPARATOR, placeColumns } from './columns'
import { csv, type CsvColumn } from './csv'
import { rounded } from './decimals'
import { featureCollection, pointFeature, type Property } from './geojson'
import type { IndexColumn, StationRow } from './rows'
import { writtenColumns } from './written-columns'

/** The contract's columns in their order, each index and its error, then what people wrote. */
function stationColumns(
  crs: WorkingCrs,
  indices: readonly IndexColumn[],
  rows: readonly StationRow[],
  written: readonly string[],
): CsvColumn<StationRow>[] {
  const columns: CsvColumn<StationRow>[] = [
    { name: 'station', text: (row) => row.station },
    { name: 'scans', decimals: 0, number: (row) => row.scans },
    { name: 'file', text: (row) => row.files.join(LIST_SEPARATOR) },
    { name: 'target', text: (row) => row.targets.join(LIST_SEPARATOR) },
    ...placeColumns(crs),
    ...foundColumns(),
    ...indexColumns(indices, rows),
  ]
  const before = columns.map(({ name }) => name)
  return [...columns, ...writtenColumns(written, rows, before)]
}

/** The bytes of `stations.csv`; rows in the order given. */
export function stationsCsv(
  crs: WorkingCrs,
  indices: readonly IndexColumn[],
  rows: readonly StationRow[],
  written: readonly string[] = [],
): Uint8Array {
  return csv(stationColumns(crs, indices, rows, written), rows)
}

/**
 * The bytes of `stations.geojson`: points on WGS 84 with the table's columns as properties, numbers
 * at the table's decimals, null where the table is empty. The elevation is a property only: heights
 * above a geoid are no third coordinate of RFC 7946.
 *
 * @returns null for a local grid, which has no longitude and latitude.
 */
export function stationsGeojson(
  crs: WorkingCrs,
  indices: readonly IndexColumn[],
  rows: readonly StationRow[],
  written: readonly string[] = [],
): Uint8Array | null {
  if (crs.kind === 'local') return null
  const columns = stationColumns(crs, indices, rows, written)
  return featureCollection(
    rows.map((row) =>
      pointFeature(
        row.longitude === null || row.latitude === null ? null : [row.longitude, row.latitude],
        columns.map((column): Property => [column.name, propertyOf(column, row)]),
      ),
    ),
  )
}

function propertyOf(column: CsvColumn<StationRow>, row: StationRow): string | number | null {
  if ('number' in column) return rounded(column.number(row), column.decimals)
  return column.text(row) || null
}
