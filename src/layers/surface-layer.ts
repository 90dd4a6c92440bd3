/** A surface as it leaves: its raster, and what the report says of it. */
import type { WorkingCrs } from '../places/crs'
import type { Contour } from '../surfaces/contours'
import type { SurfaceBands, SurfaceRule, Testing, Variogram } from '../surfaces/model'
import { geotiff, type GeotiffBand } from './geotiff'

export interface SurfaceLayer {
  readonly rule: SurfaceRule
  /** Of the estimate; empty for a pure number or a probability. */
  readonly unit: string
  /** Null where it could not be computed. */
  readonly bands: SurfaceBands | null
  /** Why it could not be computed, in words; null otherwise. */
  readonly failure: string | null
  readonly variogram: Variogram | null
  /** Each station left out in turn. */
  readonly testing: Testing | null
  /** Whole blocks of stations left out; null or absent where they lie in one block. */
  readonly blocked?: Testing | null
  /** Number of stations that carried a value. */
  readonly stations: number
  /** How far from data it is drawn, working units; null for no limit. */
  readonly reach: number | null
  readonly contours: readonly Contour[]
  /** The plain sentence on how far it can be believed. */
  readonly sentence: string
}

/** What a surface is of: its index, class or group. */
export function subjectOf({ name, value, class: className, group }: SurfaceRule): string {
  return value ?? className ?? group ?? name
}

/**
 * The bytes of `NAME.tif`: band 1 the estimate, and where the method has them band 2 its kriging
 * variance and band 3 its standard error.
 *
 * @throws RangeError as `geotiff` does.
 */
export function surfaceGeotiff(
  { rule, unit }: SurfaceLayer,
  { grid, estimate, variance }: SurfaceBands,
  crs: WorkingCrs,
): Uint8Array {
  const bands: GeotiffBand[] = [
    {
      values: estimate,
      description: describe(rule),
      unit,
    },
  ]
  if (variance !== null) {
    bands.push(
      { values: variance, description: 'kriging variance', unit: squared(unit) },
      { values: standardError(variance), description: 'standard error', unit },
    )
  }
  return geotiff({ title: rule.name, grid, crs, bands })
}

function describe(rule: SurfaceRule): string {
  const subject = subjectOf(rule)
  if (rule.method === 'class-probability') return `probability of ${subject}`
  return rule.method === 'chance-above' ? `chance of ${subject} above ${rule.above}` : subject
}

/** A variance that rounding left below zero is none. */
function standardError(variance: Float64Array): Float32Array {
  const error = new Float32Array(variance.length)
  for (let i = 0; i < variance.length; i++) error[i] = Math.sqrt(Math.max(0, variance[i]))
  return error
}

/** `nm` → `nm²`; a compound unit is bracketed. */
function squared(unit: string): string {
  if (unit === '') return ''
  return /^[\p{L}%°]+$/u.test(unit) ? `${unit}²` : `(${unit})²`
}
