/** The tables' columns: their order and their decimals. */
import type { WorkingCrs } from '../places/crs'
import type { CsvColumn } from './csv'
import {
  coordinateDecimals,
  DEGREE_DECIMALS,
  DEPTH_DECIMALS,
  ELEVATION_DECIMALS,
  indexDecimals,
  NOISE_DECIMALS,
  SHARE_DECIMALS,
} from './decimals'
import type { FoundCells, IndexColumn, PlaceCells } from './rows'

/** What the name of an index's error ends in. */
const ERROR_ENDING = ' error'

/** Lists in one cell: files, targets, reasons. */
export const LIST_SEPARATOR = '; '

/** A detector step at each of two joins is one reason in a list of names. */
export function onceEach(names: readonly string[]): string[] {
  return [...new Set(names)]
}

/** From `support` to `place_error`, as in the contract. */
export function placeColumns(crs: WorkingCrs): CsvColumn<PlaceCells>[] {
  const coordinate = coordinateDecimals(crs)
  return [
    { name: 'support', text: (row) => row.support },
    { name: 'hole', text: (row) => row.hole },
    { name: 'depth', decimals: DEPTH_DECIMALS, number: (row) => row.depth },
    { name: 'longitude', decimals: DEGREE_DECIMALS, number: (row) => row.longitude },
    { name: 'latitude', decimals: DEGREE_DECIMALS, number: (row) => row.latitude },
    { name: 'easting', decimals: coordinate, number: (row) => row.easting },
    { name: 'northing', decimals: coordinate, number: (row) => row.northing },
    { name: 'elevation', decimals: ELEVATION_DECIMALS, number: (row) => row.elevation },
    { name: 'crs', text: (row) => (row.easting === null ? null : crs.code) },
    { name: 'placed_by', text: (row) => row.placedBy },
    { name: 'place_error', decimals: coordinate, number: (row) => row.placeError },
  ]
}

/** From `check` to `class`, as in the contract. */
export function foundColumns(): CsvColumn<FoundCells>[] {
  return [
    { name: 'check', text: (row) => row.check },
    { name: 'check_reasons', text: (row) => onceEach(row.checkReasons).join(LIST_SEPARATOR) },
    { name: 'noise', decimals: NOISE_DECIMALS, number: (row) => row.noise },
    { name: 'mineral', text: (row) => row.mineral },
    { name: 'group', text: (row) => row.group },
    { name: 'share', decimals: SHARE_DECIMALS, number: (row) => row.share },
    { name: 'fit', decimals: SHARE_DECIMALS, number: (row) => row.fit },
    { name: 'doubt', text: (row) => row.doubt },
    { name: 'class', text: (row) => row.class },
  ]
}

/**
 * Each index by its name and its name with ` error`. Decimals follow the unit and the column's
 * largest value; the error has one more.
 */
export function indexColumns<Row extends FoundCells>(
  indices: readonly IndexColumn[],
  rows: readonly Row[],
): CsvColumn<FoundCells>[] {
  return indices.flatMap(({ name, unit }, at): CsvColumn<FoundCells>[] => {
    const decimals = indexDecimals(unit, largestMagnitude(rows, at))
    return [
      { name, decimals, number: (row) => row.indices[at].value },
      {
        name: name + ERROR_ENDING,
        decimals: decimals + 1,
        number: (row) => row.indices[at].error,
      },
    ]
  })
}

function largestMagnitude(rows: readonly FoundCells[], at: number): number {
  let largest = 0
  for (const row of rows) largest = Math.max(largest, Math.abs(row.indices[at].value ?? 0))
  return largest
}
