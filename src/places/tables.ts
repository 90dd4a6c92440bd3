/** Sample, collar and survey tables: which columns they have, and what each row says. */
import type { Problem, Table } from '../readers/input'
import { cellOf, decimalOf, numberIn, supportOf, targetOf, type Decimal } from './cells'
import { readSpot, spotReader, type Pair, type Spot, type SpotReader } from './spots'
import { metresOf, type Role, type Roles } from './headings'
import { exactName } from './names'
import { kindOf, missingColumns, rolesWithRule, tellMisspelt } from './table-columns'
import type { MissingColumn, TableKind } from './table-columns'
import { Troubles } from './troubles'
import type { CrsQuestion } from './crs-question'
import type { Cell, PlaceRule, Support, Target } from './station'

/** What one row of a table says. */
export interface PlaceRow {
  readonly line: number
  /** The sample's name; empty where the row has none. */
  readonly name: string
  readonly spot: Spot | null
  readonly hole: string | null
  /** Metres along the hole. */
  readonly from: number | null
  readonly to: number | null
  /** Degrees clockwise from north, and from straight down; of a collar or a survey. */
  readonly azimuth: number | null
  readonly inclination: number | null
  readonly support: Support | null
  readonly target: Target | null
  readonly columns: Readonly<Record<string, Cell>>
}

export interface PlaceTable {
  readonly file: string
  readonly kind: TableKind
  /** Which column was taken for what. */
  readonly roles: Roles
  /** The columns that coordinates are read from. */
  readonly pair: Pair
  /** Columns that the rows cannot do without and that were not found. */
  readonly missing: readonly MissingColumn[]
  readonly rows: readonly PlaceRow[]
  /** Set where the rows have coordinates that cannot be used until it is answered. */
  readonly question: CrsQuestion | null
  readonly problems: readonly Problem[]
}

/** Reads a table's rows by its headings and the rule for it. */
export function readPlaceTable(table: Table, rule: PlaceRule | null): PlaceTable {
  const troubles = new Troubles(table.file)
  const roles = rolesWithRule(table, rule, troubles)
  const kind = kindOf(roles)
  const decimal = decimalOf(table.rows, table.commaSeparated)
  const spots = spotReader(table, roles, rule, decimal, troubles)
  if (kind === 'samples') tellMisspelt(table.header, roles, troubles)
  const missing = table.rows.length === 0 ? [] : missingColumns(kind, roles)
  // Rows without a name and a place serve nothing, and a table of them may be very large.
  const isIdle = missing.includes('name') && missing.length > 1
  const reader = isIdle ? null : rowReader(table, roles, kind, decimal, spots, troubles)
  const rows = reader === null ? [] : table.rows.map((_, row) => reader(row))
  return {
    file: table.file,
    kind,
    roles,
    pair: spots.pair,
    missing,
    rows,
    question: spots.question,
    problems: troubles.all(),
  }
}

/** A longer text is no sample's name, and thousands of such would take long to tell apart. */
const LONGEST_NAME = 1000

/** Columns that a row's own fields take, so that they are not values to map. */
const TAKEN: readonly Role[] = [
  ...([
    'name',
    'x',
    'y',
    'longitude',
    'latitude',
    'position',
    'z',
    'error',
    'crs',
    'datum',
  ] as const),
  ...(['zone', 'support', 'target', 'hole', 'from', 'to', 'depth'] as const),
]

function rowReader(
  table: Table,
  roles: Roles,
  kind: TableKind,
  decimal: Decimal,
  spots: SpotReader,
  troubles: Troubles,
): (row: number) => PlaceRow {
  const text = (row: number, role: Role) => {
    const column = roles[role]
    return column === undefined ? '' : exactName(table.rows[row][column] ?? '')
  }
  const name = (row: number) => {
    const written = text(row, 'name')
    if (written.length <= LONGEST_NAME) return written
    const words = `a name of ${written.length} characters, more than ${LONGEST_NAME}`
    troubles.add('name', table.lines[row], words, 'the row has no name; correct it in the table')
    return ''
  }
  const length = (row: number, role: Role) => {
    const column = roles[role]
    const value = column === undefined ? NaN : numberIn(text(row, role), decimal)
    return Number.isFinite(value) ? value * metresOf(table.header[column ?? 0]) : null
  }
  const angle = (row: number, role: Role) => {
    const value = numberIn(text(row, role), decimal)
    return Number.isFinite(value) ? value : null
  }
  const inclination = inclinationReader(table, roles, decimal, troubles)
  const taken = new Set(TAKEN.map((role) => roles[role]).filter((column) => column !== undefined))
  const kept = table.header.map((heading, column) => ({ heading: exactName(heading), column }))
  const values = kept.filter(({ heading, column }) => heading !== '' && !taken.has(column))
  return (row) => {
    const line = table.lines[row]
    const depth = length(row, 'depth')
    const hole = text(row, 'hole')
    return {
      line,
      name: name(row),
      spot: readSpot(spots, row, troubles),
      hole: hole === '' ? null : hole,
      from: length(row, 'from') ?? (kind === 'collars' ? null : depth),
      to: length(row, 'to') ?? (kind === 'collars' ? null : depth),
      azimuth: angle(row, 'azimuth'),
      inclination: inclination(row),
      support: word(text(row, 'support'), supportOf, 'support', line, troubles),
      target: word(text(row, 'target'), targetOf, 'target', line, troubles),
      columns: Object.fromEntries(
        values.map(({ heading, column }) => [
          heading,
          cellOf(table.rows[row][column] ?? '', decimal),
        ]),
      ),
    }
  }
}

function word<W>(
  text: string,
  meaning: (text: string) => W | null,
  what: string,
  line: number,
  troubles: Troubles,
): W | null {
  if (text === '') return null
  const found = meaning(text)
  if (found === null) {
    troubles.add(
      `unknown ${what}`,
      line,
      `“${text}” is no ${what} known here`,
      'taken as if not told',
    )
  }
  return found
}

/**
 * Degrees from straight down out of a dip or an inclination column. A dip is from the horizontal:
 * negative is down; where no dip of the table is negative, positive is down. An inclination is from
 * straight down, unless a value is negative, which only a dip can be.
 */
function inclinationReader(
  table: Table,
  roles: Roles,
  decimal: Decimal,
  troubles: Troubles,
): (row: number) => number | null {
  const column = roles.dip ?? roles.inclination
  if (column === undefined) return () => null
  const values = table.rows.map((cells) => numberIn(cells[column] ?? '', decimal))
  const negative = values.some((value) => value < 0)
  if (roles.dip === undefined && !negative) {
    troubles.add(
      'inclination',
      null,
      `the column “${table.header[column]}” is read as the angle from straight down (0 is vertical)`,
      'if it is the angle below the horizontal, name it dip in the recipe',
    )
    return (row) => (Number.isFinite(values[row]) ? values[row] : null)
  }
  return (row) => {
    const dip = values[row]
    if (!Number.isFinite(dip)) return null
    return negative ? 90 + dip : 90 - dip
  }
}
