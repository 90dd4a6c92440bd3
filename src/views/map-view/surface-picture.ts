/** What is shown of a surface, and what its colours mean. */
import type { Scale } from '../../colour/paint'
import { contourLevels, type Spread } from '../../jobs/finish-surface'
import type { PictureInput } from '../../jobs/surface-picture'
import type { SurfaceResult } from '../../project/results'
import { everyNode, everyValue, stepFor } from '../../surfaces/coarse'
import { givesChance, type SurfaceBands } from '../../surfaces/model'

/** How colours are spread over values. */
export type Stretching = 'even' | 'histogram' | 'bands'

export interface SurfaceScale extends Scale {
  /** Of the stretch; empty for a chance. */
  readonly unit: string
}

/** Most pixels along the longer side of a surface's picture. */
const MOST_PIXELS = 1600
/** While it is still being computed, and drawn again and again. */
const MOST_PIXELS_SO_FAR = 800

/** A surface's bands, or what is known of them while it is computed. */
export function shownBands({ bands, partial }: SurfaceResult): SurfaceBands | null {
  return bands ?? partial?.bands ?? null
}

/** Whether anything of a surface can be shown. */
export function isShowable(surface: SurfaceResult): boolean {
  return shownBands(surface) !== null
}

/** The scale of a surface, see {@link scaleOf}; null for classes, which have colours of their own. */
export function surfaceScale(
  surface: SurfaceResult,
  uncertainty: boolean,
  stretching: Stretching,
): SurfaceScale | null {
  const { spread, partial, rule, unit, likeliest } = surface
  if (likeliest) return uncertainty ? { ...DOUBT, unit: '' } : null
  const scale = scaleOf(
    spread ?? partial?.spread,
    givesChance(rule.method),
    uncertainty,
    stretching,
    rule.contour_interval,
  )
  return scale && { ...scale, unit }
}

/** Of how nearly another class is as likely. */
const DOUBT: Scale = { ramp: 'oslo', stretch: [0, 1], percentiles: null }

/**
 * A scale: chances from 0 to 1, everything else between the 2nd and 98th percentile; or by the
 * histogram of the nodes, or in bands between the contours. Null where there is no value.
 *
 * @param interval between contours; absent for the usual ones
 */
export function scaleOf(
  spread: Spread | null | undefined,
  chance: boolean,
  uncertainty: boolean,
  stretching: Stretching,
  interval?: number,
): Scale | null {
  const percentiles = (uncertainty ? spread?.error : spread?.estimate) ?? null
  if (!percentiles) return null
  const [from, to] = chance && !uncertainty ? [0, 1] : [percentiles[2], percentiles[98]]
  return {
    ramp: uncertainty ? 'oslo' : chance ? 'cividis' : 'batlow',
    stretch: [from, to],
    percentiles: stretching === 'histogram' ? percentiles : null,
    ...(stretching === 'bands'
      ? { levels: levelsOf(percentiles, uncertainty ? undefined : interval) }
      : {}),
  }
}

/** Those of the contours, so that a band ends where a line is drawn. */
function levelsOf(percentiles: Float64Array, interval?: number): readonly number[] {
  const [low, high] = [percentiles[0], percentiles[percentiles.length - 1]]
  return contourLevels(low, high, interval) ?? []
}

/** What is shown of a surface, and how; what does not change keeps its identity. */
export interface Subject {
  readonly bands: SurfaceBands | null
  readonly likeliest: SurfaceResult['likeliest']
  /** By class number; for classes alone. */
  readonly colours: readonly string[]
  readonly spread: Spread | null
  readonly chance: boolean
  /** Between its contours; absent for the usual ones. */
  readonly interval?: number
  /** Whether it is still being computed. */
  readonly soFar: boolean
}

/**
 * What a worker needs for a surface's picture; null where there is nothing to show. Of a surface
 * with far more nodes than the picture has pixels only some nodes are sent.
 */
export function pictureInput(
  { bands, likeliest, colours, spread, chance, interval, soFar }: Subject,
  uncertainty: boolean,
  stretching: Stretching,
  frame: { readonly crs: string; readonly centre: readonly [x: number, y: number] },
): PictureInput | null {
  if (!bands) return null
  const { grid } = bands
  const maxSize = soFar ? MOST_PIXELS_SO_FAR : MOST_PIXELS
  const step = stepFor(grid, 1.5 * maxSize)
  const thin = (values: Float64Array) => (step > 1 ? everyValue(grid, values, step) : values)
  const common = { grid: step > 1 ? everyNode(grid, step) : grid, ...frame, maxSize }
  if (likeliest && !uncertainty) {
    const classes = { doubt: thin(likeliest.doubt), colours }
    return { ...common, values: thin(bands.estimate), root: false, scale: null, classes }
  }
  const band = !uncertainty ? bands.estimate : (likeliest?.doubt ?? bands.variance)
  const scale = likeliest ? DOUBT : scaleOf(spread, chance, uncertainty, stretching, interval)
  if (!band || !scale) return null
  return { ...common, values: thin(band), root: uncertainty && !likeliest, scale, classes: null }
}
