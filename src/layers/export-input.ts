/** What an export takes, and what it plans. */
import type { ClassRule } from '../classes/rule'
import type { WorkingCrs } from '../places/crs'
import type { Problem } from '../readers/input'
import type { PhotoRow } from './photos-geojson'
import type { ReportFacts, WrittenFile } from './report'
import type { IndexColumn, MineralRow, ScanRow, StationRow } from './rows'
import type { StructureRow } from './structures-geojson'
import type { SurfaceLayer } from './surface-layer'
import type { TraverseLayer } from './traverse-layer'

/** All that the layers are made of. */
export interface LayersInput {
  readonly crs: WorkingCrs
  readonly indices: readonly IndexColumn[]
  readonly scans: readonly ScanRow[]
  readonly minerals: readonly MineralRow[]
  readonly stations: readonly StationRow[]
  /** Columns that people added, after all others; none where nobody did. */
  readonly written?: { readonly scans: readonly string[]; readonly stations: readonly string[] }
  /** Their names differ from one another. */
  readonly surfaces: readonly SurfaceLayer[]
  readonly problems: readonly Problem[]
  /** Photos of the stations; absent or empty for none. */
  readonly photos?: readonly PhotoRow[]
  /** Reference sets of the project's own, and the text of their files; absent or empty for none. */
  readonly sets?: readonly { readonly name: string; readonly text: () => string }[]
  /** Structural measurements; absent or empty for none. */
  readonly structures?: readonly StructureRow[]
  /** The walk that is planned next; absent where the recipe asks for none. */
  readonly traverse?: TraverseLayer
  readonly facts: ReportFacts
  /** What the styles draw by; no styles and no GPX without it. */
  readonly legend?: LayersLegend
}

interface LayersLegend {
  readonly classes: readonly ClassRule[]
}

/** A file that can be written: its bytes are made when asked for. */
export interface PlannedFile extends WrittenFile {
  readonly write: () => Uint8Array
}
