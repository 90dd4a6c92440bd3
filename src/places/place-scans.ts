/** Placing: scans, tables, holes and tracks to stations in one coordinate system. */
import type { Problem, Table, Track } from '../readers/input'
import { atOnce, mapPiecewise, type Piecework } from '../spectra/piecework'
import { clockProblems, clockReadings, type ClockReading, type ClockWitness } from './clocks'
import { chooseCrs, openCrs, type WorkingCrs } from './crs'
import { withSuggestions, type CrsQuestion } from './crs-question'
import { HoleBook } from './drilling'
import {
  findPlace,
  placeOfRow,
  type Found,
  type HandPlace,
  type NotFound,
  type Sources,
} from './find-place'
import { readHeader, type Header, type ScanHead } from './header'
import { gather, type SpareRow } from './gather'
import type { GroupingReport } from './grouped'
import { groupingOf, type GroupingChoice } from './grouping'
import { folderOf, ruleFor } from './rules'
import { SampleRows } from './sample-rows'
import type { PlacedScan, PlaceRule, Station } from './station'
import {
  apartTables,
  disagreements,
  farStations,
  shiftProblems,
  unplacedProblems,
} from './suspicions'
import { tableReadings, type TableReading } from './table-readings'
import { readPlaceTable, type PlaceTable } from './tables'

export type { HandPlace } from './find-place'

export interface PlaceInput {
  readonly scans: readonly ScanHead[]
  readonly tables: readonly Table[]
  readonly tracks: readonly Track[]
  readonly rules: readonly PlaceRule[]
  /** The recipe's `crs`: `auto`, `EPSG:n` or `local:m|km|ft`. */
  readonly crs: string
  /** The recipe's limits of grouping scans into stations. */
  readonly grouping?: GroupingChoice
  /** What a person decided; stands over all else. */
  readonly hand?: readonly HandPlace[]
}

/** Where everything stands. */
export interface Placement {
  readonly crs: WorkingCrs
  /** In natural order of their names. */
  readonly stations: readonly Station[]
  /** One for each scan, in the scans' order. */
  readonly scans: readonly PlacedScan[]
  readonly problems: readonly Problem[]
  /** Tables that cannot be used until someone states their coordinate system. */
  readonly questions: readonly CrsQuestion[]
  /** What each table was taken for, in the tables' order. */
  readonly tables: readonly TableReading[]
  /** Whether the scans' clock fits each file of tracks, where that can be told. */
  readonly clocks: readonly ClockReading[]
  /** What joined the stations' scans, and which groups are unsure. */
  readonly grouping: GroupingReport
}

/**
 * Places scans and gathers them into stations.
 *
 * Codes other than WGS 84 / UTM need `loadEpsgTable` to have finished. Nothing is guessed: a
 * projected table without a coordinate system comes back as a question and the rest is placed.
 *
 * @throws Error where the working CRS cannot be opened
 */
export function placeScans(input: PlaceInput): Placement {
  return atOnce(placePiecewise(input))
}

/** The same in pieces. */
export function* placePiecewise(input: PlaceInput): Piecework<Placement> {
  const setting = input.crs.trim()
  const tables = input.tables.map((table) => readTable(table, input.rules, setting))
  const rows = new SampleRows(tables)
  const holes = new HoleBook(tables)
  const waiting = new Set(tables.flatMap(({ question }) => (question ? [question.file] : [])))
  const sources: Sources = { rows, holes, tracks: input.tracks, rules: input.rules, waiting }
  const hands = new Map((input.hand ?? []).map((hand) => [hand.scan, hand]))
  const rulesByFile = new Map<string, PlaceRule | null>()
  const headers = yield* mapPiecewise(input.scans, (scan) => {
    let rule = rulesByFile.get(scan.file)
    if (rule === undefined) rulesByFile.set(scan.file, (rule = ruleFor(scan.file, input.rules)))
    return readHeader(scan, rule)
  })
  const found = yield* mapPiecewise(input.scans, (scan, i) =>
    findPlace(scan, headers[i], hands.get(i) ?? null, sources),
  )
  const spare = spareRows(rows, holes, found)
  const known = geographicOf([...found, ...spare.map(({ found }) => found)])
  const crs = workingCrs(setting, known, [...found, ...spare.map(({ found }) => found)])
  yield
  const grouping = groupingOf(input.grouping)
  const placed = gather({ scans: input.scans, headers, found, hands, spare, crs, grouping })
  yield
  const clocks = yield* clockReadings(input.tracks, clockWitnesses(headers, found), input.rules)
  const questions = [
    ...tables.flatMap(({ question }) => (question ? [question] : [])),
    ...headerQuestions(input.scans, headers, found),
  ].map((question) => withSuggestions(question, known, setting))
  const read = tableReadings({ ...input, read: tables, headers, found, spare })
  const problems = [
    ...read.problems,
    ...tables.flatMap((table) => table.problems),
    ...rows.problems,
    ...holes.problems,
    ...questions.map(questionProblem),
    ...clockProblems(clocks),
    ...disagreements(input.scans, headers, found),
    ...shiftProblems(found),
    ...apartTables(spare, crs),
    ...farStations(placed.made, crs),
    ...unplacedProblems(input.scans, placed.scans),
  ]
  return {
    crs,
    stations: placed.made.map(({ station }) => station),
    scans: placed.scans,
    problems,
    questions,
    tables: read.tables,
    clocks,
    grouping: placed.grouping,
  }
}

