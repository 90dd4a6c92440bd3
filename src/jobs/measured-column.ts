/** What one leaf measured on many scans, as columns: a tenth of what as many objects take. */
import { MISSING, type Measured } from '../indices/rule'

/** Values of one kind, a row a scan. */
export interface MeasuredColumn {
  readonly values: Float64Array
  readonly errors: Float64Array
  /** 0 where nothing stands yet; see `stateOf` for the rest. */
  readonly states: Uint8Array
}

const WITH_ERROR = 1
const WITHOUT_ERROR = 2
/** The value is missing; further up come the reasons of `MISSING`. */
const NO_VALUE = 3
const FIRST_REASON = 4

/** A column of so many rows in which nothing stands. */
export function emptyColumn(rows: number): MeasuredColumn {
  return {
    values: new Float64Array(rows),
    errors: new Float64Array(rows),
    states: new Uint8Array(rows),
  }
}

/** A column with more rows, the first of them as they were; the very same where it is long enough. */
export function lengthened(column: MeasuredColumn, rows: number): MeasuredColumn {
  if (column.states.length >= rows) return column
  const longer = emptyColumn(rows)
  longer.values.set(column.values)
  longer.errors.set(column.errors)
  longer.states.set(column.states)
  return longer
}

/** What stands in a row; undefined where nothing does. */
export function measuredIn({ values, errors, states }: MeasuredColumn, row: number) {
  return measuredOf(states[row], values[row], errors[row])
}

/** Writes a row. */
export function setMeasured(column: MeasuredColumn, row: number, measured: Measured): void {
  column.states[row] = stateOf(measured)
  column.values[row] = measured.value ?? NaN
  column.errors[row] = measured.error ?? NaN
}

/** Writes a row as it stands in another column. */
export function copyRow(
  to: MeasuredColumn,
  row: number,
  from: MeasuredColumn,
  fromRow: number,
): void {
  to.states[row] = from.states[fromRow]
  to.values[row] = from.values[fromRow]
  to.errors[row] = from.errors[fromRow]
}

function stateOf({ value, error, missing }: Measured): number {
  if (value !== null) return error === null ? WITHOUT_ERROR : WITH_ERROR
  return missing === undefined ? NO_VALUE : FIRST_REASON + MISSING.indexOf(missing)
}

function measuredOf(state: number, value: number, error: number): Measured | undefined {
  if (!state) return undefined
  if (state === WITH_ERROR) return { value, error }
  if (state === WITHOUT_ERROR) return { value, error: null }
  if (state === NO_VALUE) return { value: null, error: null }
  return { value: null, error: null, missing: MISSING[state - FIRST_REASON] }
}
