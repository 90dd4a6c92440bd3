/**
 * Symbols of planes and lines as geologists draw them (common practice): a strike line with a tick
 * down the dip, an arrow down the plunge. The same outlines serve map and legend. They reach past a
 * station's own symbol, which lies over their middle.
 */

import type { Structure } from '../project/structures'

export const STRUCTURE_SYMBOLS = [
  'inclined',
  'foliation',
  'vertical',
  'horizontal',
  'plunging',
  'upright',
  'level',
] as const
export type StructureSymbol = (typeof STRUCTURE_SYMBOLS)[number]

/** Half the side of a symbol's square, in the units of its outline: CSS px in the desk look. */
export const SYMBOL_HALF = 32
/** How far from the middle a plane's tick and a line's arrow end. */
export const TICK = 18
export const ARROW = 28
const STRIKE = 24

/**
 * A symbol's outline as an SVG path, y down: lines to be stroked, and closed parts to be filled too.
 * It is drawn for a plane that strikes north and dips east, a line that plunges to the north.
 */
export const SYMBOL_PATHS: Readonly<Record<StructureSymbol, string>> = {
  inclined: `M0 ${-STRIKE}V${STRIKE}M0 0H${TICK}`,
  foliation: `M0 ${-STRIKE}V${STRIKE}M0 0H${TICK}M${TICK - 9} -6L${TICK} 0L${TICK - 9} 6Z`,
  vertical: `M0 ${-STRIKE}V${STRIKE}M${-TICK} 0H${TICK}`,
  horizontal: circle(11) + `M0 ${-TICK}V${TICK}M${-TICK} 0H${TICK}`,
  plunging: `M0 0V${-ARROW}` + head(-1),
  upright: circle(11) + circle(16),
  level: `M0 ${ARROW}V${-ARROW}` + head(-1) + head(1),
}

/** Symbols whose closed parts are filled. */
export const FILLED_SYMBOLS: ReadonlySet<StructureSymbol> = new Set([
  'foliation',
  'plunging',
  'level',
])

function circle(radius: number): string {
  const arc = `A${radius} ${radius} 0 0 1`
  return `M${-radius} 0${arc}${radius} 0${arc}${-radius} 0`
}

/** An arrow's head at the upper (−1) or lower (1) end. */
function head(side: 1 | -1): string {
  const [tip, base] = [side * ARROW, side * (ARROW - 10)]
  return `M0 ${tip}L-5.5 ${base}L5.5 ${base}Z`
}

/** Angles within this of level or upright are drawn as such, degrees. */
const SLACK = 2.5
/** What is foliated has its own symbol. */
const FOLIATED = /foliation|cleavage|schistosity|gneissosity/i

/** The symbol of a measurement; null for oriented core, which has no strike on the ground. */
export function structureSymbolOf(structure: Structure): StructureSymbol | null {
  if (structure.form === 'core') return null
  return structure.form === 'plane'
    ? planeSymbol(structure.what, structure.dip)
    : lineSymbol(structure.plunge)
}

/** The symbol of a plane by its dip. */
function planeSymbol(what: string, dip: number): StructureSymbol {
  if (dip < SLACK) return 'horizontal'
  if (dip > 90 - SLACK) return 'vertical'
  return FOLIATED.test(what) ? 'foliation' : 'inclined'
}

/** The symbol of a line by its plunge. */
function lineSymbol(plunge: number): StructureSymbol {
  if (plunge < SLACK) return 'level'
  return plunge > 90 - SLACK ? 'upright' : 'plunging'
}
