/**
 * `report.json`: what was read, placed, doubted and left out and why, and how each surface was
 * made. Members stand in a fixed order and nothing in it tells the time, so the same input gives
 * the same bytes.
 */
import type { WorkingCrs } from '../places/crs'
import { NOTHING_DIAGNOSTIC } from '../minerals/reference'
import { onceEach } from './columns'
import type { ReportedGrouping } from './report-grouping'
import type { IndexColumn, ScanRow, StationRow } from './rows'
import { sha256 } from './sha256'
import { reportedSurface } from './report-surfaces'
import { reportedTraverse } from './report-traverse'
import type { SurfaceLayer } from './surface-layer'
import type { TraverseLayer } from './traverse-layer'

/** A file that was handed over. */
export interface ReportedInput {
  readonly file: string
  /** Such as `scans`, `table`, `track`, `recipe`. */
  readonly kind: string
  /** Size. */
  readonly bytes: number
  readonly sha256: string
  /** Scans read from it. */
  readonly scans: number
}

/** How files alike were read; `like` is what a correction in a recipe names them by. */
export interface ReportedLayout {
  readonly like: string
  readonly files: number
  readonly scans: number
  /** Each once. */
  readonly wavelength_units: readonly string[]
  readonly reflectance_units: readonly string[]
  /** Whether the recipe says how to read them. */
  readonly corrected: boolean
}

/** How well the walk repeats itself, in each index's unit. */
export interface ReportedRevisits {
  /** Stations with scans of two visits. */
  readonly stations: number
  readonly same_class: number
  readonly indices: readonly {
    readonly index: string
    readonly unit: string
    readonly stations: number
    /** Standard deviation of one visit, and its standard error. */
    readonly deviation: number
    readonly deviation_error: number
    /** Two visits differ by more in one of twenty cases. */
    readonly limit: number
    /** Standard error that the visits' own scans state. */
    readonly stated: number | null
  }[]
}

/** A reference set that scans were identified against. */
export interface ReportedSet {
  readonly set: string
  readonly source: string
  readonly references: number
  /** How many of them are switched off. */
  readonly off: number
  /** Of the set's file. */
  readonly sha256: string
}

/** A scan without a place. */
interface UnplacedScan {
  readonly scan: string
  readonly file: string
  readonly why: string
}

/** What the rows do not tell. */
export interface ReportFacts {
  /** The program and what it stands on, name and version. */
  readonly versions: readonly (readonly [name: string, version: string])[]
  readonly inputs: readonly ReportedInput[]
  /** How the numbers of files alike were read. */
  readonly layouts?: readonly ReportedLayout[]
  readonly tables: number
  readonly tracks: number
  /** Absent where nothing was identified. */
  readonly references?: readonly ReportedSet[]
  readonly unplaced: readonly UnplacedScan[]
  /** Absent where nothing was placed. */
  readonly grouped?: ReportedGrouping
  /** Absent where no station was visited again. */
  readonly revisited?: ReportedRevisits
  /** The recipe that the layers were made by, as JSON. */
  readonly recipe: unknown
  /** Anything else to be said, such as a datum shift that is missing. */
  readonly notes: readonly string[]
}

/** The file that something went into. */
export interface WrittenFile {
  readonly file: string
  readonly holds:
    | 'table'
    | 'points'
    | 'surface'
    | 'contours'
    | 'areas'
    | 'style'
    | 'waypoints'
    | 'references'
    | 'report'
  /** The surface's name, or what the table is of. */
  readonly name: string
}

export interface ReportInput {
  readonly crs: WorkingCrs
  readonly indices: readonly IndexColumn[]
  readonly scans: readonly ScanRow[]
  readonly stations: readonly StationRow[]
  readonly surfaces: readonly SurfaceLayer[]
  readonly problems: readonly unknown[]
  /** Absent where no walk was asked for. */
  readonly traverse?: TraverseLayer
  readonly facts: ReportFacts
  readonly files: readonly WrittenFile[]
}

/** What a report says of an input file. */
export function describeInput(
  file: string,
  kind: string,
  bytes: Uint8Array,
  scans: number,
): ReportedInput {
  return { file, kind, bytes: bytes.length, sha256: sha256(bytes), scans }
}

