/**
 * What is computed from a project.
 *
 * Scans here are the active ones (of files that are not hidden), numbered 0 … n-1 in the order
 * they were read; `scanNumbers` leads back to the store.
 */
import type { Verdict } from '../check/verdict'
import type { Spread } from '../jobs/finish-surface'
import type { IndexRule, Measured } from '../indices/rule'
import type { References } from '../jobs/references'
import type { Identification } from '../minerals/reference'
import type { Placement } from '../places/place-scans'
import type { Problem } from '../readers/input'
import type { Choice } from '../surfaces/chosen-neighbours'
import type { Contour } from '../surfaces/contours'
import type { Lag, Points, SurfaceBands, SurfaceRule, Testing, Variogram } from '../surfaces/model'
import type { Exploring } from './exploring'
import type { LikeliestResult } from './likeliest'
import type { Origins } from './origins'
import type { ScanHead } from './project'
import type { Written } from './station-cells'
import type { StepsShared } from './step-sharing'
import type { StationResidual } from './residuals'
import type { TraverseResult } from './traverse-plan'
import type { ScanVarieties } from './varieties'

/** A formula that could not be understood, with the place in its text. */
export interface FormulaTrouble {
  /** The index or class it belongs to. */
  readonly name: string
  readonly part: 'name' | 'formula' | 'where' | 'when' | 'colour' | 'symbol'
  readonly message: string
  /** Character offsets in the formula. */
  readonly from: number
  readonly to: number
}

/** An index over all scans and stations. */
export interface IndexColumn {
  readonly rule: IndexRule
  /** False where it is of table columns alone. */
  readonly needsScan: boolean
  readonly scans: readonly Measured[]
  readonly stations: readonly Measured[]
}

/**
 * A mean share over scans, 0 to 1, with its standard error by the scans' scatter; null from one scan,
 * which tells no scatter.
 */
export type MeanShare = readonly [name: string, share: number, error: number | null]

/** A station's mean shares over its sound scans. */
export interface StationMinerals {
  /** Group to mean share, the largest first; empty when nothing diagnostic or nothing identified. */
  readonly groups: readonly MeanShare[]
  readonly minerals: readonly MeanShare[]
  /** Number of sound scans of the recipe's targets. */
  readonly sound: number
}

/** A surface that is still being computed: few nodes, in part those of a coarse pass. */
export interface PartialSurface {
  /** On a coarser grid. */
  readonly bands: SurfaceBands
  /** Where it is coarse it has every so-manieth node of the surface. */
  readonly step: number
  /** Part of the nodes that have their final value, 0 to 1. */
  readonly part: number
  /** Of a simulated chance: from how many realisations of how many; absent before the first. */
  readonly realisations?: readonly [drawn: number, all: number]
  readonly spread: Spread
}

export type SurfaceState = 'waiting' | 'computing' | 'ready' | 'failed'

export interface SurfaceResult {
  readonly rule: SurfaceRule
  readonly unit: string
  readonly state: SurfaceState
  /** Why it failed, in words; null otherwise. */
  readonly failure: string | null
  readonly bands: SurfaceBands | null
  readonly variogram: Variogram | null
  /** What the variogram was fitted to; null where it was given. */
  readonly experimental: readonly Lag[] | null
  /** Each station left out in turn. */
  readonly testing: Testing | null
  /** Whole blocks of stations left out; null or absent where they lie in one block. */
  readonly blocked?: Testing | null
  /** How far each station is from what the others predict, the farthest first. */
  readonly residuals?: readonly StationResidual[]
  /** What it is computed from, stations on one spot made one; null or absent before the plan. */
  readonly points?: Points | null
  /** The settings that were used where the rule leaves them open; null before the plan is made. */
  readonly used: {
    readonly neighbours: number | null
    readonly power: number | null
    /** How stations are chosen where more than distance decides; null or absent where it does not. */
    readonly choice?: Choice | null
  } | null
  /** Of `likeliest-class`, whose band holds class numbers; absent for the others. */
  readonly likeliest?: LikeliestResult
  /** Number of stations that carried a value. */
  readonly stations: number
  /** How many of them count by the rule for cells below detection; absent or 0 for none. */
  readonly belowDetection?: number
  readonly reach: number | null
  readonly contours: readonly Contour[]
  /** How its values are spread; null or absent before it is ready. */
  readonly spread?: Spread | null
  /** What can be shown of it while it is computed; null or absent before and after. */
  readonly partial?: PartialSurface | null
  /** The plain sentence on how far the surface can be believed. */
  readonly sentence: string
}

export interface Results {
  /** False while scans are placed but not yet checked and identified: nothing else is known then. */
  readonly examined: boolean
  readonly scanNumbers: Int32Array
  readonly heads: readonly ScanHead[]
  readonly placement: Placement
  readonly verdicts: readonly Verdict[]
  /** null where a scan was not identified (set aside, or still to come). */
  readonly identifications: readonly (Identification | null)[]
  /** Varieties of the minerals in each scan; empty unless they were asked for. */
  readonly varieties: readonly ScanVarieties[]
  readonly indices: readonly IndexColumn[]
  readonly stationMinerals: readonly StationMinerals[]
  /** What people said of where each station's minerals came from. */
  readonly origins: readonly Origins[]
  /** Fields and records that people wrote of scans and stations. */
  readonly written: Written
  readonly scanClasses: readonly string[]
  readonly stationClasses: readonly string[]
  readonly troubles: readonly FormulaTrouble[]
  readonly surfaces: readonly SurfaceResult[]
  /** The planned walk; absent or null where the recipe asks for none. */
  readonly traverse?: TraverseResult | null
  readonly problems: readonly Problem[]
  /** What other scans said of the steps of those that are corrected; absent for nothing. */
  readonly stepsShared?: StepsShared
  /** What scans were identified against; absent before anything is examined. */
  readonly references?: References
  /** Spread, trend and proportions of stations, on demand; null while scans are not examined. */
  readonly exploring?: Exploring | null
}
