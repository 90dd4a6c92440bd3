/** Contexts and shorthands for the tests of the formula language. */
import { compileFormula } from '../../src/indices/compile'
import type { ValueContext } from '../../src/indices/context'
import { evaluate } from '../../src/indices/evaluate'
import { FormulaError } from '../../src/indices/formula-error'
import type { FormulaValue, Measured } from '../../src/indices/rule'
import type { Cell } from '../../src/places/station'

export const KNOWN = {
  minerals: ['alunite', 'muscovite', 'kaolinite'],
  groups: ['alunite', 'white mica', 'kaolin', 'chlorite'],
  columns: ['Cu_ppm', 'lithology', 'Au_ppm', 'empty'],
  indices: ['a', 'b', 'name with ] bracket', 'unknown'],
}

/** A value that is missing. */
export const NOTHING: Measured = { value: null, error: null, missing: 'gap in channels' }

/** A context with the given values; whatever is not given is missing. */
export function context(
  given: {
    leaves?: Record<string, Measured>
    shares?: Record<string, number>
    indices?: Record<string, Measured>
    columns?: Record<string, Cell>
  } = {},
): ValueContext {
  const share = (name: string): Measured =>
    given.shares && name in given.shares ? { value: given.shares[name], error: null } : NOTHING
  return {
    leaf: (key) => given.leaves?.[key] ?? NOTHING,
    share,
    group: share,
    fit: share,
    index: (name) => given.indices?.[name] ?? NOTHING,
    column: (name) => given.columns?.[name],
  }
}

/** The value of a formula. */
export function valueOf(formula: string, given: ValueContext = context()): FormulaValue['value'] {
  return evaluate(compileFormula(formula, KNOWN), given).value
}

/** The error that a formula brings, with the text at its place. */
export function errorOf(formula: string): {
  message: string
  at: string
  from: number
  hint: string
} {
  try {
    compileFormula(formula, KNOWN)
  } catch (error) {
    if (!(error instanceof FormulaError)) throw error
    const { message, from, to, hint } = error
    return { message, at: formula.slice(from, to), from, hint }
  }
  throw new Error(`"${formula}" was taken without an error`)
}