/** The file's bytes: JSON, two blanks deep. */
export function reportJson(input: ReportInput): Uint8Array {
  const { facts, scans, stations, surfaces, files } = input
  const report = {
    report: 1,
    versions: facts.versions.map(([name, version]) => ({ name, version })),
    inputs: facts.inputs,
    layouts: facts.layouts,
    crs: reportedCrs(input.crs),
    notes: facts.notes,
    read: {
      files: facts.inputs.length,
      scans: scans.length,
      tables: facts.tables,
      tracks: facts.tracks,
      stations: stations.length,
      problems: input.problems.length,
    },
    placed: placed(scans),
    grouped: facts.grouped,
    checked: checked(scans),
    identified: { ...identified(scans), against: facts.references },
    left_out: leftOut(scans, facts.unplaced),
    classes: tally(stations.map((row) => row.class ?? '')).map(([name, count]) => ({
      class: name,
      stations: count,
    })),
    indices: input.indices.map((index, at) => reportedIndex(index, at, scans, stations)),
    revisited: facts.revisited,
    surfaces: surfaces.map((surface) => reportedSurface(surface, input.crs, files)),
    traverse: input.traverse && reportedTraverse(input.traverse, input.crs, files),
    units: units(input.crs),
    files,
    recipe: facts.recipe,
  }
  return new TextEncoder().encode(JSON.stringify(report, null, 2) + '\n')
}

function reportedCrs(crs: WorkingCrs): object {
  const { code, name, kind, unit, datumShift } = crs
  const local = kind === 'local'
  return {
    code,
    name,
    kind,
    unit,
    datum_shift: datumShift,
    geojson: !local,
    note: local
      ? 'The grid is tied to nothing: there is no longitude, latitude or GeoJSON, and the rasters carry no CRS.'
      : '',
  }
}

function placed(scans: readonly ScanRow[]): object {
  const places = scans.filter((row) => row.station !== null)
  return {
    scans: places.length,
    unplaced: scans.length - places.length,
    by: tally(places.map((row) => row.placedBy ?? '')).map(([placed_by, count]) => ({
      placed_by,
      scans: count,
    })),
  }
}

function checked(scans: readonly ScanRow[]): object {
  const count = (check: ScanRow['check']): number => scans.filter((r) => r.check === check).length
  return {
    sound: count('sound'),
    doubtful: count('doubtful'),
    set_aside: count('set aside'),
    reasons: tally(scans.flatMap((row) => onceEach(row.checkReasons))).map(
      ([reason, scansWith]) => ({ reason, scans: scansWith }),
    ),
    cannot_tell: tally(scans.flatMap((row) => onceEach(row.cannotTell ?? []))).map(
      ([what, scansWith]) => ({ what, scans: scansWith }),
    ),
    doubted: scans
      .filter((row) => row.check === 'doubtful')
      .map(({ scan, file, checkReasons }) => ({ scan, file, why: onceEach(checkReasons) })),
  }
}

function identified(scans: readonly ScanRow[]): object {
  const named = scans.filter((row) => row.mineral !== null)
  return {
    scans: named.length,
    nothing_diagnostic: named.filter((row) => row.mineral === NOTHING_DIAGNOSTIC).length,
    not_identified: scans.length - named.length,
    with_doubt: named.filter((row) => row.doubt !== '').length,
  }
}

/** Scans that no station counts, and why. */
function leftOut(scans: readonly ScanRow[], unplaced: readonly UnplacedScan[]): object {
  return {
    set_aside: scans
      .filter((row) => row.check === 'set aside')
      .map(({ scan, file, checkReasons }) => ({ scan, file, why: onceEach(checkReasons) })),
    unplaced,
  }
}

function reportedIndex(
  { name, unit, formula, where }: IndexColumn,
  at: number,
  scans: readonly ScanRow[],
  stations: readonly StationRow[],
): object {
  const measured = (rows: readonly (ScanRow | StationRow)[]): number =>
    rows.filter((row) => row.indices[at].value !== null).length
  const reasons = scans
    .map((row) => row.indices[at])
    .filter((index) => index.value === null)
    .map((index) => index.missing ?? 'unknown')
  return {
    name,
    unit,
    formula,
    where,
    scans_measured: measured(scans),
    stations_measured: measured(stations),
    scans_missing: tally(reasons).map(([why, count]) => ({ why, scans: count })),
  }
}

/** Units of the tables' fixed columns. */
function units(crs: WorkingCrs): object {
  return {
    depth: 'm',
    longitude: 'degree, WGS 84',
    latitude: 'degree, WGS 84',
    easting: crs.unit,
    northing: crs.unit,
    elevation: 'm',
    place_error: `${crs.unit}, one standard error`,
    noise: 'fraction of reflectance, one standard deviation at 2200 nm',
    share: 'fraction of absorption, 0 to 1; not a weight fraction',
    fit: '0 to 1',
  }
}

/** How often each word occurs, the most frequent first, then by code unit. */
function tally(words: readonly string[]): [word: string, count: number][] {
  const counts = new Map<string, number>()
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1)
  return [...counts].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))
}
