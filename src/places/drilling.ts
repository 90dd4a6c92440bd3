/** Drill holes out of collar and survey tables, and the place at a depth along one. */
import type { Problem } from '../readers/input'
import { openCrs, type WorkingCrs } from './crs'
import { lengthOf } from './crs-question'
import { atDepth, holePath, type HolePath, type Survey } from './holes'
import { exactName, foldedName } from './names'
import { baseName } from './rules'
import type { Spot } from './spots'
import type { PlaceRow, PlaceTable } from './tables'
import { utmEpsg, utmZone } from './utm'

/** Beyond the last survey a hole is taken for straight; past this many metres that is told. */
const BEYOND = 30

interface Hole {
  readonly name: string
  readonly file: string
  readonly line: number
  readonly collar: Spot
  readonly path: HolePath | null
  /** Why there is no path. */
  readonly refused: string
}

/** All holes by name. */
export class HoleBook {
  readonly problems: Problem[] = []
  private readonly holes = new Map<string, Hole>()
  private readonly told = new Set<string>()
  /** Holes whose collars wait for a coordinate system, and the table that they stand in. */
  private readonly waiting = new Map<string, string>()

  constructor(tables: readonly PlaceTable[]) {
    for (const { kind, question, file, rows } of tables) {
      if (kind !== 'collars' || question === null) continue
      for (const { hole } of rows) if (hole !== null) this.waiting.set(foldedName(hole), file)
    }
    const surveys = this.surveysOf(tables)
    for (const table of tables) {
      if (table.kind !== 'collars') continue
      for (const row of table.rows) this.addCollar(table, row, surveys)
    }
    const files = new Set(tables.filter(({ kind }) => kind === 'surveys').map(({ file }) => file))
    for (const [key, found] of surveys) {
      if (this.holes.has(key) || this.waiting.has(key)) continue
      for (const { file, line, name } of found.slice(0, 1)) {
        if (!files.has(file)) continue
        this.tell(
          file,
          line,
          `the hole ${name} has surveys but no collar`,
          'not used; add its collar',
        )
      }
    }
  }

  get empty(): boolean {
    return this.holes.size === 0
  }

  /** Whether a hole of that name, capitals and blanks aside, has a collar. */
  has(hole: string): boolean {
    return this.holes.has(foldedName(hole))
  }

  /** The place at a depth in metres along a hole, or why there is none. */
  at(hole: string, depth: number): Spot | { readonly refused: string } {
    const found = this.holes.get(foldedName(hole))
    if (!found) return { refused: this.withoutCollar(hole) }
    if (found.path === null) return { refused: found.refused }
    if (!(depth >= 0)) return { refused: `depth ${depth} m lies above the collar of ${hole}` }
    const step = atDepth(found.path, depth)
    if (step.beyond > BEYOND) {
      this.tell(
        found.file,
        found.line,
        `the hole ${found.name} is used ${lengthOf(step.beyond)} or more past its last survey`,
        'taken as straight from there; add the deeper surveys',
      )
    }
    const { crs, x, y, elevation, error } = found.collar
    return {
      crs,
      x: x + step.east / crs.metresPerUnit,
      y: y + step.north / crs.metresPerUnit,
      elevation: elevation === null ? null : elevation - step.down,
      error,
    }
  }

  private withoutCollar(hole: string): string {
    const file = this.waiting.get(foldedName(hole))
    return file === undefined
      ? `no collar table has the hole ${hole}`
      : `the collar of ${hole} in ${baseName(file)} waits for its coordinate system: state it in the recipe’s places`
  }

  private addCollar(table: PlaceTable, row: PlaceRow, surveys: Surveys): void {
    if (row.hole === null || row.spot === null) return
    const key = foldedName(row.hole)
    const first = this.holes.get(key)
    if (first) {
      this.tell(
        table.file,
        row.line,
        `the hole ${row.hole} has a second collar; the first stands on line ${first.line} of ${baseName(first.file)}`,
        'the first one is used; remove one of them',
      )
      return
    }
    const name = exactName(row.hole)
    const base = { name, file: table.file, line: row.line, collar: projected(row.spot) }
    const own = surveys.get(key) ?? collarDirection(table, row)
    try {
      if (own.length === 0) throw new Error('no survey')
      this.holes.set(key, { ...base, path: holePath(own.map(({ survey }) => survey)), refused: '' })
    } catch (error) {
      const words = (error as Error).message
      const refused =
        words === 'no survey'
          ? `the hole ${name} has a collar but no survey, azimuth and dip: add a survey (dip −90 for a vertical hole)`
          : `the surveys of the hole ${name} have ${words}: correct them`
      this.holes.set(key, { ...base, path: null, refused })
      this.tell(table.file, row.line, refused, 'nothing is placed in this hole')
    }
  }

  private surveysOf(tables: readonly PlaceTable[]): Surveys {
    const surveys: Surveys = new Map()
    for (const table of tables) {
      if (table.kind !== 'surveys') continue
      for (const row of table.rows) {
        if (row.hole === null) continue
        const survey = surveyOf(row, row.from)
        if (survey === null) {
          this.tell(
            table.file,
            row.line,
            `a survey of ${row.hole} lacks depth, azimuth or dip`,
            'left out',
          )
          continue
        }
        const key = foldedName(row.hole)
        const entry = { file: table.file, line: row.line, name: row.hole, survey }
        const list = surveys.get(key)
        if (list) list.push(entry)
        else surveys.set(key, [entry])
      }
    }
    return surveys
  }

  private tell(file: string, line: number | null, problem: string, done: string): void {
    const key = `${file}\u0000${line}\u0000${done}`
    if (this.told.has(key)) return
    this.told.add(key)
    this.problems.push({ file, line, problem, done })
  }
}

type Surveys = Map<string, { file: string; line: number; name: string; survey: Survey }[]>

/** A survey; a vertical one needs no azimuth. */
function surveyOf(row: PlaceRow, depth: number | null): Survey | null {
  const { azimuth, inclination } = row
  if (depth === null || inclination === null) return null
  if (azimuth === null && inclination !== 0 && inclination !== 180) return null
  return { depth, inclination, azimuth: azimuth ?? 0 }
}

/** The direction that stands beside the collar itself. */
function collarDirection(table: PlaceTable, row: PlaceRow) {
  const survey = surveyOf(row, 0)
  return survey === null ? [] : [{ file: table.file, line: row.line, name: row.hole ?? '', survey }]
}

/** A collar in degrees is brought to its UTM zone, whose north azimuths then refer to. */
function projected(spot: Spot): Spot {
  if (spot.crs.kind !== 'geographic') return spot
  const there = spot.crs.toGeographic(spot.x, spot.y)
  const zone = there && utmZone(there[0], there[1])
  const crs: WorkingCrs | null = zone && openCrs(`EPSG:${utmEpsg(zone)}`)
  const plane = there && crs && crs.fromGeographic(there[0], there[1])
  return crs && plane ? { ...spot, crs, x: plane[0], y: plane[1] } : spot
}
