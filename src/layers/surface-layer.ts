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
  /** Of a surface of the likeliest class, whose estimate holds class numbers; absent for others. */
  readonly likeliest?: LikeliestLayer
  /** Number of stations that carried a value. */
  readonly stations: number
  /** How far from data it is drawn, working units; null for no limit. */
  readonly reach: number | null
  readonly contours: readonly Contour[]
  /** The plain sentence on how far it can be believed. */
  readonly sentence: string
}

/** A class of a surface of the likeliest class. */
export interface LayerClass {
  /** Its number in band 1; 0 is "none of these". */
  readonly code: number
  readonly name: string
  /** Stations that are rather of it than of any other. */
  readonly stations: number
  /** Nodes at which it is the likeliest. */
  readonly nodes: number
}

/** Part of the stations left out at which the likeliest class is theirs, and the commonest is. */
interface LikeliestFigures {
  /** The same among stations whose doubt is within a limit; null without one. */
  readonly sure: { readonly count: number; readonly right: number } | null
  readonly right: number
  readonly commonest: number
}

/** What a surface of the likeliest class has besides its codes; an entry a node in the arrays. */
export interface LikeliestLayer {
  readonly classes: readonly LayerClass[]
  readonly probability: Float64Array
  readonly doubt: Float64Array
  readonly single: LikeliestFigures | null
  readonly blocked: LikeliestFigures | null
}

/** What a surface is of: its index, class or group. */
export function subjectOf(rule: SurfaceRule): string {
  const { name, value, class: className, group } = rule
  if (rule.method === 'likeliest-class') return rule.groups ? 'likeliest group' : 'likeliest class'
  return value ?? className ?? group ?? name
}

/**
 * The bytes of `NAME.tif`: band 1 the estimate, and where the method has them band 2 its kriging
 * variance and band 3 its standard error; for the likeliest class its number, its probability and
 * its doubt, with the classes' names among the metadata.
 *
 * @throws RangeError as `geotiff` does.
 */
export function surfaceGeotiff(
  { rule, unit, likeliest }: SurfaceLayer,
  { grid, estimate, variance }: SurfaceBands,
  crs: WorkingCrs,
): Uint8Array {
  if (likeliest) {
    const bands = [
      { values: estimate, description: 'number of the likeliest class', unit: '', codes: true },
      { values: likeliest.probability, description: 'probability of that class', unit: '' },
      { values: likeliest.doubt, description: 'doubt: 1 minus its lead over the second', unit: '' },
    ]
    const notes = likeliest.classes.map(({ code, name }) => [`CLASS_${code}`, name] as const)
    return geotiff({ title: rule.name, grid, crs, bands, notes })
  }
  const bands: GeotiffBand[] = [
    {
      values: estimate,
      description: describe(rule),
      unit,
    },
  ]
  if (variance !== null) {
    bands.push(
      {
        values: variance,
        description: rule.transform ? 'variance, brought back' : 'kriging variance',
        unit: squared(unit),
      },
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
