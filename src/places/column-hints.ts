/**
 * What the cells of a table say of its columns: in which one scans are named, and which hold numbers
 * like coordinates. It proposes; a person or a recipe decides.
 */
import type { Table } from '../readers/input'
import { decimalOf, numberIn, type Decimal } from './cells'
import { parsePosition } from './coordinates'
import { median } from './crs'
import { exactName, foldedName, stemsOf } from './names'

/** Cells looked at for names: a table of six million would take seconds. */
const NAME_CELLS = 500_000
/** Cells looked at for numbers. */
const NUMBER_CELLS = 200_000
/** Rows looked at for numbers, at the most. */
const NUMBER_ROWS = 200
/** Longer cells name nothing. */
const LONGEST_NAME = 200

/** Names that scans go by: each scan's sample, its own name, and both without endings that count. */
export class ScanNames {
  private readonly scans = new Map<string, number[]>()
  /** How many scans there are. */
  readonly count: number

  /** @param names for each scan the names that it goes by */
  constructor(names: readonly (readonly string[])[]) {
    this.count = names.length
    names.forEach((own, scan) => {
      const keys = own.flatMap((name) => [name, ...stemsOf(name)].map(foldedName))
      for (const key of new Set(keys)) {
        const list = this.scans.get(key)
        if (list) list.push(scan)
        else if (key !== '') this.scans.set(key, [scan])
      }
    })
  }

  /** The scans that go by a name; none where it is no scan's. */
  named(name: string): readonly number[] {
    if (name.length > LONGEST_NAME) return []
    return this.scans.get(foldedName(name)) ?? []
  }
}

/** How many scans are named in a column. */
export interface NamedScans {
  readonly column: number
  readonly scans: number
}

/** Two columns that hold numbers like coordinates. */
export interface CoordinateColumns {
  readonly x: number
  readonly y: number
  readonly like: 'easting and northing' | 'longitude and latitude'
}

/** A column that holds whole positions. */
export interface PositionColumn {
  readonly column: number
  readonly like: 'grid references' | 'latitudes and longitudes'
}

/** What a table's cells say. */
export interface ColumnHints {
  /** Columns in which scans are named, the most first. */
  readonly named: readonly NamedScans[]
  /** Null where no two columns, or more than two, look like it. */
  readonly coordinates: CoordinateColumns | null
  /** Null where no column, or more than one, reads as positions. */
  readonly position: PositionColumn | null
  /** The rows looked at for names; fewer than the table has where it is very large. */
  readonly rows: number
}

/** Looks at the cells of a table; a bounded number of them. */
export function columnHints(table: Table, names: ScanNames): ColumnHints {
  const columns = table.header.length
  const rows = Math.min(table.rows.length, Math.ceil(NAME_CELLS / Math.max(1, columns)))
  const named: NamedScans[] = []
  if (names.count > 0) {
    for (let column = 0; column < columns; column++) {
      const scans = scansNamedIn(table, column, names)
      if (scans > 0) named.push({ column, scans })
    }
  }
  named.sort((a, b) => b.scans - a.scans || a.column - b.column)
  const nameColumn = named[0]?.column ?? -1
  return {
    named,
    coordinates: coordinateColumns(table, nameColumn),
    position: positionColumn(table, nameColumn),
    rows,
  }
}

/** How many scans the cells of one column name, in the rows that are looked at. */
export function scansNamedIn(table: Table, column: number, names: ScanNames): number {
  const rows = Math.min(table.rows.length, Math.ceil(NAME_CELLS / Math.max(1, table.header.length)))
  const found = new Set<number>()
  for (let row = 0; row < rows && found.size < names.count; row++) {
    for (const scan of names.named(table.rows[row][column] ?? '')) found.add(scan)
  }
  return found.size
}

/** The numbers of a column; null unless nearly all of its filled cells are numbers. */
interface Numbers {
  readonly column: number
  readonly middle: number
  readonly spread: number
  /** Whether most are written with three decimals or more. */
  readonly isFine: boolean
}

function coordinateColumns(table: Table, nameColumn: number): CoordinateColumns | null {
  const columns = table.header.length
  const looked = spreadRows(table, Math.max(5, Math.floor(NUMBER_CELLS / Math.max(1, columns))))
  const decimal = decimalOf(looked, table.commaSeparated)
  const numbers = table.header.flatMap((_, column): Numbers[] => {
    const own = column === nameColumn ? null : numbersIn(looked, column, decimal)
    return own === null ? [] : [own]
  })
  return projectedPair(numbers) ?? geographicPair(numbers)
}

