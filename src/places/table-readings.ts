/** What each table was taken for, how many scans it serves, and what it lacks. */
import type { Problem, Table } from '../readers/input'
import { columnHints, ScanNames, type ColumnHints } from './column-hints'
import type { Found, NotFound } from './find-place'
import type { SpareRow } from './gather'
import type { Header, ScanHead } from './header'
import { baseName } from './rules'
import {
  COLUMN_WORDS,
  saidHeading,
  saidHeadings,
  type MissingColumn,
  type TableKind,
} from './table-columns'
import type { PlaceTable } from './tables'

/** What a table was taken for. */
export interface TableReading {
  readonly file: string
  readonly kind: TableKind
  /** Columns that its rows cannot do without and that were not found. */
  readonly missing: readonly MissingColumn[]
  /** The column that scans are named in, where it is not the one taken for names; else null. */
  readonly betterName: string | null
  /** What is said of a column that is missing or named wrongly; null where nothing is. */
  readonly trouble: Problem | null
  /** Scans whose sample is named in it, and those whose place it gives. */
  readonly scansNamed: number
  readonly scansPlaced: number
  /** Stations of its rows that no scan was taken on. */
  readonly stationsAlone: number
}

/** All that readings are made of; lists of scans are of the same length. */
export interface ReadingInput {
  readonly tables: readonly Table[]
  readonly read: readonly PlaceTable[]
  readonly scans: readonly ScanHead[]
  readonly headers: readonly Header[]
  readonly found: readonly (Found | NotFound)[]
  readonly spare: readonly SpareRow[]
}

/** The names that a scan goes by in tables: the sample that its header names, and its own. */
export function namesOfScan(scan: ScanHead, sample: string | null): string[] {
  return sample === null ? [scan.name] : [sample, scan.name]
}

interface Served {
  named: number
  placed: number
  alone: number
  /** Whether a row of it has joined a place, its own or another table's. */
  isJoined: boolean
}

/** Readings of all tables, and a problem for each that lacks a column. */
export function tableReadings(input: ReadingInput): {
  readonly tables: TableReading[]
  readonly problems: Problem[]
} {
  const served = servedBy(input)
  const names = lazily(
    () => new ScanNames(input.scans.map((scan, i) => namesOfScan(scan, input.headers[i].sample))),
  )
  const anyLost = input.found.some((place) => 'unplaced' in place)
  const problems: Problem[] = []
  let looked = 0
  const tables = input.read.map((read, i): TableReading => {
    const table = input.tables[i]
    const { named, placed, alone, isJoined } = served.get(read) ?? NOTHING
    // Another table may give the place of the samples that this one names.
    const missing = isJoined ? read.missing.filter((column) => column !== 'place') : read.missing
    const isAstray =
      anyLost && read.kind === 'samples' && read.roles.name !== undefined && named === 0
    const isSuspect = missing.length > 0 || isAstray
    const hints = isSuspect
      ? ++looked > MOST_LOOKED
        ? NO_HINTS
        : columnHints(table, names())
      : null
    const better = isAstray ? hints?.named[0] : undefined
    const betterName = better ? table.header[better.column] : null
    const isWrong = missing.length > 0 || betterName !== null
    const trouble =
      hints && isWrong ? columnProblem(table, read, missing, hints, names().count) : null
    if (trouble) problems.push(trouble)
    const counts = { scansNamed: named, scansPlaced: placed, stationsAlone: alone }
    return { file: read.file, kind: read.kind, missing, betterName, trouble, ...counts }
  })
  return { tables, problems }
}

/** Tables whose cells are looked at; of more the columns that lack are told without proposals. */
const MOST_LOOKED = 50
const NO_HINTS: ColumnHints = { named: [], coordinates: null, position: null, rows: 0 }

const NOTHING: Served = { named: 0, placed: 0, alone: 0, isJoined: false }

