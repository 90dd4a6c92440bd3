/** The rows of all sample tables, found by a scan's name or by hole and depth. */
import type { Problem } from '../readers/input'
import { distance } from './tracks'
import { exactName, foldedName, nearestNames, stemsOf } from './names'
import { lengthOf } from './crs-question'
import { baseName } from './rules'
import type { Cell } from './station'
import type { PlaceRow, PlaceTable } from './tables'
import { Troubles } from './troubles'

/** A row and the table that it stands in. */
export interface RowAt {
  readonly table: PlaceTable
  readonly row: PlaceRow
  /** A number of its own among all rows. */
  readonly number: number
}

/** How a name was matched. */
export interface Match {
  /** The rows of that name, in the tables' order. */
  readonly rows: readonly RowAt[]
  /** What was done to the name; empty where it fits as it stands. */
  readonly how: string
}

/** The most comparisons that are spent on finding names like those that fit nothing. */
const NEAREST_BUDGET = 400_000

/** Rows of the sample tables, found by a scan’s name, as written or nearly so, or by hole and depth. */
export class SampleRows {
  readonly all: RowAt[] = []
  /** Of names that stand in a table more than once. */
  readonly problems: readonly Problem[]
  private readonly byExact = new Map<string, RowAt[]>()
  private readonly byFolded = new Map<string, RowAt[]>()
  private readonly byHole = new Map<string, RowAt[]>()
  private readonly names: string[] = []
  private readonly files = new Set<string>()
  /** Tables in which no column of names was found. */
  private readonly nameless: string[] = []
  private budget = NEAREST_BUDGET
  private readonly repeats = new Map<RowAt, Repeat>()

  constructor(tables: readonly PlaceTable[]) {
    for (const table of tables) {
      if (table.kind !== 'samples') continue
      if (table.missing.includes('name')) this.nameless.push(table.file)
      for (const row of table.rows) this.add({ table, row, number: this.all.length })
    }
    for (const rows of this.byHole.values()) {
      rows.sort((a, b) => (a.row.from ?? 0) - (b.row.from ?? 0) || a.number - b.number)
    }
    this.problems = repeatProblems(this.repeats)
  }

  private add(at: RowAt): void {
    const { row } = at
    this.all.push(at)
    if (row.name !== '') {
      this.files.add(at.table.file)
      const folded = foldedName(row.name)
      this.noteRepeat(at, this.byFolded.get(folded) ?? [])
      if (!this.byFolded.has(folded)) this.names.push(row.name)
      push(this.byExact, exactName(row.name), at)
      push(this.byFolded, folded, at)
    }
    if (row.hole !== null && row.from !== null && row.to !== null) {
      push(this.byHole, foldedName(row.hole), at)
    }
  }

  private noteRepeat(at: RowAt, before: readonly RowAt[]): void {
    const first = before.find(({ table }) => table === at.table)
    if (!first) return
    const known = this.repeats.get(first) ?? { second: at, times: 0, apart: 0 }
    const apart = Math.max(known.apart, metresApart(first.row, at.row) ?? 0)
    this.repeats.set(first, { ...known, times: known.times + 1, apart })
  }

  /**
   * The rows that name a scan: by the name as it stands, then without case, then without the ending
   * that counts repeated scans, unless `stripped` is false.
   */
  find(name: string, stripped = true): Match | null {
    const exact = this.byExact.get(exactName(name))
    if (exact) return { rows: exact, how: '' }
    const folded = this.byFolded.get(foldedName(name))
    if (folded) return { rows: folded, how: ', upper and lower case aside' }
    for (const stem of stripped ? stemsOf(name) : []) {
      const rows = this.byExact.get(stem) ?? this.byFolded.get(foldedName(stem))
      if (rows) return { rows, how: ` without ‘${exactName(name).slice(stem.length)}’` }
    }
    return null
  }