/** Longer cells are no position. */
const LONGEST_POSITION = 80
/** Letters and signs of a position that no interval, date or ticket has; or two fine decimals. */
const LIKE_POSITION =
  /[°º′″]|\d\s*[NS]\b.*\d\s*[EWO]\b|[NS]\s*\d.*[EW]\s*\d|\d[.,]\d{3}.*\d[.,]\d{3}/i
const LIKE_REFERENCE = /^\d{1,2}\s*[C-HJ-NP-X]\s*[A-HJ-NP-Z]{2}[\d\s]*$/i

function positionColumn(table: Table, nameColumn: number): PositionColumn | null {
  const rows = spreadRows(table, Math.max(5, Math.floor(NUMBER_CELLS / table.header.length)))
  const found = table.header.flatMap((_, column): PositionColumn[] => {
    const like = column === nameColumn ? null : positionsIn(rows, column)
    return like === null ? [] : [{ column, like }]
  })
  return found.length === 1 ? found[0] : null
}

/** What kind of positions nearly all filled cells of a column are; null where they are none. */
function positionsIn(
  rows: readonly (readonly string[])[],
  column: number,
): PositionColumn['like'] | null {
  const filled = rows.map((cells) => (cells[column] ?? '').trim()).filter((text) => text !== '')
  const read = filled.filter(isPosition)
  if (read.length === 0 || read.length < 0.9 * filled.length) return null
  const references = read.filter((text) => LIKE_REFERENCE.test(text)).length
  return references > read.length / 2 ? 'grid references' : 'latitudes and longitudes'
}

function isPosition(text: string): boolean {
  if (text.length > LONGEST_POSITION) return false
  if (!LIKE_POSITION.test(text) && !LIKE_REFERENCE.test(text)) return false
  try {
    parsePosition(text)
    return true
  } catch {
    return false
  }
}

function spreadRows({ rows }: Table, most: number): readonly (readonly string[])[] {
  const count = Math.min(rows.length, most, NUMBER_ROWS)
  return Array.from({ length: count }, (_, i) => rows[Math.floor((i * rows.length) / count)])
}

function numbersIn(
  rows: readonly (readonly string[])[],
  column: number,
  decimal: Decimal,
): Numbers | null {
  const filled = rows.map((cells) => exactName(cells[column] ?? '')).filter((text) => text !== '')
  const values = filled.map((text) => numberIn(text, decimal)).filter(Number.isFinite)
  if (values.length === 0 || values.length < 0.9 * filled.length) return null
  const fine = filled.filter((text) => /[.,]\d{3}/.test(text)).length
  return {
    column,
    middle: median(values),
    spread: Math.max(...values) - Math.min(...values),
    isFine: fine > filled.length / 2,
  }
}

/**
 * The one column like an easting and the one like a northing of a transverse Mercator zone: 100 to
 * 900 km, and 1,000 to 10,000 km (the false origins of UTM, NGA.SIG.0012).
 */
function projectedPair(numbers: readonly Numbers[]): CoordinateColumns | null {
  // Whatever was sampled in a day's walk or a survey lies within a zone's width.
  const near = numbers.filter(({ spread }) => spread < 1e6)
  const east = near.filter(({ middle }) => middle >= 1e5 && middle < 9e5)
  const north = near.filter(({ middle }) => middle >= 1e6 && middle <= 1e7)
  if (east.length !== 1 || north.length !== 1) return null
  return { x: east[0].column, y: north[0].column, like: 'easting and northing' }
}

/** The one column like a longitude beyond 90° and the one like a latitude, both with decimals. */
function geographicPair(numbers: readonly Numbers[]): CoordinateColumns | null {
  const fine = numbers.filter(({ isFine, spread }) => isFine && spread < 20)
  const east = fine.filter(({ middle }) => Math.abs(middle) > 90 && Math.abs(middle) <= 180)
  const north = fine.filter(({ middle }) => Math.abs(middle) <= 90 && middle !== 0)
  if (east.length !== 1 || north.length !== 1) return null
  return { x: east[0].column, y: north[0].column, like: 'longitude and latitude' }
}
