/**
 * Formulas to trees, by operator precedence (Pratt 1973, "Top down operator
 * precedence", POPL). No name or type is looked at here.
 */
import { FormulaError } from './formula-error'
import { binaryPower, POWER, type BinaryOperator, type FormulaNode, type Place } from './syntax'
import { tokens, type Token } from './tokens'

/** Deepest nesting of a formula, counting each operator, bracket and call. */
export const MAX_DEPTH = 500

/**
 * The tree of a formula.
 *
 * @throws FormulaError with the place and what to do, where it cannot be read.
 */
export function parseFormula(formula: string): FormulaNode {
  const list = tokens(formula)
  if (list[0].kind === 'end') {
    throw new FormulaError(
      'This formula is empty.',
      0,
      formula.length,
      'Write a number, a function such as depth(2185, 2225), or [an index].',
    )
  }
  return new Parser(list).whole()
}

class Parser {
  private next = 0
  private nesting = 0
  /** Height of each subtree: a long sum nests as deeply as its number of terms. */
  private readonly height = new WeakMap<FormulaNode, number>()

  constructor(private readonly list: readonly Token[]) {}

  whole(): FormulaNode {
    const node = this.expression(0)
    const token = this.peek()
    if (token.kind !== 'end') throw unexpected(token, 'The formula should end here.')
    return node
  }

  /** An expression whose operators all bind at least as tightly as `least`. */
  private expression(least: number): FormulaNode {
    if (++this.nesting > MAX_DEPTH) throw tooDeep(this.peek())
    let left = this.operand(least)
    let compared = false
    for (;;) {
      const token = this.peek()
      const power =
        token.kind === 'sign' || token.kind === 'word' ? binaryPower(token.text) : undefined
      if (power === undefined || power < least) break
      if (power === POWER.comparison && compared) throw chained(token)
      this.next++
      // `^` groups from the right and lets a minus stand in its exponent: 2^-3.
      const right = this.expression(power === POWER.power ? POWER.minus : power + 1)
      const operator = token.text as BinaryOperator
      const place = { from: left.from, to: right.to }
      left = this.grown({ kind: 'binary', operator, left, right, ...place }, [left, right])
      compared = power === POWER.comparison
    }
    this.nesting--
    return left
  }

  private operand(least: number): FormulaNode {
    const token = this.peek()
    this.next++
    switch (token.kind) {
      case 'number':
        return { kind: 'number', value: token.value, from: token.from, to: token.to }
      case 'text':
        return { kind: 'text', value: token.text, from: token.from, to: token.to }
      case 'reference':
        return {
          kind: 'reference',
          name: token.text.normalize('NFC'),
          from: token.from,
          to: token.to,
        }
      case 'word':
        return token.text === 'not' ? this.negation(token, least) : this.call(token)
      case 'sign':
        if (token.text === '(') return this.bracketed(token)
        if (token.text === '-') return this.minus(token)
    }
    throw unexpected(
      token,
      'A value should stand here: a number, a function, "text" or [an index].',
    )
  }

  private negation(token: Token, least: number): FormulaNode {
    if (least > POWER.not) {
      throw new FormulaError(
        '"not" cannot stand in the middle of a calculation or comparison.',
        token.from,
        token.to,
        'Put round brackets around not and what follows it.',
      )
    }
    const operand = this.expression(POWER.not)
    const place = { from: token.from, to: operand.to }
    return this.grown({ kind: 'unary', operator: 'not', operand, ...place }, [operand])
  }

  private minus(token: Token): FormulaNode {
    const operand = this.expression(POWER.minus)
    const place = { from: token.from, to: operand.to }
    return this.grown({ kind: 'unary', operator: '-', operand, ...place }, [operand])
  }

  /** Round brackets leave no node, but the place of what they hold grows to them. */
  private bracketed(open: Token): FormulaNode {
    const inner = this.expression(0)
    const close = this.closing(open)
    return this.grown({ ...inner, from: open.from, to: close.to }, [inner])
  }

  private call(word: Token): FormulaNode {
    const open = this.peek()
    if (open.kind !== 'sign' || open.text !== '(') throw bareWord(word)
    this.next++
    const args: FormulaNode[] = []
    if (!this.atSign(')')) {
      do args.push(this.expression(0))
      while (this.took(','))
    }
    const close = this.closing(open)
    const nameAt: Place = { from: word.from, to: word.to }
    const place = { from: word.from, to: close.to }
    return this.grown({ kind: 'call', name: word.text, nameAt, args, ...place }, args)
  }

  private closing(open: Token): Token {
    const token = this.peek()
    if (token.kind === 'sign' && token.text === ')') {
      this.next++
      return token
    }
    if (token.kind === 'end') {
      throw new FormulaError(
        'This bracket is not closed.',
        open.from,
        open.to,
        'Add ) where the bracket should end.',
      )
    }
    throw unexpected(token, 'A comma, an operator or ) should stand here.')
  }

  private grown<N extends FormulaNode>(node: N, children: readonly FormulaNode[]): N {
    let height = 0
    for (const child of children) height = Math.max(height, this.height.get(child) ?? 0)
    if (++height > MAX_DEPTH) throw tooDeep(node)
    this.height.set(node, height)
    return node
  }

  private peek(): Token {
    return this.list[Math.min(this.next, this.list.length - 1)]
  }

  private atSign(sign: string): boolean {
    const token = this.peek()
    return token.kind === 'sign' && token.text === sign
  }

  private took(sign: string): boolean {
    const there = this.atSign(sign)
    if (there) this.next++
    return there
  }
}

function unexpected(token: Token, hint: string): FormulaError {
  if (token.kind === 'end') {
    return new FormulaError('The formula ends too soon.', token.from, token.to, hint)
  }
  const lower = token.text.toLowerCase()
  if (token.kind === 'word' && lower !== token.text && binaryPower(lower) !== undefined) {
    return wrongCase(token, lower)
  }
  const shown = token.kind === 'text' ? 'This text' : `"${token.text}"`
  return new FormulaError(`${shown} cannot stand here.`, token.from, token.to, hint)
}

function bareWord(word: Token): FormulaError {
  const lower = word.text.toLowerCase()
  if (binaryPower(word.text) !== undefined) {
    return unexpected(word, `A value should stand before ${word.text}.`)
  }
  if (lower !== word.text && (lower === 'not' || binaryPower(lower) !== undefined)) {
    return wrongCase(word, lower)
  }
  return new FormulaError(
    `"${word.text}" means nothing by itself.`,
    word.from,
    word.to,
    'Write an index in square brackets, text in double quotes, and a function with its ( ).',
  )
}

function wrongCase(word: Token, lower: string): FormulaError {
  return new FormulaError(
    `"${word.text}" is not known.`,
    word.from,
    word.to,
    `Write ${lower} in small letters.`,
  )
}

function chained(token: Token): FormulaError {
  return new FormulaError(
    'Comparisons cannot be chained.',
    token.from,
    token.to,
    'Write a < b and b < c.',
  )
}

function tooDeep(place: Place): FormulaError {
  return new FormulaError(
    `This formula is nested more than ${MAX_DEPTH} deep.`,
    place.from,
    place.to,
    'Split it into indices that refer to each other by [name].',
  )
}