  /** The rows whose interval holds a depth, in the tables' order. */
  inHole(hole: string, depth: number): RowAt[] {
    const rows = this.byHole.get(foldedName(hole))
    if (!rows) return []
    let low = 0
    let high = rows.length
    while (low < high) {
      const middle = (low + high) >>> 1
      if ((rows[middle].row.from ?? 0) <= depth) low = middle + 1
      else high = middle
    }
    const holding: RowAt[] = []
    // Intervals of one hole are seldom longer than the few that begin last before a depth.
    for (let i = low - 1; i >= 0 && i >= low - 8; i--) {
      if (depth <= (rows[i].row.to ?? -1)) holding.push(rows[i])
    }
    // On the join of two intervals the lower one holds the depth.
    const inside = holding.filter(({ row }) => depth < (row.to ?? -1) || row.from === row.to)
    const found = inside.length > 0 ? inside : holding
    return found.sort((a, b) => a.number - b.number)
  }

  /** Why a name was not found, in words; null where no table names samples. */
  missing(name: string): string | null {
    if (this.files.size === 0) return this.unnamed()
    const where = filesOr([...this.files])
    let near: string[] = []
    if (this.budget >= this.names.length) {
      this.budget -= this.names.length
      near = nearestNames(name, this.names)
    }
    const hint = near.length === 0 ? '' : `; nearest names: ${near.join(', ')}`
    return `no row of ${where} is called ‘${exactName(name)}’${hint}`
  }

  private unnamed(): string | null {
    if (this.nameless.length === 0) return null
    return `no column of sample names was found in ${filesOr(this.nameless)}: say which it is`
  }
}

function filesOr(files: readonly string[]): string {
  return files.length > 3 ? `${files.length} sample tables` : files.map(baseName).join(' or ')
}

function push<K>(map: Map<K, RowAt[]>, key: K, at: RowAt): void {
  const list = map.get(key)
  if (list) list.push(at)
  else map.set(key, [at])
}

/** Rows of a table that have the name of an earlier one. */
interface Repeat {
  readonly second: RowAt
  readonly times: number
  /** Metres from the first to the furthest of them; 0 where it cannot be told. */
  readonly apart: number
}

/** One problem a name, however often it stands there. */
function repeatProblems(repeats: ReadonlyMap<RowAt, Repeat>): Problem[] {
  const ofFiles = new Map<string, Troubles>()
  for (const [{ table, row: first }, { second, times, apart }] of repeats) {
    const troubles = ofFiles.get(table.file) ?? new Troubles(table.file)
    ofFiles.set(table.file, troubles)
    const how = times === 1 ? 'again' : `${times} times more, from line ${second.row.line} on`
    const where = apart < 0.5 ? '' : `, ${times === 1 ? '' : 'up to '}${lengthOf(apart)} away`
    troubles.add(
      'their names stand in the table more than once',
      second.row.line,
      `‘${second.row.name}’ stands in the table ${how}; the first is on line ${first.line}${where}`,
      `line ${first.line} is used; rename or delete ${times === 1 ? 'one of them' : 'the others'}`,
    )
  }
  return [...ofFiles.values()].flatMap((troubles) => troubles.all())
}

/** Metres between two rows' coordinates; null where they cannot be compared. */
function metresApart(a: PlaceRow, b: PlaceRow): number | null {
  if (a.spot === null || b.spot === null) return null
  if (a.spot.crs === b.spot.crs && a.spot.crs.kind !== 'geographic') {
    return Math.hypot(a.spot.x - b.spot.x, a.spot.y - b.spot.y) * a.spot.crs.metresPerUnit
  }
  const there = a.spot.crs.toGeographic(a.spot.x, a.spot.y)
  const here = b.spot.crs.toGeographic(b.spot.x, b.spot.y)
  return there && here ? distance(there[0], there[1], here[0], here[1]) : null
}

/** The cells of several rows under one heading each; the first row's stand, gaps are filled. */
export function joinedColumns(rows: readonly RowAt[]): Readonly<Record<string, Cell>> {
  if (rows.length === 1) return rows[0].row.columns
  const columns = new Map<string, Cell>()
  for (const { row } of rows) {
    for (const [heading, cell] of Object.entries(row.columns)) {
      columns.set(heading, columns.get(heading) ?? cell)
    }
  }
  return Object.fromEntries(columns)
}
