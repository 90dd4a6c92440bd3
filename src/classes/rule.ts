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
  'turned cross',
  'left triangle',
  'right triangle',
  'hourglass',
  'upright bar',
  'flat bar',
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

/** The symbol for a new class: the first that no class has yet, else in turn. */
export function nextSymbol(used: readonly SymbolShape[]): SymbolShape {
  return SYMBOLS.find((symbol) => !used.includes(symbol)) ?? SYMBOLS[used.length % SYMBOLS.length]
}

/**
 * The classes with a symbol for each, so that shape alone tells them apart: the first with a
 * symbol keeps it. With more classes than symbols the last ones share.
 */
export function withOwnSymbols(classes: readonly ClassRule[]): ClassRule[] {
  const kept = new Set<SymbolShape>()
  const keeps = classes.map(({ symbol }) => !kept.has(symbol) && Boolean(kept.add(symbol)))
  const used = [...kept]
  return classes.map((rule, i) => {
    if (keeps[i]) return rule
    const symbol = nextSymbol(used)
    used.push(symbol)
    return { ...rule, symbol }
  })
}

/** A station whose class a missing value decided. */
export const NOT_MEASURABLE = 'not measurable'
/** A station on which every rule was false. */
export const UNCLASSIFIED = 'unclassified'