function servedBy({ found, spare }: ReadingInput): Map<PlaceTable, Served> {
  const served = new Map<PlaceTable, Served>()
  const of = (table: PlaceTable) => {
    let own = served.get(table)
    if (!own) served.set(table, (own = { ...NOTHING }))
    return own
  }
  for (const place of found) {
    const isPlaced = !('unplaced' in place)
    for (const table of new Set(place.rows.map((at) => at.table))) {
      of(table).named++
      of(table).isJoined ||= isPlaced
    }
    const giver = isPlaced ? giverOf(place) : null
    if (giver) of(giver).placed++
  }
  for (const { at, found: place } of spare) {
    of(at.table).alone++
    for (const row of place.rows) of(row.table).isJoined = true
  }
  return served
}

/** The table whose row gave a place; null where none did. */
function giverOf(place: Found): PlaceTable | null {
  if (place.placedBy !== 'table' && place.placedBy !== 'hole') return null
  const spot = place.placedBy === 'table'
  return place.rows.find(({ row }) => (spot ? row.spot !== null : row.hole !== null))?.table ?? null
}

function columnProblem(
  table: Table,
  { roles }: PlaceTable,
  missing: readonly MissingColumn[],
  hints: ColumnHints,
  scans: number,
): Problem {
  const lost =
    missing.length > 0
      ? `no ${missing.map((column) => COLUMN_WORDS[column]).join(' and no ')} was found`
      : `no scan is named in the column “${saidHeading(table.header[roles.name ?? 0])}”`
  const effect =
    missing.includes('name') && missing.length === 1
      ? 'its rows are stations called by their number, and no scan finds its row'
      : missing.length === 0
        ? 'no scan finds its row'
        : 'its rows place nothing'
  const proposals = proposalsOf(table, hints, missing, scans)
  const entry = entryOf(table, hints, missing)
  return {
    file: table.file,
    line: table.lines.length > 0 ? 1 : null,
    problem: `${lost}; its headings are ${saidHeadings(table.header)}`,
    done: `${effect}; say which columns they are in the Places step, or under places in the recipe, such as ${entry}${proposals}`,
  }
}

function proposalsOf(
  table: Table,
  hints: ColumnHints,
  missing: readonly MissingColumn[],
  scans: number,
): string {
  const [named] = hints.named
  const words: string[] = []
  if (named && (missing.length === 0 || missing.includes('name'))) {
    words.push(
      `${named.scans} of ${scans} scans are named in “${saidHeading(table.header[named.column])}”`,
    )
  }
  if (hints.coordinates && missing.some((column) => column !== 'name')) {
    const { x, y, like } = hints.coordinates
    const [east, north] = [x, y].map((column) => saidHeading(table.header[column]))
    words.push(`“${east}” and “${north}” hold numbers like ${like}`)
  }
  if (hints.position && missing.includes('place')) {
    const { column, like } = hints.position
    words.push(`“${saidHeading(table.header[column])}” holds ${like}`)
  }
  return words.map((word) => `; ${word}`).join('')
}

/** An entry for the recipe that names what was not found; headings that nothing proposes are dots. */
function entryOf(table: Table, hints: ColumnHints, missing: readonly MissingColumn[]): string {
  const heading = (column: number | undefined) =>
    column === undefined ? '…' : saidHeading(table.header[column])
  const entry: Record<string, string> = { file: baseName(table.file) }
  if (missing.length === 0 || missing.includes('name')) entry.name = heading(hints.named[0]?.column)
  const whole = missing.includes('place') && !hints.coordinates ? hints.position : null
  if (whole) entry.position = heading(whole.column)
  for (const column of missing) {
    if (whole && column === 'place') continue
    if (column === 'place' || column === 'x' || column === 'longitude')
      entry.x = heading(hints.coordinates?.x)
    if (column === 'place' || column === 'y' || column === 'latitude')
      entry.y = heading(hints.coordinates?.y)
    if (column === 'depth' || column === 'azimuth' || column === 'dip') entry[column] = '…'
  }
  return JSON.stringify(entry)
}

function lazily<T>(make: () => T): () => T {
  let made: T | undefined
  return () => (made ??= make())
}
