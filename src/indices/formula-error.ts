/**
 * What is wrong with a formula, and where. Offsets are string indices (UTF-16 code
 * units) into the formula, `to` one past the last.
 */
export class FormulaError extends Error {
  override readonly name = 'FormulaError'

  constructor(
    /** A sentence saying what is wrong. */
    message: string,
    readonly from: number,
    readonly to: number,
    /** What to do about it. */
    readonly hint: string,
  ) {
    super(message)
  }
}

/**
 * A formula error as lines for a report without a screen: what is wrong, the stretch
 * of the formula around it with carets under the place, and what to do.
 */
export function describeFormulaError(error: FormulaError, formula: string): string {
  const start = Math.max(0, error.from - 40)
  const end = Math.min(formula.length, Math.max(error.to, error.from + 1) + 20)
  const excerpt = formula.slice(start, end).replace(/\s/g, ' ')
  const width = Math.max(1, Math.min(error.to, end) - error.from)
  const carets = ' '.repeat(error.from - start) + '^'.repeat(width)
  return `${error.message} (character ${error.from + 1})\n  ${excerpt}\n  ${carets}\n${error.hint}`
}
