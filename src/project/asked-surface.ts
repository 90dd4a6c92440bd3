/** What a surface is computed from, or in words why it cannot be. */
import type { DriftInput } from '../jobs/drift-raster'
import type { Boundaries } from '../surfaces/boundaries'
import type { Points, SurfaceRule } from '../surfaces/model'
import { suggestBlockSide } from '../surfaces/testing'
import { boundariesOf, driftOf } from './boundaries'
import { outcomePoints, outcomeRule } from './likeliest'
import { keyOf } from './surface-key'
import { surfacePoints, type SurfaceInput } from './surface-points'

type Found<T> = Exclude<T, { readonly failure: string }>

/** A rule with the stations that it is computed from. */
export interface Asked {
  readonly rule: SurfaceRule
  readonly points: Points
  readonly boundaries: Boundaries | null
  readonly drift: DriftInput | null
  /** Side of the blocks that are left out in testing; null for the suggested one. */
  readonly blockSide: number | null
  readonly key: string
}

export interface AskedValue extends Asked {
  readonly kind: 'value'
  readonly found: Found<ReturnType<typeof surfacePoints>>
  /** The stations' names, by their numbers. */
  readonly names: readonly string[]
  /** Of the working CRS, such as `m`. */
  readonly lengthUnit: string
}

export interface AskedClasses {
  readonly kind: 'classes'
  readonly rule: SurfaceRule
  readonly found: Found<ReturnType<typeof outcomePoints>>
  /** One an outcome; null where no station is of it. */
  readonly parts: readonly (Asked | null)[]
}

/** What a rule is computed from, or in words why it cannot be. */
export function askFor(
  rule: SurfaceRule,
  input: SurfaceInput,
): AskedValue | AskedClasses | { readonly failure: string } {
  try {
    const boundaries = boundariesOf(rule, input.ground, input.placement.crs)
    if (rule.method === 'likeliest-class') {
      const found = outcomePoints(rule, input)
      if ('failure' in found) return { failure: found.failure }
      const { names, indicators, points } = found
      const parts = indicators.map((value, code) => {
        if (!value.some((part) => part > 0)) return null
        const one = outcomeRule(rule, names[code])
        // All in the same blocks, so that a station has the chances of one test.
        const own = { blockSide: points.x.length > 1 ? suggestBlockSide(points, null) : null }
        return askedFor(one, { ...points, value, error: undefined }, boundaries, own)
      })
      return { kind: 'classes', rule, found, parts }
    }
    const found = surfacePoints(rule, input)
    if ('failure' in found) return { failure: found.failure }
    const drift = driftOf(rule, input.ground, input.placement.crs)
    const asked = askedFor(rule, found.points, boundaries, { drift })
    const names = input.placement.stations.map(({ name }) => name)
    const lengthUnit = input.placement.crs.unit
    return { ...asked, kind: 'value', found, names, lengthUnit }
  } catch (error) {
    return { failure: messageOf(error) }
  }
}

function askedFor(
  rule: SurfaceRule,
  points: Points,
  boundaries: Boundaries | null,
  own: Partial<Pick<Asked, 'drift' | 'blockSide'>>,
): Asked {
  const { drift = null, blockSide = null } = own
  const key = keyOf(rule, points, boundaries, drift, blockSide)
  return { rule, points, boundaries, drift, blockSide, key }
}

/** What an error says. */
export function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}
