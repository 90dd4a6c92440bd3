/** Placing: scans, tables, holes and tracks to stations in one coordinate system. */
import type { Problem, Table, Track } from '../readers/input'
import { chooseCrs, openCrs, type WorkingCrs } from './crs'
import { lengthOf, withSuggestions, type CrsQuestion } from './crs-question'
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
import { baseName, folderOf, ruleFor } from './rules'
import { SampleRows, type RowAt } from './sample-rows'
import type { PlacedScan, PlaceRule, Position, Station, Support } from './station'
import { StationBuilder, toWorking, type MadeStation } from './stations'
import { farStations } from './suspicions'
import { readPlaceTable, type PlaceTable } from './tables'
import { distance } from './tracks'

export type { CrsQuestion } from './crs-question'
export type { HandPlace } from './find-place'

export interface PlaceInput {
  readonly scans: readonly ScanHead[]
  readonly tables: readonly Table[]
  readonly tracks: readonly Track[]
  readonly rules: readonly PlaceRule[]
  /** The recipe's `crs`: `auto`, `EPSG:n` or `local:m|km|ft`. */
  readonly crs: string
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
}

/** A header and a table that disagree by more than this are told, metres. */
const DISAGREE = 200

/**
 * Places scans and gathers them into stations.
 *
 * Codes other than WGS 84 / UTM need `loadEpsgTable` to have finished. Nothing is guessed: a
 * projected table without a coordinate system comes back as a question and the rest is placed.
 *
 * @throws Error where the working CRS cannot be opened
 */
export function placeScans(input: PlaceInput): Placement {
  const setting = input.crs.trim()
  const tables = input.tables.map((table) => readTable(table, input.rules, setting))
  const rows = new SampleRows(tables)
  const holes = new HoleBook(tables)
  const waiting = new Set(tables.flatMap(({ question }) => (question ? [question.file] : [])))
  const sources: Sources = { rows, holes, tracks: input.tracks, rules: input.rules, waiting }
  const hands = new Map((input.hand ?? []).map((hand) => [hand.scan, hand]))
  const rulesByFile = new Map<string, PlaceRule | null>()
  const headers = input.scans.map((scan) => {
    let rule = rulesByFile.get(scan.file)
    if (rule === undefined) rulesByFile.set(scan.file, (rule = ruleFor(scan.file, input.rules)))
    return readHeader(scan, rule)
  })
  const found = input.scans.map((scan, i) =>
    findPlace(scan, headers[i], hands.get(i) ?? null, sources),
  )
  const spare = spareRows(rows, holes, found)
  const known = geographicOf([...found, ...spare.map(({ found }) => found)])
  const crs = workingCrs(setting, known, [...found, ...spare.map(({ found }) => found)])
  const placed = gather(input, headers, found, hands, spare, crs)
  const questions = [
    ...tables.flatMap(({ question }) => (question ? [question] : [])),
    ...headerQuestions(input.scans, headers, found),
  ].map((question) => withSuggestions(question, known, setting))
  const problems = [
    ...tables.flatMap((table) => table.problems),
    ...rows.problems,
    ...holes.problems,
    ...questions.map(questionProblem),
    ...disagreements(input.scans, headers, found),
    ...shiftProblems(found),
    ...farStations(placed.made, crs),
    ...unplacedProblems(input.scans, placed.scans),
  ]
  return {
    crs,
    stations: placed.made.map(({ station }) => station),
    scans: placed.scans,
    problems,
    questions,
  }
}

/** A table under its rule; on a grid tied to nothing, coordinates without a system are on that grid. */
function readTable(table: Table, rules: readonly PlaceRule[], setting: string): PlaceTable {
  const rule = ruleFor(table.file, rules)
  const read = readPlaceTable(table, rule)
  if (read.question === null || !/^local:/i.test(setting)) return read
  return readPlaceTable(table, { file: table.file, ...rule, crs: setting })
}

