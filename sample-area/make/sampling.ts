/** What was sampled: stations on walked traverses and down holes, and the scans taken there. */
import type { Support, Target } from '../../src/places/station'
import type { Mixture } from './mixture'
import type { GroundPoint } from './place'

/** Where a scan was taken: a spot on the ground, or an interval of a hole. */
export interface Spot {
  readonly name: string
  readonly point: GroundPoint
  /** Metres above the sea. */
  readonly height: number
  readonly support: Support
  readonly target: Target
  /** The hole's name and the interval along it, metres; null on the ground. */
  readonly hole: string | null
  readonly from: number | null
  readonly to: number | null
  /** Metres below the ground; 0 on it. */
  readonly depth: number
  /** When the geologist came there, seconds since 1970 (UTC); null in the core shed. */
  readonly arrival: number | null
}

/** One thing put wrong on purpose. */
export type FaultName =
  | 'stale white reference'
  | 'detector step'
  | 'wet sample'
  | 'panel'
  | 'duplicate'
  | 'name without sample'
  | 'clock off'

export interface InjectedFault {
  readonly fault: FaultName
  /** What was done, with its size. */
  readonly detail: string
  /** The size: minutes since the white reference, relative step, water strength, seconds; else 1. */
  readonly size: number
}

/** One scan with the truth behind it. */
export interface MadeScan {
  readonly name: string
  /** Path below `sample-area/scans`. */
  readonly file: string
  readonly spot: Spot
  /** Seconds since 1970 by a right clock; null in the core shed. */
  readonly time: number | null
  /** When the white panel was last measured; null in the core shed. */
  readonly whiteTime: number | null
  readonly mixture: Mixture
  readonly faults: readonly InjectedFault[]
  /** Fractions of the panel, one a channel. */
  readonly reflectance: Float64Array
}

/** The channels of every scan: 350 to 2500 nm by 1. */
export const WAVELENGTHS = Float64Array.from({ length: 2151 }, (_, channel) => 350 + channel)

/** How far behind the scan clock ran on day A, seconds. */
export const CLOCK_BEHIND = 1380
