/** The coordinates in a table's rows, and in which system they stand. */
import type { Table } from '../readers/input'
import { quoted } from '../readers/result'
import { numberIn, type Decimal } from './cells'
import { parseAngle, parsePosition } from './coordinates'
import { openCrs, type WorkingCrs } from './crs'
import { crsFromHeading, crsFromText } from './crs-text'
import { metresOf, type Role, type Roles } from './headings'
import type { PlaceRule } from './station'
import type { CrsQuestion } from './crs-question'
import type { Troubles } from './troubles'

/** A position as a row or a header gives it, before it is brought to the working CRS. */
export interface Spot {
  readonly crs: WorkingCrs
  /** Easting and northing in the system's units, or longitude and latitude in degrees. */
  readonly x: number
  readonly y: number
  /** Metres; null where unknown. */
  readonly elevation: number | null
  /** One standard error, metres; null where nothing tells. */
  readonly error: number | null
}

const WGS84 = 'EPSG:4326'

/** What a table's coordinates stand as; `none` also while their system is asked for. */
export type Pair = 'projected' | 'geographic' | 'position' | 'none'

/** How a table's coordinates are read. */
export interface SpotReader {
  readonly table: Table
  readonly roles: Roles
  readonly decimal: Decimal
  readonly pair: Pair
  /** The table's system; null where each row names its own, or where none is known. */
  readonly crs: WorkingCrs | null
  readonly question: CrsQuestion | null
  readonly systems: Map<string, WorkingCrs | string>
}

/** Decides how a table's coordinates are to be read; a projected one without a system is a question. */
export function spotReader(
  table: Table,
  roles: Roles,
  rule: PlaceRule | null,
  decimal: Decimal,
  troubles: Troubles,
): SpotReader {
  const base = { table, roles, decimal, systems: new Map<string, WorkingCrs | string>() }
  const stated = statedCrs(table, roles, rule, troubles)
  const perRow = stated === null && hasCrsColumn(table, roles)
  const projected = roles.x !== undefined && roles.y !== undefined
  const geographic = roles.longitude !== undefined && roles.latitude !== undefined
  const wgs84 = openCrs(WGS84)
  if (projected && (stated !== null || perRow)) {
    return { ...base, pair: 'projected', crs: stated, question: null }
  }
  if (geographic) {
    const crs = stated?.kind === 'geographic' ? stated : wgs84
    return { ...base, pair: 'geographic', crs, question: null }
  }
  if (roles.position !== undefined) {
    return { ...base, pair: 'position', crs: wgs84, question: null }
  }
  const question = projected ? questionOf(table, roles) : null
  return { ...base, pair: 'none', crs: null, question }
}

/** The system that the rule or a heading states. */
function statedCrs(
  table: Table,
  roles: Roles,
  rule: PlaceRule | null,
  troubles: Troubles,
): WorkingCrs | null {
  const fromRule = rule?.crs !== undefined && rule.crs !== 'auto' ? rule.crs : null
  const headings = [roles.x, roles.y].map((column) =>
    column === undefined ? null : crsFromHeading(table.header[column]),
  )
  const code =
    fromRule === null ? (headings[0] ?? headings[1]) : (crsFromText(fromRule) ?? fromRule)
  if (code === null) return null
  try {
    return openCrs(code)
  } catch (error) {
    const where = fromRule === null ? 'a heading' : 'the recipe'
    troubles.add(
      'coordinate system',
      1,
      `${where} names ${code}: ${(error as Error).message}`,
      'asked for the coordinate system instead',
    )
    return null
  }
}

function hasCrsColumn(table: Table, roles: Roles): boolean {
  return table.rows.some((_, row) => rowCrsText(table, roles, row) !== '')
}

function rowCrsText(table: Table, roles: Roles, row: number): string {
  const text = (role: Role) => {
    const column = roles[role]
    return column === undefined ? '' : (table.rows[row][column] ?? '').trim()
  }
  if (text('crs') !== '') return text('crs')
  return text('datum') !== '' && text('zone') !== ''
    ? `${text('datum')} / UTM zone ${text('zone')}`
    : ''
}

function questionOf(table: Table, roles: Roles): CrsQuestion | null {
  const [x, y] = [roles.x ?? 0, roles.y ?? 0]
  const filled = table.rows.filter((cells) => (cells[x] ?? '').trim() !== '')
  if (filled.length === 0) return null
  return {
    file: table.file,
    columns: [table.header[x], table.header[y]],
    sample: filled.slice(0, 3).map((cells) => [cells[x] ?? '', cells[y] ?? '']),
    suggestions: [],
  }
}

