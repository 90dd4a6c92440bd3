/** Stations: the spots that scans were taken on, and what is known of them. */

/** What kind of material a station is. */
export const SUPPORTS = ['outcrop', 'float', 'soil', 'chips', 'core'] as const
export type Support = (typeof SUPPORTS)[number]

/** What the probe touched. */
export const TARGETS = ['matrix', 'vein', 'selvage', 'coating', 'weathered', 'cut'] as const
export type Target = (typeof TARGETS)[number]

/** Where a position came from. */
export type PlacedBy = 'file' | 'track' | 'table' | 'hole' | 'hand'

/**
 * What joined a station's scans: a sample's name or a hole and its depth; time and distance; the
 * likeness of their names and distance; a person.
 */
export const GROUPED_BY = ['name', 'time', 'likeness', 'hand'] as const
export type GroupedBy = (typeof GROUPED_BY)[number]

/** A cell of a sample table: a number where it reads as one, else its text, null where empty. */
export type Cell = number | string | null

/** A position in the working CRS and, unless the grid is tied to nothing, on WGS 84. */
export interface Position {
  /** Working units. */
  readonly easting: number
  readonly northing: number
  /** Metres; null where unknown. */
  readonly elevation: number | null
  /** Degrees; null for a local grid. */
  readonly longitude: number | null
  readonly latitude: number | null
  /** One standard error of the position in working units; null where nothing tells. */
  readonly error: number | null
}

/** A spot that scans were taken on: a point on the ground, or a depth in a hole. */
export interface Station {
  readonly name: string
  readonly support: Support
  readonly position: Position
  readonly placedBy: PlacedBy
  /** The hole's name and the depths in metres along it; null on the ground. */
  readonly hole: string | null
  readonly from: number | null
  readonly to: number | null
  /** The sample table's other columns by their heading. */
  readonly columns: Readonly<Record<string, Cell>>
  /** Indices into the project's scans; empty for a table row that no scan names. */
  readonly scans: readonly number[]
  /** The file that it was first met in: a scan's, or the table's where no scan names its row. */
  readonly file?: string
  /** What joined its scans, the surest of several; absent where it has fewer than two. */
  readonly groupedBy?: GroupedBy
  /** That no sample's name tells it, only its scans' own names, their places and times. */
  readonly isUnnamed?: true
}

/** What placing says of one scan. */
export interface PlacedScan {
  /** Index into the stations, or null while unplaced. */
  readonly station: number | null
  readonly target: Target
  /** Why there is no place, in words; null when placed. */
  readonly unplaced: string | null
  /** How the place was found, in words: which row, hole or track, and what was done to the name. */
  readonly how?: string
}

/** How places are to be read: an entry of the recipe's `places`. */
export interface PlaceRule {
  readonly file: string
  /** `EPSG:n`, `auto`, or `local:m|km|ft`. */
  readonly crs?: string
  readonly x?: string
  readonly y?: string
  /** Of a column of whole positions: latitude and longitude, or a grid reference. */
  readonly position?: string
  readonly z?: string
  readonly name?: string
  /** Added to the scans' clock to reach the track's, seconds. */
  readonly clock_offset_s?: number
  /** Headings of the other columns, where they are not found by themselves. */
  readonly hole?: string
  readonly from?: string
  readonly to?: string
  readonly depth?: string
  readonly support?: string
  readonly target?: string
  readonly azimuth?: string
  readonly dip?: string
  /** The longest time between fixes that a track is interpolated over, seconds; 120 unless told. */
  readonly gap_s?: number
}
