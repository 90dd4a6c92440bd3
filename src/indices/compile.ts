/** Trees to steps: names, argument counts and types are checked where they stand. */
import { originCell } from './cells'
import {
  checkedFeature,
  checkedFunction,
  checkedName,
  checkedRange,
  checkedWavelength,
  unknownName,
} from './check-names'
import { FormulaError } from './formula-error'
import type { Curve, FeatureQuantity } from './functions'
import { nameSets, type KnownNames, type NameSets } from './known-names'
import { channelsLeaf, featureLeaf, reflectanceLeaf, type SpectralLeaf } from './leaves'
import { parseFormula } from './parse'
import { ProgramBuilder, type Step } from './program'
import type { BinaryNode, CallNode, Comparison, FormulaNode, Place, ReferenceNode } from './syntax'

/** `cell` is a table's cell: a number or text, told only when it is read. */
export type ValueType = 'number' | 'boolean' | 'text' | 'cell'

/** A part of a formula compiled: its type and the place of its step. */
export interface Part {
  readonly type: ValueType
  readonly at: number
}

/** A formula ready to be evaluated. Plain data; it can be sent to a worker. */
export interface CompiledFormula {
  readonly steps: readonly Step[]
  /** The step that holds the result. */
  readonly result: number
  readonly type: ValueType
  /** What it reads off a spectrum. */
  readonly leaves: readonly SpectralLeaf[]
}

/** What a tree is compiled with. */
export interface Compilation {
  readonly builder: ProgramBuilder
  readonly known: NameSets
  /** The part that an index stands for; throws a FormulaError at the reference where it cannot. */
  readonly index: (reference: ReferenceNode) => Part
}

/** The names that a formula outside the index set may speak of. */
export type NamesWithIndices = KnownNames & { readonly indices: Iterable<string> }

/**
 * A formula that stands by itself; other indices are asked of its context by name.
 *
 * @param wanted the type that it must have; any when left out
 * @throws FormulaError with the place
 */
export function compileFormula(
  formula: string,
  known: NamesWithIndices,
  wanted?: 'number' | 'boolean',
): CompiledFormula {
  const compilation = newCompilation(known)
  const { builder } = compilation
  const tree = parseFormula(formula)
  const part = wanted ? compileAs(wanted, tree, compilation) : compileNode(tree, compilation)
  return { steps: builder.steps, result: part.at, type: part.type, leaves: builder.leaves() }
}

/** The start of a list of steps in which other indices are asked of the context by name. */
export function newCompilation(known: NamesWithIndices): Compilation {
  const builder = new ProgramBuilder()
  const indices = new Set(Array.from(known.indices, (name) => name.normalize('NFC')))
  return {
    builder,
    known: nameSets(known),
    index: (reference) => {
      if (!indices.has(reference.name)) throw unknownIndex(reference, indices)
      return {
        type: 'number',
        at: builder.add({ op: 'leaf', source: 'index', key: reference.name }),
      }
    },
  }
}

/** The error for a reference to an index that is not there. */
export function unknownIndex(reference: ReferenceNode, indices: Iterable<string>): FormulaError {
  const { name } = reference
  return unknownName(`There is no index "${name}".`, name, indices, reference)
}

/** A tree whose value must be of one type; a cell is read as a number or text. */
export function compileAs(
  wanted: 'number' | 'boolean' | 'text',
  node: FormulaNode,
  compilation: Compilation,
): Part {
  return converted(compileNode(node, compilation), wanted, node, compilation.builder)
}

function compileNode(node: FormulaNode, compilation: Compilation): Part {
  const { builder } = compilation
  switch (node.kind) {
    case 'number':
      return { type: 'number', at: builder.add({ op: 'number', value: node.value }) }
    case 'text':
      return {
        type: 'text',
        at: builder.add({ op: 'text', value: node.value.normalize('NFC') }),
      }
    case 'reference':
      return compilation.index(node)
    case 'unary': {
      const type = node.operator === 'not' ? 'boolean' : 'number'
      const { at } = compileAs(type, node.operand, compilation)
      return { type, at: builder.add({ op: node.operator === 'not' ? 'not' : 'negate', a: at }) }
    }
    case 'binary':
      return compileBinary(node, compilation)
    case 'call':
      return compileCall(node, compilation)
  }
}

function compileBinary(node: BinaryNode, compilation: Compilation): Part {
  const { operator } = node
  switch (operator) {
    case 'and':
    case 'or':
    case '+':
    case '-':
    case '*':
    case '/':
    case '^': {
      const type = operator === 'and' || operator === 'or' ? 'boolean' : 'number'
      const a = compileAs(type, node.left, compilation).at
      const b = compileAs(type, node.right, compilation).at
      return { type, at: compilation.builder.add({ op: operator, a, b }) }
    }
    default:
      return compileComparison(node, operator, compilation)
  }
}

/**
 * Texts and truths are compared by `=` and `!=` alone. A cell is compared as what stands
 * on the other side; two cells as texts by `=` and `!=`, as numbers by the others.
 */
