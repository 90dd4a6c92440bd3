/**
 * Contrast by the Web Content Accessibility Guidelines 2.2 (W3C Recommendation 2023):
 * relative luminance and contrast ratio as their definitions give them.
 */
import type { Rgb } from './rgb'

/** Least contrast of text (success criterion 1.4.3, level AA). */
export const TEXT_CONTRAST = 4.5

/** Relative luminance, 0 for black to 1 for white. */
export function relativeLuminance([red, green, blue]: Rgb): number {
  return 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue)
}

/** Contrast ratio of two colours, 1 to 21, whichever is the lighter. */
export function contrastRatio(a: Rgb, b: Rgb): number {
  const first = relativeLuminance(a)
  const second = relativeLuminance(b)
  return (Math.max(first, second) + 0.05) / (Math.min(first, second) + 0.05)
}

/** Black or white, whichever reads better on a background. */
export function readableOn(background: Rgb): Rgb {
  const white: Rgb = [255, 255, 255]
  const black: Rgb = [0, 0, 0]
  return contrastRatio(white, background) > contrastRatio(black, background) ? white : black
}

/** sRGB's transfer function undone; the guidelines' threshold since their 2021 correction. */
function linear(channel: number): number {
  const part = channel / 255
  return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4
}
