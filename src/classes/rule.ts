/** Classes: rules in the geologist's words; the first that holds wins. */

export const SYMBOLS = [
  'circle',
  'square',
  'triangle',
  'diamond',
  'cross',
  'star',
  'hexagon',
  'inverted triangle',
] as const
export type SymbolShape = (typeof SYMBOLS)[number]

/** An entry of the recipe's `classes`. */
export interface ClassRule {
  readonly name: string
  readonly when: string
  /** #rrggbb */
  readonly colour: string
  readonly symbol: SymbolShape
}

/** A station whose class a missing value decided. */
export const NOT_MEASURABLE = 'not measurable'
/** A station on which every rule was false. */
export const UNCLASSIFIED = 'unclassified'
