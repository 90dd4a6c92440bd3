/** The form that says which column of a table is which: its fields, and what is said of them. */
import type { ColumnHints } from '../../places/column-hints'
import type { ColumnChoice } from '../../places/column-choice'
import { RULE_COLUMNS, type RuleColumn } from '../../places/table-columns'
import type { TableReading } from '../../places/table-readings'
import type { Table } from '../../readers/input'
import { named } from '../shell/steps'

/** A field's label, in the order of the form. */
export const FIELD_WORDS: Readonly<Record<RuleColumn, string>> = {
  name: 'Sample’s name',
  x: 'East or longitude (x)',
  y: 'North or latitude (y)',
  position: 'Or both in one column',
  z: 'Elevation',
  hole: 'Hole',
  from: 'From',
  to: 'To',
  depth: 'Depth',
  support: 'Support',
  target: 'Target',
  azimuth: 'Azimuth',
  dip: 'Dip',
}

/** Fields that nearly every table has; the others are folded away until one of them is chosen. */
export const FIRST_FIELDS: readonly RuleColumn[] = ['name', 'x', 'y', 'position', 'z']
export const OTHER_FIELDS: readonly RuleColumn[] = RULE_COLUMNS.filter(
  (field) => !FIRST_FIELDS.includes(field),
)

/** With more columns than this a heading is typed, with those that hold the text on offer. */
export const MOST_LISTED = 80

const LONGEST_CELL = 24

/** What is proposed for the fields that a table lacks; only what its cells speak for. */
export function proposed(
  table: Table,
  { missing, betterName }: TableReading,
  hints: ColumnHints,
): Partial<ColumnChoice> {
  const heading = (column: number | undefined) =>
    column === undefined ? undefined : table.header[column]
  const lacksName = betterName !== null || missing.includes('name')
  const lacksPlace = missing.some((column) => ['place', 'x', 'y'].includes(column))
  const name = lacksName ? heading(hints.named[0]?.column) : undefined
  const pair = lacksPlace ? hints.coordinates : null
  const whole = lacksPlace && pair === null ? hints.position : null
  return {
    ...(name === undefined ? {} : { name }),
    ...(pair === null ? {} : { x: heading(pair.x), y: heading(pair.y) }),
    ...(whole === null ? {} : { x: '', y: '', position: heading(whole.column) }),
  }
}

/** What is wrong with a choice, in words; empty where nothing is. */
export function faultOf(table: Table, choice: ColumnChoice): string {
  const headings = new Set(table.header)
  const taken = new Map<string, RuleColumn>()
  for (const field of RULE_COLUMNS) {
    const heading = choice[field]
    if (heading === '') continue
    if (!headings.has(heading)) return `No column is headed “${cut(heading)}”.`
    const other = taken.get(heading)
    if (other !== undefined) {
      return `“${cut(heading)}” is chosen for both ${FIELD_WORDS[other].toLowerCase()} and ${FIELD_WORDS[field].toLowerCase()}.`
    }
    taken.set(heading, field)
  }
  if ((choice.x === '') !== (choice.y === '')) {
    return 'East and north are a pair: choose both or neither.'
  }
  if (choice.position !== '' && choice.x !== '') {
    return 'Choose east and north, or one column with both: not all three.'
  }
  return ''
}

/** The first rows’ cells of a column, for the screen. */
export function firstCells(table: Table, heading: string): readonly string[] {
  const column = heading === '' ? -1 : table.header.indexOf(heading)
  return column < 0 ? [] : table.rows.slice(0, 3).map((cells) => cut(cells[column] ?? ''))
}

/** A cell or heading for the screen, cut where it is long; a dash where it is empty. */
export function cut(text: string): string {
  if (text === '') return '–'
  return text.length > LONGEST_CELL ? `${text.slice(0, LONGEST_CELL)}…` : text
}

/** Headings that hold a text, the first hundred. */
export function headingsLike(table: Table, text: string): readonly string[] {
  const wanted = text.toLowerCase()
  const found: string[] = []
  for (const heading of table.header) {
    if (found.length === 100) break
    if (heading.toLowerCase().includes(wanted)) found.push(heading)
  }
  return found
}

/** What a table does for the project, in a few words. */
export function servesWords(reading: TableReading, scans: number, isAsked: boolean): string {
  if (isAsked) return 'waits for its coordinate system'
  const { kind, scansPlaced, scansNamed, stationsAlone } = reading
  if (kind !== 'samples') return kind
  const parts = [
    scansPlaced > 0 ? `${scansPlaced} of ${named(scans, 'scan')} placed` : '',
    scansPlaced === 0 && scansNamed > 0 ? `${named(scansNamed, 'scan')} named` : '',
    stationsAlone > 0 ? `${named(stationsAlone, 'station')} without a scan` : '',
  ].filter(Boolean)
  return parts.length > 0 ? parts.join(', ') : 'places nothing'
}
