/** Reads the look's tokens for what is drawn outside CSS: the map and its stations. */
import type { InkColours } from '../../map/line-layers'
import type { StationLook } from '../../map/station-layer'
import type { WalkLook } from '../../map/walk-layer'
import type { Look } from '../looks'

type Rgb = readonly [number, number, number]

/** A token's text, such as `#f5f0e6`. */
export function token(name: string): string {
  return getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim()
}

/** `#rrggbb` as three bytes; also `#rgb`, which is what the build makes of it where it can. */
export function rgb(hex: string): Rgb {
  const digits = hex.slice(1)
  const six = digits.length === 3 ? digits.replaceAll(/./g, '$&$&') : digits
  const value = Number.parseInt(six, 16)
  return [(value >> 16) & 255, (value >> 8) & 255, value & 255]
}

/**
 * How stations look.
 *
 * @param _look the page's look: named so that what is drawn by it is drawn anew with it
 */
export function stationLook(_look: Look): StationLook {
  return {
    radius: Number.parseFloat(token('station-radius')),
    halo: Number.parseFloat(token('station-halo')),
    paper: rgb(token('sheet')),
    accent: rgb(token('ochre')),
  }
}

/** How lines and words on the map look; see {@link stationLook} for the parameter. */
export function inkColours(_look: Look): InkColours {
  return {
    ink: token('ink'),
    soft: token('ink-soft'),
    paper: token('sheet'),
    text: 0.92 * Number.parseFloat(token('text-small')),
  }
}

/** How a walk looks; see {@link stationLook} for the parameter. */
export function walkLook(look: Look): WalkLook {
  return {
    ...inkColours(look),
    accent: token('ochre'),
    onAccent: token('on-ochre'),
    width: Number.parseFloat(token('walk-width')),
  }
}
