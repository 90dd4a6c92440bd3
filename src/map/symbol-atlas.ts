/**
 * The classes' symbols as distances to their outlines, one square each, for the station shader.
 * The outlines are those of the legend, so that map and legend cannot differ.
 */
import { SYMBOLS } from '../classes/rule'
import { symbolPath } from '../classes/symbols'

/** Texels along the side of one symbol. */
export const SYMBOL_TEXELS = 64
/** Half the side of a symbol's square, in radii. */
export const SYMBOL_REACH = 2
/** Distances are kept from -1 to 1 radii in a byte. */
export const DISTANCE_SPAN = 1

/** One row of symbols in the order of SYMBOLS: byte 255 is one radius outside, 0 one inside. */
export function symbolAtlas(): { width: number; height: number; bytes: Uint8Array } {
  const width = SYMBOLS.length * SYMBOL_TEXELS
  const bytes = new Uint8Array(width * SYMBOL_TEXELS)
  SYMBOLS.forEach((shape, index) => {
    const outline = symbolPath(shape, 1)
    for (let row = 0; row < SYMBOL_TEXELS; row++) {
      const y = ((row + 0.5) / SYMBOL_TEXELS - 0.5) * 2 * SYMBOL_REACH
      for (let column = 0; column < SYMBOL_TEXELS; column++) {
        const x = ((column + 0.5) / SYMBOL_TEXELS - 0.5) * 2 * SYMBOL_REACH
        const distance = signedDistance(outline, x, y)
        const held = Math.min(1, Math.max(-1, distance / DISTANCE_SPAN))
        bytes[row * width + index * SYMBOL_TEXELS + column] = Math.round(127.5 + 127.5 * held)
      }
    }
  })
  return { width, height: SYMBOL_TEXELS, bytes }
}

/** Distance to a polygon's edge, negative inside (even–odd rule). */
function signedDistance(polygon: Float64Array, x: number, y: number): number {
  let least = Infinity
  let inside = false
  const last = polygon.length - 2
  for (let i = 0, j = last; i < polygon.length; j = i, i += 2) {
    const [ax, ay, bx, by] = [polygon[j], polygon[j + 1], polygon[i], polygon[i + 1]]
    const [dx, dy] = [bx - ax, by - ay]
    const t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)))
    least = Math.min(least, Math.hypot(x - ax - t * dx, y - ay - t * dy))
    if (ay > y !== by > y && x < ax + ((y - ay) / dy) * dx) inside = !inside
  }
  return inside ? -least : least
}
