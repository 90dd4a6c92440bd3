/** Colours along a ramp. */
import { RAMP_TABLES, type RampName } from './ramp-tables'
import type { Rgb } from './rgb'

const CONTROLS = 65

/** The ramp's table as three bytes a colour, read once. */
const parsed = new Map<RampName, Uint8Array>()

function controls(name: RampName): Uint8Array {
  let table = parsed.get(name)
  if (!table) {
    const digits = RAMP_TABLES[name].colours
    table = Uint8Array.from({ length: CONTROLS * 3 }, (_, i) =>
      parseInt(digits.slice(2 * i, 2 * i + 2), 16),
    )
    parsed.set(name, table)
  }
  return table
}

/**
 * The colour at a place along a ramp, on straight lines in sRGB between the table's colours.
 *
 * @param t 0 at the low end, 1 at the high end; held to that range, NaN gives the low end
 * @returns whole numbers 0 to 255
 */
export function rampColour(name: RampName, t: number): Rgb {
  const table = controls(name)
  const held = t > 0 ? Math.min(t, 1) : 0
  const place = held * (CONTROLS - 1)
  const low = Math.min(Math.floor(place), CONTROLS - 2)
  const part = place - low
  const channel = (c: number): number => {
    const from = table[3 * low + c]
    return Math.round(from + part * (table[3 * low + 3 + c] - from))
  }
  return [channel(0), channel(1), channel(2)]
}

/**
 * A ramp as a lookup table, for painting many cells.
 *
 * @param size number of colours, 2 or more
 * @returns `size` × 3 bytes: red, green, blue from the low end to the high end
 */
export function rampLookup(name: RampName, size = 256): Uint8Array {
  const lookup = new Uint8Array(size * 3)
  for (let i = 0; i < size; i++) lookup.set(rampColour(name, i / (size - 1)), 3 * i)
  return lookup
}
