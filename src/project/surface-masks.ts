/** Surfaces that are drawn only where another one allows it. */
import type { Mask, SurfaceBands, SurfaceRule } from '../surfaces/model'
import { applyMask } from '../surfaces/reach'
import type { LikeliestResult } from './likeliest'
import type { SurfaceResult } from './results'

/** What a surface was drawn under: to see whether it would be drawn the same again. */
export interface Cover {
  readonly mask: SurfaceRule['mask']
  /** The mask's own bands; null without a mask. */
  readonly bands: SurfaceBands | null
  /** Between its contours; undefined for the usual ones. */
  readonly interval: number | undefined
}

/** Numbers of the rules, each after the one that masks it; a circle is left in its own order. */
export function maskOrder(rules: readonly SurfaceRule[]): number[] {
  const order: number[] = []
  const open = new Set<number>()
  const visit = (index: number) => {
    if (index < 0 || open.has(index)) return
    open.add(index)
    const mask = rules[index].mask
    if (mask) visit(rules.findIndex(({ name }) => name === mask.surface))
    order.push(index)
  }
  rules.forEach((_, index) => visit(index))
  return order
}

/** What covers a surface among those that are known. */
export function coverOf(
  { mask, contour_interval: interval }: SurfaceRule,
  others: readonly SurfaceResult[],
): Cover {
  const bands = others.find(({ rule }) => rule.name === mask?.surface)?.bands ?? null
  return { mask, bands, interval }
}

/** Whether two covers leave the same free, under the same contours. */
export function sameCover(a: Cover, b: Cover): boolean {
  if (a.interval !== b.interval) return false
  return a.bands === b.bands && JSON.stringify(a.mask) === JSON.stringify(b.mask)
}

/**
 * Bands blanked by the rule's mask.
 *
 * @throws Error in words where the mask cannot serve
 */
export function masked(
  bands: SurfaceBands,
  { mask }: SurfaceRule,
  others: readonly SurfaceResult[],
): SurfaceBands {
  if (!mask) return bands
  const other = others.find(({ rule }) => rule.name === mask.surface)
  if (!other) throw new Error(`Its mask, the surface ‘${mask.surface}’, does not exist.`)
  if (!other.bands) {
    throw new Error(`Its mask, the surface ‘${mask.surface}’, could not be computed.`)
  }
  const byClass = mask.classes !== undefined || mask.doubt_at_most !== undefined
  if (!other.likeliest) {
    if (!byClass) return applyMask(bands, other.bands, mask)
    throw new Error(
      `Its mask, the surface ‘${mask.surface}’, holds values and no classes; limit it by at_least or at_most.`,
    )
  }
  if (!byClass) {
    throw new Error(
      `Its mask, the surface ‘${mask.surface}’, holds classes and no values; say which classes it is drawn within.`,
    )
  }
  const wanted = wantedNodes(other.bands, other.likeliest, mask)
  return applyMask(bands, { grid: other.bands.grid, estimate: wanted, variance: null }, WANTED)
}

const WANTED = { at_least: 1 }

/** 1 where the likeliest class is one of a mask's and sure enough, else 0. */
function wantedNodes(
  { estimate }: SurfaceBands,
  { classes, doubt }: LikeliestResult,
  mask: Mask,
): Float64Array {
  const codes = mask.classes?.map((name) => {
    const found = classes.find((each) => each.name === name)
    if (found) return found.code
    throw new Error(
      `Its mask, the surface ‘${mask.surface}’, tells no class ‘${name}’; see whether its name is right.`,
    )
  })
  const most = mask.doubt_at_most ?? 1
  return estimate.map((code, node) =>
    (!codes || codes.includes(code)) && doubt[node] <= most ? 1 : 0,
  )
}