/** Scans with a time whose place on the ground is not from a track. */
function clockWitnesses(
  headers: readonly Header[],
  found: readonly (Found | NotFound)[],
): ClockWitness[] {
  return found.flatMap((place, i): ClockWitness[] => {
    const { times } = headers[i]
    if ('unplaced' in place || times.length === 0) return []
    if (place.placedBy === 'track' || place.placedBy === 'hole') return []
    const there = place.spot.crs.toGeographic(place.spot.x, place.spot.y)
    return there === null ? [] : [{ times, longitude: there[0], latitude: there[1] }]
  })
}

/** A table under its rule; on a grid tied to nothing, coordinates without a system are on that grid. */
function readTable(table: Table, rules: readonly PlaceRule[], setting: string): PlaceTable {
  const rule = ruleFor(table.file, rules)
  const read = readPlaceTable(table, rule)
  if (read.question === null || !/^local:/i.test(setting)) return read
  return readPlaceTable(table, { file: table.file, ...rule, crs: setting })
}

/** Rows with a place that no scan has taken up. */
function spareRows(
  rows: SampleRows,
  holes: HoleBook,
  found: readonly (Found | NotFound)[],
): SpareRow[] {
  const used = new Set<number>()
  const usedNames = new Set<string>()
  for (const place of found) {
    if ('unplaced' in place) continue
    for (const at of place.rows) {
      used.add(at.number)
      usedNames.add(at.row.name)
    }
  }
  const spare: SpareRow[] = []
  const byName = new Map<string, SpareRow>()
  for (const at of rows.all) {
    if (used.has(at.number) || (at.row.name !== '' && usedNames.has(at.row.name))) continue
    const place = placeOfRow(at, holes)
    const first = at.row.name === '' ? undefined : byName.get(at.row.name)
    if (place === null || 'refused' in place || first) continue
    const same = at.row.name === '' ? [at] : (rows.find(at.row.name)?.rows ?? [at])
    const entry = {
      at,
      found: { ...place, rows: same.includes(at) ? same : [at], sample: at.row.name || null },
    }
    if (at.row.name !== '') byName.set(at.row.name, entry)
    spare.push(entry)
  }
  return spare
}

/** Longitudes and latitudes of all places that have one. */
function geographicOf(found: readonly (Found | NotFound)[]): [lon: number, lat: number][] {
  return found.flatMap((place) => {
    if ('unplaced' in place) return []
    const there = place.spot.crs.toGeographic(place.spot.x, place.spot.y)
    return there ? [there] : []
  })
}

/** The working CRS; with `auto` and nothing but local coordinates, their own grid. */
function workingCrs(
  setting: string,
  known: readonly (readonly [number, number])[],
  found: readonly (Found | NotFound)[],
): WorkingCrs {
  if (setting.toLowerCase() === 'auto' && known.length === 0) {
    const local = found.find((place): place is Found => !('unplaced' in place))
    return local ? local.spot.crs : openCrs('local:m')
  }
  return openCrs(chooseCrs(setting, known))
}

/** One question for each folder of scans whose headers have projected coordinates and no system. */
function headerQuestions(
  scans: readonly ScanHead[],
  headers: readonly Header[],
  found: readonly (Found | NotFound)[],
): CrsQuestion[] {
  const byFolder = new Map<string, (readonly [string, string])[]>()
  scans.forEach((scan, i) => {
    const pair = headers[i].unstated
    if (pair === null || !('unplaced' in found[i])) return
    const folder = folderOf(scan.file) || scan.file
    const list = byFolder.get(folder) ?? []
    if (list.length < 3) list.push(pair)
    byFolder.set(folder, list)
  })
  return [...byFolder].map(([file, sample]) => ({
    file,
    columns: ['easting', 'northing'],
    sample,
    suggestions: [],
  }))
}

function questionProblem({ file, columns }: CrsQuestion): Problem {
  return {
    file,
    line: null,
    problem: `nothing says which coordinate system ${columns[0]} and ${columns[1]} stand in`,
    done: 'its coordinates were not used; state its crs in the recipe’s places, such as EPSG:32719',
  }
}
