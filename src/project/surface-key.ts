/** What a surface is remembered by: everything that went into it. */
import type { DriftInput } from '../jobs/drift-raster'
import { sha256 } from '../layers/sha256'
import type { Boundaries } from '../surfaces/boundaries'
import type { Points, SurfaceRule } from '../surfaces/model'

const fileNumbers = new WeakMap<Uint8Array, number>()
let fileCount = 0

/** A number that stands for a file's bytes as they are held: a large raster is not digested anew. */
function numberOf(bytes: Uint8Array): number {
  const known = fileNumbers.get(bytes) ?? ++fileCount
  fileNumbers.set(bytes, known)
  return known
}

/**
 * A key of all that a surface's numbers come from. Mask and contours are applied afterwards, so they
 * are no part of it.
 */
export function keyOf(
  rule: SurfaceRule,
  points: Points,
  boundaries: Boundaries | null,
  drift: DriftInput | null,
  blockSide: number | null = null,
): string {
  const { x, y, value, error } = points
  const rings = boundaries?.within?.flat() ?? []
  const arrays = [x, y, value, error, boundaries?.barriers, ...rings]
  const digest = arrays
    .map((array) => (array ? sha256(new Uint8Array(array.buffer)) : ''))
    .join(' ')
  return JSON.stringify([
    {
      ...rule,
      mask: undefined,
      doubt_at_most: undefined,
      contour_interval: undefined,
      support: undefined,
      composite: undefined,
    },
    digest,
    drift && [drift.crs, numberOf(drift.file.bytes)],
    blockSide,
  ])
}