function compileComparison(node: BinaryNode, relation: Comparison, compilation: Compilation): Part {
  const { builder } = compilation
  const left = compileNode(node.left, compilation)
  const right = compileNode(node.right, compilation)
  const equality = relation === '=' || relation === '!='
  const type = comparedAs(left.type, right.type, equality, node)
  if (!equality && type !== 'number') {
    const wrong = left.type === 'number' || left.type === 'cell' ? node.right : node.left
    throw new FormulaError(
      `Only numbers can be compared by ${relation}.`,
      wrong.from,
      wrong.to,
      'Compare text by = or !=, and join conditions by and, or, not.',
    )
  }
  const a = converted(left, type, node.left, builder).at
  const b = converted(right, type, node.right, builder).at
  const step: Step =
    type === 'text'
      ? { op: 'compare texts', equal: relation === '=', a, b }
      : { op: 'compare numbers', relation, a, b }
  return { type: 'boolean', at: builder.add(step) }
}

function comparedAs(
  left: ValueType,
  right: ValueType,
  equality: boolean,
  place: Place,
): 'number' | 'boolean' | 'text' {
  if (left === 'cell' && right === 'cell') return equality ? 'text' : 'number'
  const type = left === 'cell' ? right : left
  const other = right === 'cell' ? left : right
  if (type === 'cell' || type !== other || (type === 'boolean' && left !== right)) {
    throw new FormulaError(
      `A ${spoken(left)} cannot be compared with a ${spoken(right)}.`,
      place.from,
      place.to,
      'Compare numbers with numbers and text with text.',
    )
  }
  return type
}

function compileCall(call: CallNode, compilation: Compilation): Part {
  const { builder, known } = compilation
  const entry = checkedFunction(call)
  switch (entry.kind) {
    case 'feature': {
      const [search, hull] = checkedFeature(call)
      return spectral(featureLeaf(call.name as FeatureQuantity, search, hull), builder)
    }
    case 'channels':
      return spectral(channelsLeaf(call.name as 'mean' | 'slope', checkedRange(call, 0)), builder)
    case 'reflectance':
      return spectral(reflectanceLeaf(checkedWavelength(call.args[0])), builder)
    case 'identification': {
      const source = call.name as 'share' | 'group' | 'fit'
      const key = checkedName(call, known)
      return { type: 'number', at: builder.add({ op: 'leaf', source, key }) }
    }
    case 'column':
      return { type: 'cell', at: builder.add({ op: 'column', name: checkedName(call, known) }) }
    case 'origin': {
      const a = builder.add({ op: 'column', name: originCell(checkedName(call, known)) })
      return { type: 'text', at: builder.add({ op: 'cell to text', a }) }
    }
    case 'curve': {
      const { at } = compileAs('number', call.args[0], compilation)
      return { type: 'number', at: builder.add({ op: call.name as Curve, a: at }) }
    }
    case 'extreme': {
      const op = call.name as 'min' | 'max'
      const places = call.args.map((arg) => compileAs('number', arg, compilation).at)
      return { type: 'number', at: places.reduce((a, b) => builder.add({ op, a, b })) }
    }
    case 'choice':
      return compileChoice(call, compilation)
  }
}

/** `if(condition, a, b)`: both of one type; a cell beside a number or text is read as one. */
function compileChoice(call: CallNode, compilation: Compilation): Part {
  const { builder } = compilation
  const [conditionNode, thenNode, elseNode] = call.args
  const a = compileAs('boolean', conditionNode, compilation).at
  const whenTrue = compileNode(thenNode, compilation)
  const whenFalse = compileNode(elseNode, compilation)
  const type = whenTrue.type === 'cell' ? whenFalse.type : whenTrue.type
  const b = type === 'cell' ? whenTrue.at : converted(whenTrue, type, thenNode, builder).at
  const c = type === 'cell' ? whenFalse.at : converted(whenFalse, type, elseNode, builder).at
  return { type, at: builder.add({ op: 'if', a, b, c }) }
}

function spectral(leaf: SpectralLeaf, builder: ProgramBuilder): Part {
  return { type: 'number', at: builder.addSpectral(leaf) }
}

function converted(
  part: Part,
  wanted: 'number' | 'boolean' | 'text',
  place: Place,
  builder: ProgramBuilder,
): Part {
  if (part.type === wanted) return part
  if (part.type === 'cell' && wanted !== 'boolean') {
    const op = wanted === 'number' ? 'cell to number' : 'cell to text'
    return { type: wanted, at: builder.add({ op, a: part.at }) }
  }
  throw new FormulaError(
    `A ${spoken(wanted)} should stand here, not a ${spoken(part.type)}.`,
    place.from,
    place.to,
    HINT[wanted],
  )
}

const HINT = {
  number: 'Use a number; if(condition, 1, 0) makes one of a condition.',
  boolean: 'Compare something, such as depth(2185, 2225) > 0.05.',
  text: 'Put text in double quotes.',
} as const

/** A type as the user is told of it. */
function spoken(type: ValueType): string {
  return { number: 'number', boolean: 'condition', text: 'text', cell: 'table cell' }[type]
}
