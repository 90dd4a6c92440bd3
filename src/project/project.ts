/** A project: what was brought in, and what the geologist made of it. */
import type { ReferenceSet } from '../minerals/reference'
import type { Correction } from '../readers/correction'
import type { InputFile, Layout, Look, Problem, Table, Track } from '../readers/input'
import type { KnownFields } from '../readers/recognise'
import { NO_SCANS, type ScanStore } from '../spectra/scan-store'
import { NO_DECISIONS, type Decisions } from './decisions'
import type { MapLayer } from './map-order'
import { EMPTY_RECIPE, type Recipe } from './recipe'

/** What a scan's file says of it; its spectrum stands in the scan store under the same number. */
export interface ScanHead {
  readonly name: string
  readonly file: string
  readonly metadata: Readonly<Record<string, string>>
  readonly known: KnownFields
  /** Fields that people added, by name; absent where nobody set a field of this scan. */
  readonly own?: Readonly<Record<string, string>>
}

export type SourceKind = 'scans' | 'table' | 'track' | 'raster' | 'geojson' | 'photo' | 'unknown'

/** A file that was brought in. */
export interface SourceFile {
  readonly path: string
  readonly kind: SourceKind
  readonly size: number
  readonly sha256: string
  /** How its numbers were understood; null where it holds no scans. */
  readonly layout: Layout | null
  /** What it has in common with files alike; absent where it is no text with an axis. */
  readonly look?: Look
  /** The recipe's correction that it was read by. */
  readonly correction?: Correction
  /** Its scans are `firstScan … firstScan + scanCount - 1` of the store. */
  readonly firstScan: number
  readonly scanCount: number
  readonly problems: readonly Problem[]
}

/**
 * Everything that was read. It only grows: taking a file out hides it, so that scan numbers
 * stay true and the way back is cheap.
 */
export interface Holdings {
  readonly files: readonly SourceFile[]
  readonly heads: readonly ScanHead[]
  readonly scans: ScanStore
  readonly tables: readonly Table[]
  readonly tracks: readonly Track[]
  /** Ground layers as their files: elevation models, outlines, tracks. */
  readonly ground: readonly InputFile[]
}

export interface Project {
  readonly name: string
  /** What the sample area says of itself; null for the user's own project. */
  readonly statement: string | null
  readonly recipe: Recipe
  readonly decisions: Decisions
  /** Reference sets of the user's own. */
  readonly sets: readonly ReferenceSet[]
  /** Whether the set that comes with the program is used beside them. */
  readonly builtIn: boolean
  /** Paths of files that were taken out. */
  readonly hidden: readonly string[]
  /** How layers lie on the map, the uppermost first; empty for the order that they come in. */
  readonly layerOrder: readonly MapLayer[]
}

export const NO_HOLDINGS: Holdings = {
  files: [],
  heads: [],
  scans: NO_SCANS,
  tables: [],
  tracks: [],
  ground: [],
}

/** A project with nothing in it. */
export function emptyProject(name: string, recipe: Recipe = EMPTY_RECIPE): Project {
  return {
    name,
    statement: null,
    recipe,
    decisions: NO_DECISIONS,
    sets: [],
    builtIn: true,
    hidden: [],
    layerOrder: [],
  }
}
