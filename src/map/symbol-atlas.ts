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

/** Shapes in the atlas: the classes' symbols in their order, and what stands for no class. */
export const RING = SYMBOLS.length
export const SLASHED_RING = RING + 1
export const SHAPES = RING + 2

/** The distance to a shape's edge at a place, radii, negative inside; y points down. */
type DistanceAt = (x: number, y: number) => number

/** One row of shapes: byte 255 is one radius outside, 0 one inside. */
export function symbolAtlas(): { width: number; height: number; bytes: Uint8Array } {
  const width = SHAPES * SYMBOL_TEXELS
  const bytes = new Uint8Array(width * SYMBOL_TEXELS)
  const ofSymbols = SYMBOLS.map((shape): DistanceAt => {
    const outline = symbolPath(shape, 1)
    return (x, y) => signedDistance(outline, x, y)
  })
  const shapes = [...ofSymbols, ringDistance, slashedRingDistance]
  shapes.forEach((distanceAt, index) => {
    for (let row = 0; row < SYMBOL_TEXELS; row++) {
      const y = ((row + 0.5) / SYMBOL_TEXELS - 0.5) * 2 * SYMBOL_REACH
      for (let column = 0; column < SYMBOL_TEXELS; column++) {
        const x = ((column + 0.5) / SYMBOL_TEXELS - 0.5) * 2 * SYMBOL_REACH
        const held = Math.min(1, Math.max(-1, distanceAt(x, y) / DISTANCE_SPAN))
        bytes[row * width + index * SYMBOL_TEXELS + column] = Math.round(127.5 + 127.5 * held)
      }
    }
  })
  return { width, height: SYMBOL_TEXELS, bytes }
}

/** How far each shape of the atlas reaches to a side or up and down, radii. */
export const EXTENTS: readonly number[] = [
  ...SYMBOLS.map((shape) => Math.max(...symbolPath(shape, 1).map(Math.abs))),
  0.8,
  0.8,
]

function ringDistance(x: number, y: number): number {
  return Math.abs(Math.hypot(x, y) - 0.62) - 0.18
}

/** A ring, and a bar across it. */
function slashedRingDistance(x: number, y: number): number {
  const along = Math.abs(x - y) * Math.SQRT1_2 - 0.62
  const across = Math.abs(x + y) * Math.SQRT1_2 - 0.13
  const outside = Math.hypot(Math.max(along, 0), Math.max(across, 0))
  const bar = outside + Math.min(Math.max(along, across), 0)
  return Math.min(ringDistance(x, y), bar)
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
