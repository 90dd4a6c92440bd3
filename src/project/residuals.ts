/** Where a surface misses its own stations. */
import type { SurfacePlan } from '../surfaces/compute'

/** Observed minus predicted at a spot, in the value's unit. */
export interface StationResidual {
  /** Numbers of the stations on the spot. */
  readonly stations: readonly number[]
  readonly value: number
  /** With the spot's own block left out; null where there are no blocks. */
  readonly blocked: number | null
  /** With the spot alone left out. */
  readonly single: number
}

/**
 * The residuals of a plan's stations, the farthest off first: by the blocked one where there is one.
 *
 * @param x and
 * @param y places of the stations that the plan was made from
 * @param stations the numbers of each place's stations
 */
export function residualsOf(
  plan: Pick<SurfacePlan, 'points' | 'residual' | 'blockedResidual'>,
  { x, y }: { readonly x: Float64Array; readonly y: Float64Array },
  stations: readonly (readonly number[])[],
): StationResidual[] {
  const { points, residual, blockedResidual } = plan
  if (!residual) return []
  const onSpot = new Map<string, number[]>()
  stations.forEach((numbers, i) => {
    const spot = `${x[i]} ${y[i]}`
    onSpot.set(spot, [...(onSpot.get(spot) ?? []), ...numbers])
  })
  const list = Array.from(residual, (single, i) => ({
    stations: onSpot.get(`${points.x[i]} ${points.y[i]}`) ?? [],
    value: points.value[i],
    blocked: blockedResidual?.[i] ?? null,
    single,
  }))
  const size = ({ blocked, single }: StationResidual) => Math.abs(blocked ?? single)
  const told = list.filter((entry) => Number.isFinite(size(entry)))
  return told.sort((a, b) => size(b) - size(a))
}
