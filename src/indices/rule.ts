/** Indices and what a formula may give. */

/** An entry of the recipe's `indices`. */
export interface IndexRule {
  readonly name: string
  readonly formula: string
  readonly unit?: string
  /** Only where this holds; elsewhere the index is missing. */
  readonly where?: string
}

/** Why a value is missing. */
export const MISSING = [
  'condition false',
  'minimum at edge',
  'gap in channels',
  'no mathematical answer',
  'not identified',
  'no such cell',
  'text, not a number',
  'no scan',
] as const
export type Missing = (typeof MISSING)[number]

/** A number with its standard error, or nothing with the reason. */
export interface Measured {
  /** null when missing. */
  readonly value: number | null
  /** One standard error in the value's unit; null where there is none to state. */
  readonly error: number | null
  readonly missing?: Missing
}

/** What a formula gives: a number, truth or text, or null with the reason. */
export interface FormulaValue {
  readonly value: number | boolean | string | null
  /** One standard error of a number; null where there is none to state. */
  readonly error: number | null
  readonly missing?: Missing
}