/** The coordinates of a row; null where it has none or they cannot be read, which is told. */
export function readSpot(reader: SpotReader, row: number, troubles: Troubles): Spot | null {
  const { table, roles, pair } = reader
  const line = table.lines[row]
  const cell = (role: Role) => {
    const column = roles[role]
    return column === undefined ? '' : (table.rows[row][column] ?? '').trim()
  }
  try {
    if (pair === 'none') return null
    const rest = { elevation: metres(reader, 'z', row), error: metres(reader, 'error', row) }
    if (pair === 'position') {
      if (cell('position') === '') return null
      const at = parsePosition(cell('position'))
      const elevation = rest.elevation ?? at.elevation
      // A point anywhere in a square of side s has a standard deviation of s/√12 along each axis.
      const error = rest.error ?? (at.cell === null ? null : at.cell / Math.sqrt(6))
      return { crs: openCrs(WGS84), x: at.longitude, y: at.latitude, elevation, error }
    }
    const [xRole, yRole] = pair === 'projected' ? (['x', 'y'] as const) : GEOGRAPHIC
    if (cell(xRole) === '' && cell(yRole) === '') return null
    const crs = reader.crs ?? rowCrs(reader, row)
    const at = pairOf(crs, cell(xRole), cell(yRole), reader.decimal)
    if (crs.kind === 'geographic' && at[0] === 0 && at[1] === 0) {
      throw new Error('latitude and longitude are both 0, as receivers write without a fix')
    }
    return { crs, x: at[0], y: at[1], ...rest }
  } catch (error) {
    const words = (error as Error).message
    const kind = /swapped/.test(words) ? 'latitude and longitude seem swapped' : 'no position'
    troubles.add(kind, line, words, 'the row has no place; correct it in the table')
    return null
  }
}

const GEOGRAPHIC = ['longitude', 'latitude'] as const

function metres(reader: SpotReader, role: 'z' | 'error', row: number): number | null {
  const column = reader.roles[role]
  if (column === undefined) return null
  const value = numberIn(reader.table.rows[row][column] ?? '', reader.decimal)
  return Number.isFinite(value) ? value * metresOf(reader.table.header[column]) : null
}

/** The system that a row itself names. */
function rowCrs(reader: SpotReader, row: number): WorkingCrs {
  const text = rowCrsText(reader.table, reader.roles, row)
  let found = reader.systems.get(text)
  if (found === undefined) {
    found = systemOf(text)
    reader.systems.set(text, found)
  }
  if (typeof found === 'string') throw new Error(found)
  return found
}

function systemOf(text: string): WorkingCrs | string {
  if (text === '') return 'the row names no coordinate system'
  const code = crsFromText(text)
  if (code === null)
    return `${quoted(text)} names no coordinate system known here: write its EPSG code`
  try {
    return openCrs(code)
  } catch (error) {
    return (error as Error).message
  }
}

/** Two cells as a pair of coordinates in a system. */
export function pairOf(
  crs: WorkingCrs,
  x: string,
  y: string,
  decimal: Decimal,
): [x: number, y: number] {
  if (crs.kind === 'geographic') return geographicPair(x, y)
  const pair: [number, number] = [numberIn(x, decimal), numberIn(y, decimal)]
  if (!Number.isFinite(pair[0]) || !Number.isFinite(pair[1])) {
    throw new Error(`${quoted(x)}, ${quoted(y)} are no easting and northing`)
  }
  if (crs.kind === 'projected' && crs.toGeographic(pair[0], pair[1]) === null) {
    throw new Error(`easting ${x}, northing ${y} lies outside ${crs.code} (${crs.name})`)
  }
  return pair
}

function geographicPair(x: string, y: string): [x: number, y: number] {
  try {
    return [parseAngle(x, 'longitude'), parseAngle(y, 'latitude')]
  } catch (error) {
    if (readsAs(y, 'longitude') && readsAs(x, 'latitude')) {
      throw new Error(
        `latitude “${y}” and longitude “${x}”: ${(error as Error).message}; the two seem swapped`,
      )
    }
    throw error
  }
}

function readsAs(text: string, axis: 'latitude' | 'longitude'): boolean {
  try {
    parseAngle(text, axis)
    return true
  } catch {
    return false
  }
}
