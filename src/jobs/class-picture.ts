/** A surface of the likeliest class as coloured pixels that fade with doubt. */
import { parseColour } from '../colour/rgb'
import type { WarpedSurface } from '../surfaces/mercator'

/** What is left of a colour where another class is as likely, 0 to 1. */
const LEAST_OPACITY = 0.15

/** Opacity of a class's colour, 0 to 1, by its doubt. */
export function opacityOf(doubt: number): number {
  return 1 - (1 - LEAST_OPACITY) * Math.min(1, Math.max(0, doubt))
}

/**
 * Class numbers and their doubt, on the same pixels, as RGBA; NaN is clear.
 *
 * @param colours `#rrggbb` by number, from 0 up
 */
export function paintClasses(
  codes: WarpedSurface,
  doubt: WarpedSurface,
  colours: readonly string[],
): Uint8ClampedArray<ArrayBuffer> {
  const channels = colours.map(parseColour)
  const pixels = new Uint8ClampedArray(4 * codes.values.length)
  codes.values.forEach((code, i) => {
    if (Number.isNaN(code)) return
    pixels.set(channels[code], 4 * i)
    pixels[4 * i + 3] = Math.round(255 * opacityOf(doubt.values[i]))
  })
  return pixels
}
