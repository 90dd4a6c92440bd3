/** The rows that leave the program, as plain objects; the project fills them. */
import type { Check } from '../check/verdict'
import type { Measured } from '../indices/rule'
import type { Origin } from '../minerals/origin'
import type { MineralShare } from '../minerals/reference'
import type { PlacedBy, Support, Target } from '../places/station'
import type { WrittenRow } from './written-columns'

/** A column for an index: `Measured` values stand in the rows in the same order. */
export interface IndexColumn {
  readonly name: string
  /** Empty for a pure number. */
  readonly unit: string
  readonly formula: string
  /** The condition outside which it is missing; null where there is none. */
  readonly where: string | null
}

/** Where a row is. */
export interface PlaceCells {
  readonly support: Support | null
  readonly hole: string | null
  /** Metres along the hole; for a station that spans an interval, its middle. */
  readonly depth: number | null
  /** Degrees, WGS 84; null for a local grid and for an unplaced scan. */
  readonly longitude: number | null
  readonly latitude: number | null
  /** Working units; null while unplaced. */
  readonly easting: number | null
  readonly northing: number | null
  /** Metres. */
  readonly elevation: number | null
  readonly placedBy: PlacedBy | null
  /** One standard error of the position, working units. */
  readonly placeError: number | null
}

/** What was found in a row's scan, or in the sound scans of a station. */
export interface FoundCells {
  readonly check: Check | null
  /** Short stable names, such as `detector step`. */
  readonly checkReasons: readonly string[]
  /** One standard deviation of reflectance at 2200 nm, a fraction. */
  readonly noise: number | null
  /** The main mineral, `nothing diagnostic`, or null when not identified. */
  readonly mineral: string | null
  readonly group: string | null
  /** 0 to 1. */
  readonly share: number | null
  readonly fit: number | null
  /** A spoken doubt; empty where there is none. */
  readonly doubt: string
  readonly class: string | null
  /** In the order of the index columns. */
  readonly indices: readonly Measured[]
}

/** A row of `scans.csv`. */
export interface ScanRow extends PlaceCells, FoundCells, WrittenRow {
  readonly scan: string
  readonly file: string
  /** The station's name; null while unplaced. */
  readonly station: string | null
  readonly target: Target | null
  /** What the check could not tell, in words; absent where it told all. */
  readonly cannotTell?: readonly string[]
}

/** A row of `stations.csv` and a feature of `stations.geojson`. */
export interface StationRow extends PlaceCells, FoundCells, WrittenRow {
  readonly station: string
  /** How many scans stand behind the values. */
  readonly scans: number
  /** The files of its scans, or of the table row that names it. */
  readonly files: readonly string[]
  /** The targets of its scans. */
  readonly targets: readonly Target[]
}

/** Scans and their minerals: `minerals.csv` gets a row for each mineral. */
export interface MineralRow {
  readonly scan: string
  /** The largest share first; empty for `nothing diagnostic`; null when not identified. */
  readonly minerals: readonly MineralShare[] | null
  /** Where a person says that a mineral of this scan's station came from. */
  readonly originOf?: (mineral: string) => Origin
}
