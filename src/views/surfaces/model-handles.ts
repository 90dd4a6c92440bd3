/** What is dragged of a variogram model on its plot: nugget, total sill, range. */
import type { Variogram } from '../../surfaces/model'
import { gammaAt, totalSill } from '../../surfaces/variogram-models'

export const HANDLES = ['nugget', 'sill', 'range'] as const
export type Handle = (typeof HANDLES)[number]

/** The ends of the plot's axes: no handle goes past them. */
export interface Limits {
  /** Of the distances, working units. */
  readonly far: number
  /** Of the semivariances. */
  readonly high: number
}

/** A handle's own number: the nugget, the total sill, or the range of the last structure. */
export function handleValue(variogram: Variogram, handle: Handle): number {
  if (handle === 'nugget') return variogram.nugget
  if (handle === 'sill') return totalSill(variogram)
  return variogram.structures.at(-1)?.range ?? 0
}

/** Least and greatest that a handle's number can be made. */
export function handleLimits(
  variogram: Variogram,
  handle: Handle,
  { far, high }: Limits,
): readonly [least: number, most: number] {
  if (handle === 'range') return [far / 100, far]
  const last = variogram.structures.at(-1)?.sill ?? 0
  const total = totalSill(variogram)
  if (handle === 'sill') return [Math.max(total - last, high / 100), high]
  return [0, variogram.nugget + last]
}

/**
 * A model with a handle moved. The nugget is raised at the cost of the last structure, so that the
 * total sill stays; the sill moves the last structure's alone. Four digits are kept.
 */
export function moved(
  variogram: Variogram,
  handle: Handle,
  value: number,
  limits: Limits,
): Variogram {
  const last = variogram.structures.at(-1)
  if (!last) return variogram
  const [least, most] = handleLimits(variogram, handle, limits)
  const to = Number(Math.min(most, Math.max(least, value)).toPrecision(4))
  const others = variogram.structures.slice(0, -1)
  const total = totalSill(variogram)
  const rest = total - last.sill - variogram.nugget
  const withLast = (sill: number, nugget: number): Variogram => ({
    ...variogram,
    nugget,
    structures: [...others, { ...last, sill: Number(Math.max(0, sill).toPrecision(6)) }],
  })
  if (handle === 'range') return { ...variogram, structures: [...others, { ...last, range: to }] }
  if (handle === 'nugget') return withLast(total - rest - to, to)
  return withLast(to - rest - variogram.nugget, variogram.nugget)
}

/** γ along a direction: the major one of an anisotropic model, or the minor one across it. */
export function gammaAlong(variogram: Variogram, distance: number, across = false): number {
  const azimuth = (((variogram.azimuth ?? 0) + (across ? 90 : 0)) * Math.PI) / 180
  return gammaAt(variogram, distance * Math.sin(azimuth), distance * Math.cos(azimuth))
}

/** Whether a model has a direction. */
export function isAnisotropic({ ratio }: Variogram): boolean {
  return ratio !== undefined && ratio < 1
}
