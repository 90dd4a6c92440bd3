/** What a reader is given and what it gives back. */
import type { Correction } from './correction'

/** A file as it was handed over: its path with forward slashes, and its bytes. */
export interface InputFile {
  readonly path: string
  readonly bytes: Uint8Array
}

/** Something wrong with an input, in words a geologist can act on. A row of `problems.csv`. */
export interface Problem {
  readonly file: string
  /** 1-based line, or null where the whole file is meant. */
  readonly line: number | null
  /** What is wrong. */
  readonly problem: string
  /** What was done about it, and what the reader of this can do. */
  readonly done: string
}

/** One scan out of a file, before it has a place or a verdict. */
export interface ReadScan {
  /** The name in the file, else the file's own name without its ending; unique only with `file`. */
  readonly name: string
  readonly file: string
  /** nm, strictly ascending; one array shared by all scans of a file on the same axis. */
  readonly wavelengths: Float64Array
  /** Fractions; gaps are NaN. */
  readonly reflectance: Float32Array
  /** Header lines and extra columns, keys and values as written (trimmed, NFC). */
  readonly metadata: Readonly<Record<string, string>>
  /** Full width at half maximum of each channel in nm, where a companion file gives it. */
  readonly bandwidths?: Float64Array
}

/** How the numbers were understood; shown to the user and correctable. */
export interface Layout {
  readonly name: string
  readonly wavelengthUnit: 'nm' | 'µm' | 'cm⁻¹'
  readonly reflectanceUnit: 'fraction' | 'percent' | 'per 10000'
  readonly decimal: '.' | ','
  /** What stands between cells; absent where nothing does. */
  readonly delimiter?: 'comma' | 'semicolon' | 'tab' | 'blanks'
  readonly encoding?: Encoding
  /** The column taken for reflectance where there were several; its heading, or `column n`. */
  readonly column?: string
  /** Why units were so decided, a sentence each. */
  readonly reasons?: readonly string[]
}

/** How characters stand as bytes. */
export const ENCODINGS = ['UTF-8', 'UTF-16', 'Windows-1252'] as const
export type Encoding = (typeof ENCODINGS)[number]

/** What files of one instrument and export have in common, and what can be chosen in them. */
export interface Look {
  /** The same text for files alike, as found before any correction; see `look.ts`. */
  readonly like: string
  /** Columns that could be taken for reflectance: headings, or `column n`; none without a choice. */
  readonly columns: readonly string[]
}

/** What a file turned out to be. `raster`, `geojson` and `photo` are for others to read. */
export type FileKind =
  'scans' | 'table' | 'track' | 'raster' | 'geojson' | 'photo' | 'companion' | 'unknown'

/** A file of the public library layout that serves other files: one value a channel. */
export interface Companion {
  readonly file: string
  /** Its title line; empty where there is none. */
  readonly title: string
  /** nm, in the order of the channels. */
  readonly values: Float64Array
}

/** Wavelengths and channel widths that stand in files of their own. Plain data, structured-cloneable. */
export interface Companions {
  readonly axes: readonly Companion[]
  readonly bandwidths: readonly Companion[]
  /** Set before other files have been looked at: a record that wants one then says so. */
  readonly isPartial?: true
}

/** A table of text cells with one header row. */
export interface Table {
  readonly file: string
  readonly header: readonly string[]
  readonly rows: readonly (readonly string[])[]
  /** The 1-based line that each row began on. */
  readonly lines: readonly number[]
  /** Whether commas stand between its cells: one inside a cell then groups thousands. */
  readonly commaSeparated?: boolean
}

/** A GPS track: fixes in order of time. */
export interface Track {
  readonly file: string
  readonly name: string
  /** Seconds since 1970-01-01T00:00:00Z, ascending. */
  readonly times: Float64Array
  /** Degrees, WGS 84. */
  readonly longitudes: Float64Array
  readonly latitudes: Float64Array
  /** Metres above the geoid or ellipsoid as the receiver wrote it; NaN where absent. */
  readonly elevations: Float64Array
}

/** All that one file held. */
export interface ReadResult {
  readonly kind?: FileKind
  readonly scans: readonly ReadScan[]
  readonly tables: readonly Table[]
  readonly tracks: readonly Track[]
  readonly layout: Layout | null
  /** Absent where the file is no text with an axis. */
  readonly look?: Look
  /** What a person said of files alike, and was followed. */
  readonly correction?: Correction
  readonly problems: readonly Problem[]
  /** Set where wavelengths were wanted from other files before those had been looked at. */
  readonly wantsCompanions?: true
}
