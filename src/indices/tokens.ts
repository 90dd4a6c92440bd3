/** A formula's characters to tokens. */
import { FormulaError } from './formula-error'

export type TokenKind = 'number' | 'text' | 'reference' | 'word' | 'sign' | 'end'

export interface Token {
  readonly kind: TokenKind
  /** The sign or word as written (signs in their plain form); the name or text without its marks. */
  readonly text: string
  /** The number's value; NaN for the other kinds. */
  readonly value: number
  readonly from: number
  readonly to: number
}

/** Longest formula that is read, characters. */
export const MAX_LENGTH = 10_000

const SIGNS = ['<=', '>=', '!=', '+', '-', '*', '/', '^', '=', '<', '>', '(', ')', ',']

/** Signs as documents and keyboards print them, read as the plain ones. */
const SAME_SIGN: Readonly<Record<string, string>> = {
  '\u2212': '-', // minus sign
  '\u2264': '<=',
  '\u2265': '>=',
  '\u2260': '!=',
}

/** Signs that other notations use, each with what to write here. */
const FOREIGN: readonly (readonly [sign: string, hint: string])[] = [
  ['==', 'Write one = to compare for equality.'],
  ['<>', 'Write != for unequal.'],
  ['**', 'Write ^ for a power.'],
  ['&&', 'Write the word and.'],
  ['||', 'Write the word or.'],
  ['!', 'Write the word not, or != for unequal.'],
  ["'", 'Put text in double quotes: "white mica".'],
  ['\u201c', 'Use plain double quotes: "white mica".'],
  ['\u201d', 'Use plain double quotes: "white mica".'],
  [';', 'Separate values with commas, and write decimals with a point.'],
  ['%', 'Write a share as a fraction: 0.3 for 30 per cent.'],
]

const NUMBER = /(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?/y
const WORD = /[\p{L}_][\p{L}\p{M}\p{N}_]*/uy
const SPACE = /\s*/y

/**
 * The tokens of a formula, the last of kind `end`.
 *
 * @throws FormulaError where a character means nothing, a text or name does not end,
 *   or the formula is longer than {@link MAX_LENGTH}.
 */
export function tokens(formula: string): Token[] {
  if (formula.length > MAX_LENGTH) {
    throw new FormulaError(
      `This formula has ${formula.length} characters; at most ${MAX_LENGTH} are read.`,
      MAX_LENGTH,
      formula.length,
      'Split it into indices that refer to each other by [name].',
    )
  }
  const list: Token[] = []
  let at = 0
  for (;;) {
    at += matchAt(SPACE, formula, at).length
    if (at >= formula.length) break
    const token = tokenAt(formula, at)
    list.push(token)
    at = token.to
  }
  list.push({ kind: 'end', text: '', value: NaN, from: formula.length, to: formula.length })
  return list
}

function tokenAt(formula: string, at: number): Token {
  const digits = matchAt(NUMBER, formula, at)
  if (digits !== '') return numberToken(formula, digits, at)
  const word = matchAt(WORD, formula, at)
  if (word !== '') return { kind: 'word', text: word, value: NaN, from: at, to: at + word.length }
  if (formula[at] === '"') return textToken(formula, at)
  if (formula[at] === '[') return referenceToken(formula, at)
  return signToken(formula, at)
}

function numberToken(formula: string, digits: string, at: number): Token {
  const to = at + digits.length
  const value = Number(digits)
  if (!Number.isFinite(value)) {
    throw new FormulaError(`${digits} is too large a number.`, at, to, 'Write a smaller number.')
  }
  const tail = matchAt(WORD, formula, to)
  if (tail !== '') {
    throw new FormulaError(
      `"${tail}" stands against the number ${digits}.`,
      to,
      to + tail.length,
      'Numbers are written without units; wavelengths are in nm.',
    )
  }
  if (formula[to] === '.') {
    throw new FormulaError(
      'This number has a second decimal point.',
      to,
      to + 1,
      'Write one decimal point and no thousands marks.',
    )
  }
  return { kind: 'number', text: digits, value, from: at, to }
}

/** Text in double quotes; `\"` and `\\` stand for the quote and the backslash. */
function textToken(formula: string, at: number): Token {
  let text = ''
  for (let i = at + 1; i < formula.length; i++) {
    const character = formula[i]
    if (character === '"') return { kind: 'text', text, value: NaN, from: at, to: i + 1 }
    if (character !== '\\') {
      text += character
      continue
    }
    const escaped = formula[++i]
    if (escaped !== '"' && escaped !== '\\') {
      throw new FormulaError(
        'A backslash in text stands before a quote or another backslash only.',
        i - 1,
        Math.min(i + 1, formula.length),
        'Write \\\\ for a backslash and \\" for a quote.',
      )
    }
    text += escaped
  }
  throw new FormulaError(
    'This text has no closing quote.',
    at,
    formula.length,
    'End the text with ".',
  )
}

/** An index by its name in square brackets; `]]` stands for a bracket in the name. */
function referenceToken(formula: string, at: number): Token {
  let name = ''
  for (let i = at + 1; i < formula.length; i++) {
    if (formula[i] !== ']') {
      name += formula[i]
      continue
    }
    if (formula[i + 1] !== ']') {
      if (name.trim() === '') {
        throw new FormulaError(
          'These brackets hold no name.',
          at,
          i + 1,
          'Write the name of an index between them.',
        )
      }
      return { kind: 'reference', text: name, value: NaN, from: at, to: i + 1 }
    }
    name += ']'
    i++
  }
  throw new FormulaError(
    'This index name has no closing bracket.',
    at,
    formula.length,
    'End the name with ]; a bracket inside a name is written ]].',
  )
}

function signToken(formula: string, at: number): Token {
  for (const [sign, hint] of FOREIGN) {
    if (!formula.startsWith(sign, at) || formula.startsWith('!=', at)) continue
    throw new FormulaError(`"${sign}" is not used in formulas.`, at, at + sign.length, hint)
  }
  const same = SAME_SIGN[formula[at]]
  if (same) return { kind: 'sign', text: same, value: NaN, from: at, to: at + 1 }
  const sign = SIGNS.find((candidate) => formula.startsWith(candidate, at))
  if (sign) return { kind: 'sign', text: sign, value: NaN, from: at, to: at + sign.length }
  const character = String.fromCodePoint(formula.codePointAt(at) ?? 0)
  throw new FormulaError(
    `"${character}" has no meaning in a formula.`,
    at,
    at + character.length,
    'Take it out, or put it in double quotes if it belongs to a name.',
  )
}

function matchAt(pattern: RegExp, formula: string, at: number): string {
  pattern.lastIndex = at
  return pattern.exec(formula)?.[0] ?? ''
}
