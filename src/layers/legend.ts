/** What the styles draw: a symbol a class, a ramp a surface. */
import { nextColour, UNCLASSIFIED_COLOUR } from '../colour/palettes'
import type { RampName } from '../colour/ramp-tables'
import { rampColour } from '../colour/ramps'
import { colourText } from '../colour/rgb'
import { percentileStretch } from '../colour/stretch'
import { givesChance, type SurfaceRule } from '../surfaces/model'
import { NOT_MEASURABLE, UNCLASSIFIED, type ClassRule, type SymbolShape } from '../classes/rule'

/** A line of the legend of stations. */
export interface ClassSymbol {
  readonly class: string
  /** #rrggbb */
  readonly colour: string
  readonly symbol: SymbolShape
  /** Not filled: nothing was found, or nothing could be. */
  readonly hollow: boolean
}

/** The classes in their order, then `unclassified` and `not measurable`, told apart by shape. */
export function classSymbols(classes: readonly ClassRule[]): ClassSymbol[] {
  const rest = { colour: UNCLASSIFIED_COLOUR, hollow: true } as const
  const all: ClassSymbol[] = [
    ...classes.map(({ name, colour, symbol }) => ({ class: name, colour, symbol, hollow: false })),
    { ...rest, class: UNCLASSIFIED, symbol: 'circle' },
    { ...rest, class: NOT_MEASURABLE, symbol: 'cross' },
  ]
  // A class may have taken one of those two names.
  return all.filter((one, at) => all.findIndex((other) => other.class === one.class) === at)
}

/**
 * Colours of a surface of the likeliest class, by number from 0 up: the classes' own, and for what
 * has none (a mineral group) the palette's in turn, first those that no other of the surface has.
 */
export function codeColours(
  { classes }: { readonly classes: readonly { readonly name: string }[] },
  rules: readonly ClassRule[],
): string[] {
  const own = new Map(rules.map(({ name, colour }) => [name, colour]))
  const used: string[] = classes.flatMap(({ name }) => own.get(name) ?? [])
  return classes.map(({ name }, code) => {
    if (code === 0) return UNCLASSIFIED_COLOUR
    const colour = own.get(name) ?? nextColour(used)
    if (!own.has(name)) used.push(colour)
    return colour
  })
}

/** The ramp that the map draws a surface by. */
export interface SurfaceRamp {
  readonly ramp: RampName
  /** Values at its ends; null for the middle 96 % of the surface's values. */
  readonly stretch: readonly [from: number, to: number] | null
}

/** Chances from 0 to 1 on one ramp, everything else on another, as on the map. */
export function surfaceRamp(method: SurfaceRule['method']): SurfaceRamp {
  return givesChance(method)
    ? { ramp: 'cividis', stretch: [0, 1] }
    : { ramp: 'batlow', stretch: null }
}

/** A value and its colour. */
export type RampStop = readonly [value: number, colour: string]

const STOPS = 11
/** Percentiles of a large raster are taken over about this many of its cells. */
const ENOUGH_VALUES = 100_000

/**
 * A ramp over a stretch, or over the middle 96 % of a surface's values, in ascending stops.
 *
 * @returns empty where the surface has no value, one stop where all are alike.
 */
export function rampStops(
  values: ArrayLike<number>,
  ramp: RampName,
  stretch: SurfaceRamp['stretch'] = null,
): RampStop[] {
  const step = Math.max(1, Math.floor(values.length / ENOUGH_VALUES))
  const some = Float64Array.from(
    { length: Math.ceil(values.length / step) },
    (_, i) => values[i * step],
  )
  const range = percentileStretch(some)
  if (range === null) return []
  const [from, to] = stretch ?? range
  if (!(to > from)) return [[from, colourText(rampColour(ramp, 0.5))]]
  const stops = Array.from({ length: STOPS }, (_, i): RampStop => {
    const part = i / (STOPS - 1)
    return [Number((from + part * (to - from)).toPrecision(7)), colourText(rampColour(ramp, part))]
  })
  // Over a narrow stretch neighbours round to one number, and a style takes each once.
  return stops.filter(([value], i) => i === 0 || value > stops[i - 1][0])
}
