/** The columns of a table as a person is asked about them, and the rule that their answer makes. */
import type { Table } from '../readers/input'
import type { PlaceRule } from './station'
import { RULE_COLUMNS, rolesWithRule, type RuleColumn } from './table-columns'
import { spotReader } from './spots'
import { Troubles } from './troubles'

/** The heading chosen for each; empty for no column. */
export type ColumnChoice = Readonly<Record<RuleColumn, string>>

/** Rows that tell how a table is read; its columns do not depend on the others. */
const ROWS = 50

/** The columns that a table is read by: degrees stand under x and y. */
export function chosenColumns(table: Table, rule: PlaceRule | null): ColumnChoice {
  const few = { ...table, rows: table.rows.slice(0, ROWS), lines: table.lines.slice(0, ROWS) }
  // What is wrong with the rule has been told where the whole table was read.
  const troubles = new Troubles(table.file)
  const roles = rolesWithRule(few, rule, troubles)
  const { pair } = spotReader(few, roles, rule, '.', troubles)
  const isOne = pair === 'position'
  const isDegrees = pair === 'geographic' && roles.longitude !== undefined
  const heading = (column: number | undefined) => (column === undefined ? '' : table.header[column])
  const x = isDegrees ? roles.longitude : (roles.x ?? roles.longitude)
  const y = isDegrees ? roles.latitude : (roles.y ?? roles.latitude)
  const own = RULE_COLUMNS.map((role) => [role, heading(roles[role])])
  return {
    ...(Object.fromEntries(own) as ColumnChoice),
    x: isOne ? '' : heading(x),
    y: isOne ? '' : heading(y),
    position: isOne ? heading(roles.position) : '',
  }
}

/**
 * What a rule has to say so that a table is read by a choice: the headings that are not found by
 * themselves, an empty one where a column was found that is none, undefined for the others.
 */
export function ruleOfChoice(
  table: Table,
  rule: PlaceRule | null,
  choice: ColumnChoice,
): Readonly<Record<RuleColumn, string | undefined>> {
  const unaided = chosenColumns(table, { file: table.file, crs: rule?.crs })
  const said = RULE_COLUMNS.map((role) => [
    role,
    choice[role] === unaided[role] ? undefined : choice[role],
  ])
  const change = Object.fromEntries(said) as Record<RuleColumn, string | undefined>
  // Of a pair both are said: an easting beside a column of latitudes is neither.
  if (change.x !== undefined || change.y !== undefined) {
    change.x = choice.x
    change.y = choice.y
  }
  return change
}
