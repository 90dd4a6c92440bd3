/** Formulas printed and read back, and text at random: nothing is lost and nothing breaks. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { compileFormula } from '../../src/indices/compile'
import { FormulaError } from '../../src/indices/formula-error'
import { parseFormula } from '../../src/indices/parse'
import { printFormula, type BinaryOperator, type FormulaNode } from '../../src/indices/syntax'
import { KNOWN } from './sample'

/** Trees without places, as the parser builds them. */
const trees = fc.letrec<{ node: FormulaNode }>((tie) => {
  const place = { from: 0, to: 0 }
  const operators: BinaryOperator[] = [
    '+',
    '-',
    '*',
    '/',
    '^',
    '=',
    '!=',
    '<',
    '<=',
    '>',
    '>=',
    'and',
    'or',
  ]
  const name = fc
    .string({ minLength: 1 })
    .filter((text) => text.trim() !== '')
    .map((text) => text.normalize('NFC'))
  return {
    node: fc.oneof(
      { depthSize: 'small', withCrossShrink: true },
      fc
        .double({ min: 0, noNaN: true, noDefaultInfinity: true })
        .map((value): FormulaNode => ({ kind: 'number', value: value + 0, ...place })),
      fc.string().map((value): FormulaNode => ({ kind: 'text', value, ...place })),
      name.map((text): FormulaNode => ({ kind: 'reference', name: text, ...place })),
      fc
        .record({ operator: fc.constantFrom('-' as const, 'not' as const), operand: tie('node') })
        .map((part): FormulaNode => ({ kind: 'unary', ...part, ...place })),
      fc
        .record({ operator: fc.constantFrom(...operators), left: tie('node'), right: tie('node') })
        .map((part): FormulaNode => ({ kind: 'binary', ...part, ...place })),
      fc
        .record({
          name: fc.constantFrom('min', 'depth', 'if'),
          args: fc.array(tie('node'), { maxLength: 4 }),
        })
        .map((part): FormulaNode => ({ kind: 'call', nameAt: place, ...part, ...place })),
    ),
  }
})

/** A tree with every place set to nothing. */
function placeless(node: FormulaNode): FormulaNode {
  const place = { from: 0, to: 0 }
  switch (node.kind) {
    case 'unary':
      return { ...node, ...place, operand: placeless(node.operand) }
    case 'binary':
      return { ...node, ...place, left: placeless(node.left), right: placeless(node.right) }
    case 'call':
      return { ...node, ...place, nameAt: place, args: node.args.map(placeless) }
    default:
      return { ...node, ...place }
  }
}

test('a printed tree parses to itself', () => {
  fc.assert(
    fc.property(trees.node, (node) => {
      expect(placeless(parseFormula(printFormula(node)))).toEqual(node)
    }),
    { numRuns: 500 },
  )
})

test('any text at all is either parsed or refused with a place inside it', () => {
  const pieces = fc.constantFrom(
    '1',
    '2.5',
    '"x"',
    '[a]',
    '+',
    '-',
    '^',
    '<',
    '=',
    'and',
    'not',
    '(',
    ')',
    ',',
    'min(',
    'depth(2185,2225)',
    ' ',
  )
  const text = fc.oneof(
    fc.string({ unit: 'binary' }),
    fc.array(pieces).map((list) => list.join('')),
  )
  fc.assert(
    fc.property(text, (formula) => {
      try {
        compileFormula(formula, KNOWN)
      } catch (error) {
        if (!(error instanceof FormulaError)) throw error
        expect(error.from).toBeGreaterThanOrEqual(0)
        expect(error.to).toBeGreaterThanOrEqual(error.from)
        expect(error.to).toBeLessThanOrEqual(formula.length)
      }
    }),
    { numRuns: 1000 },
  )
})
