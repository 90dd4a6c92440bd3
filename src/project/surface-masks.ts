/** Surfaces that are drawn only where another one allows it. */
import type { SurfaceBands, SurfaceRule } from '../surfaces/model'
import { applyMask } from '../surfaces/reach'
import type { SurfaceResult } from './results'

/** What a surface was drawn under: to see whether it would be drawn the same again. */
export interface Cover {
  readonly mask: SurfaceRule['mask']
  /** The mask's own bands; null without a mask. */
  readonly bands: SurfaceBands | null
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
export function coverOf({ mask }: SurfaceRule, others: readonly SurfaceResult[]): Cover {
  const bands = others.find(({ rule }) => rule.name === mask?.surface)?.bands ?? null
  return { mask, bands }
}

/** Whether two covers leave the same free. */
export function sameCover(a: Cover, b: Cover): boolean {
  const same = a.mask?.surface === b.mask?.surface && a.bands === b.bands
  return same && a.mask?.at_least === b.mask?.at_least && a.mask?.at_most === b.mask?.at_most
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
  if (other.likeliest) {
    throw new Error(
      `Its mask, the surface ‘${mask.surface}’, holds classes and no values; mask by a class-probability of one of them.`,
    )
  }
  return applyMask(bands, other.bands, mask)
}
