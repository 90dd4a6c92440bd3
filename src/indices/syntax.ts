/** A formula as a tree, and the tree as a formula. */

/** Where a part stands in the formula: string indices, `to` one past the last. */
export interface Place {
  readonly from: number
  readonly to: number
}

export type Comparison = '=' | '!=' | '<' | '<=' | '>' | '>='
export type Arithmetic = '+' | '-' | '*' | '/' | '^'
export type Logic = 'and' | 'or'
export type BinaryOperator = Comparison | Arithmetic | Logic

export interface NumberNode extends Place {
  readonly kind: 'number'
  /** Finite, not negative. */
  readonly value: number
}

export interface TextNode extends Place {
  readonly kind: 'text'
  readonly value: string
}

/** Another index, by its name. */
export interface ReferenceNode extends Place {
  readonly kind: 'reference'
  readonly name: string
}

export interface UnaryNode extends Place {
  readonly kind: 'unary'
  readonly operator: '-' | 'not'
  readonly operand: FormulaNode
}

export interface BinaryNode extends Place {
  readonly kind: 'binary'
  readonly operator: BinaryOperator
  readonly left: FormulaNode
  readonly right: FormulaNode
}

export interface CallNode extends Place {
  readonly kind: 'call'
  readonly name: string
  /** Where the function's name alone stands. */
  readonly nameAt: Place
  readonly args: readonly FormulaNode[]
}

export type FormulaNode = NumberNode | TextNode | ReferenceNode | UnaryNode | BinaryNode | CallNode

/**
 * How tightly each operator binds, loosest first. Comparisons do not chain; `^` groups
 * from the right and binds tighter than a minus before its base, so that -2^2 is -4.
 */
export const POWER = {
  or: 1,
  and: 2,
  not: 3,
  comparison: 4,
  sum: 5,
  product: 6,
  minus: 7,
  power: 8,
  atom: 9,
} as const

/** The binding power of a binary operator, or undefined for any other word or sign. */
export function binaryPower(operator: string): number | undefined {
  return BINARY_POWER.get(operator)
}

const BINARY_POWER = new Map<string, number>([
  ['or', POWER.or],
  ['and', POWER.and],
  ...['=', '!=', '<', '<=', '>', '>='].map((sign): [string, number] => [sign, POWER.comparison]),
  ['+', POWER.sum],
  ['-', POWER.sum],
  ['*', POWER.product],
  ['/', POWER.product],
  ['^', POWER.power],
])

/** Names of the indices that a tree refers to, as they come from left to right. */
export function referencesIn(node: FormulaNode): string[] {
  switch (node.kind) {
    case 'reference':
      return [node.name]
    case 'unary':
      return referencesIn(node.operand)
    case 'binary':
      return [...referencesIn(node.left), ...referencesIn(node.right)]
    case 'call':
      return node.args.flatMap(referencesIn)
    case 'number':
    case 'text':
      return []
  }
}

/**
 * A tree as a formula with no more round brackets than it needs; parsing it gives the
 * same tree back, places aside.
 */
export function printFormula(node: FormulaNode): string {
  switch (node.kind) {
    case 'number':
      return String(node.value)
    case 'text':
      return quoteText(node.value)
    case 'reference':
      return bracketName(node.name)
    case 'call':
      return `${node.name}(${node.args.map(printFormula).join(', ')})`
    case 'unary':
      return node.operator === 'not'
        ? `not ${printAtLeast(node.operand, POWER.not)}`
        : `-${printAtLeast(node.operand, POWER.minus)}`
    case 'binary':
      return printBinary(node)
  }
}

/** A name as a reference to an index: in square brackets, with `]` doubled. */
export function bracketName(name: string): string {
  return `[${name.replaceAll(']', ']]')}]`
}

/** Text as a literal: in double quotes, with quotes and backslashes marked. */
export function quoteText(text: string): string {
  return `"${text.replace(/["\\]/g, '\\$&')}"`
}

function printBinary(node: BinaryNode): string {
  const own = BINARY_POWER.get(node.operator) ?? POWER.atom
  const leftNeeds = own === POWER.power ? POWER.atom : own === POWER.comparison ? POWER.sum : own
  const rightNeeds = own === POWER.power ? POWER.minus : own + 1
  const left = printAtLeast(node.left, leftNeeds)
  const right = printAtLeast(node.right, rightNeeds)
  return own === POWER.power ? `${left}^${right}` : `${left} ${node.operator} ${right}`
}

function printAtLeast(node: FormulaNode, needed: number): string {
  const printed = printFormula(node)
  return powerOf(node) >= needed ? printed : `(${printed})`
}

function powerOf(node: FormulaNode): number {
  if (node.kind === 'unary') return node.operator === 'not' ? POWER.not : POWER.minus
  if (node.kind === 'binary') return BINARY_POWER.get(node.operator) ?? POWER.atom
  return POWER.atom
}
