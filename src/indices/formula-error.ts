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