/** A row's place. */
interface SpareRow {
  readonly at: RowAt
  readonly found: Found
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
    const entry = { at, found: { ...place, rows: same.includes(at) ? same : [at] } }
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

function gather(
  input: PlaceInput,
  headers: readonly Header[],
  found: readonly (Found | NotFound)[],
  hands: ReadonlyMap<number, HandPlace>,
  spare: readonly SpareRow[],
  crs: WorkingCrs,
): { made: readonly MadeStation[]; scans: readonly PlacedScan[] } {
  const builder = new StationBuilder(crs)
  const reasons = input.scans.map((scan, i) => {
    const place = found[i]
    if ('unplaced' in place) return place.unplaced
    const position = toWorking(place.spot, crs)
    if (position === null) return apartWords(place, crs)
    const support = hands.get(i)?.support ?? supportOf(place, headers[i].support)
    builder.addScan(i, scan.name, place, position, support, { file: scan.file, line: null })
    return null
  })
  for (const { at, found: place } of spare) {
    const position: Position | null = toWorking(place.spot, crs)
    if (position === null) continue
    const source = { file: at.table.file, line: at.row.line }
    builder.addRow(place, position, supportOf(place, null), source)
  }
  const made = builder.finish()
  const stationOf = new Int32Array(input.scans.length).fill(-1)
  made.forEach(({ station }, index) => {
    for (const scan of station.scans) stationOf[scan] = index
  })
  const scans = input.scans.map((_, i): PlacedScan => {
    const place = found[i]
    const row = place.rows.find((at) => at.row.target !== null)
    const target = hands.get(i)?.target ?? headers[i].target ?? row?.row.target ?? 'matrix'
    if (stationOf[i] < 0) return { station: null, target, unplaced: reasons[i] ?? 'not placed' }
    const how = 'unplaced' in place ? undefined : place.how
    return { station: stationOf[i], target, unplaced: null, how }
  })
  return { made, scans }
}

function supportOf(place: Found, own: Support | null): Support {
  const told = own ?? place.rows.find((at) => at.row.support !== null)?.row.support
  return told ?? (place.hole === null ? 'outcrop' : 'core')
}

function apartWords(place: Found, crs: WorkingCrs): string {
  return `its place is in ${place.spot.crs.name} (${place.how}), which nothing ties to ${crs.name}: choose another working system or state where the grid lies`
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

/** Scans whose header and sample table put them far apart. */
function disagreements(
  scans: readonly ScanHead[],
  headers: readonly Header[],
  found: readonly (Found | NotFound)[],
): Problem[] {
  return scans.flatMap((scan, i): Problem[] => {
    const [own, place] = [headers[i].spot, found[i]]
    const at = place.rows.find(({ row }) => row.spot !== null)
    const told = at?.row.spot
    if (!own || !at || !told) return []
    const [here, there] = [
      own.crs.toGeographic(own.x, own.y),
      told.crs.toGeographic(told.x, told.y),
    ]
    if (!here || !there) return []
    const metres = distance(here[0], here[1], there[0], there[1])
    if (metres <= DISAGREE) return []
    const line = `line ${at.row.line} of ${baseName(at.table.file)}`
    return [
      {
        file: scan.file,
        line: null,
        problem: `the header of ‘${scan.name}’ and ${line} put it ${lengthOf(metres)} apart`,
        done: 'went by the header; correct the one that is wrong',
      },
    ]
  })
}

/** Systems whose tie to WGS 84 is not known here, once each. */
function shiftProblems(found: readonly (Found | NotFound)[]): Problem[] {
  const systems = new Map<string, Problem>()
  for (const place of found) {
    if ('unplaced' in place) continue
    const { crs } = place.spot
    if (crs.kind === 'local' || crs.datumShift !== 'missing' || systems.has(crs.code)) continue
    const at = place.rows[0]
    systems.set(crs.code, {
      file: at?.table.file ?? '',
      line: null,
      problem: `${crs.code} (${crs.name}) stands on a datum whose shift to WGS 84 is not known here`,
      done: 'taken as no shift: longitude, latitude and other systems’ places may be off by up to several hundred metres',
    })
  }
  return [...systems.values()]
}

/** Unplaced scans, told one by one while they are few, else counted by reason. */
function unplacedProblems(scans: readonly ScanHead[], placed: readonly PlacedScan[]): Problem[] {
  const lost = placed.flatMap(({ unplaced }, i) =>
    unplaced === null ? [] : [{ scan: scans[i], unplaced }],
  )
  const told = lost.slice(0, 50).map(({ scan, unplaced }) => ({
    file: scan.file,
    line: null,
    problem: `‘${scan.name}’ has no place: ${unplaced}`,
    done: 'kept without a place; it stands in scans.csv only',
  }))
  if (lost.length <= 50) return told
  const more = { problem: `${lost.length - 50} more scans have no place`, done: 'see scans.csv' }
  return [...told, { file: '', line: null, ...more }]
}
