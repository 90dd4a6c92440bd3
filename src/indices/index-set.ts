/** The recipe's indices as one list of steps, each index after those that it refers to. */
import { compileAs, unknownIndex, type Compilation, type Part } from './compile'
import type { ScanValues, ValueContext } from './context'
import { measuredAt, runSteps } from './evaluate'
import { FormulaError } from './formula-error'
import { indexNameError } from './index-names'
import { nameSets, type KnownNames } from './known-names'
import type { SpectralLeaf } from './leaves'
import { parseFormula } from './parse'
import { ProgramBuilder, type Step } from './program'
import type { IndexRule, Measured } from './rule'
import { referencesIn, type FormulaNode, type ReferenceNode } from './syntax'

/** One index in the set. */
export interface CompiledIndex {
  readonly name: string
  readonly unit: string
  /** The step that holds its value, its `where` applied. */
  readonly result: number
  /** Whether it needs a scan; an index of table columns alone does not. */
  readonly needsScan: boolean
}

/** Where in a rule an error stands. */
export type IndexPart = 'name' | 'formula' | 'where'

export interface IndexError {
  readonly index: string
  readonly part: IndexPart
  /** Offsets in that part's text. */
  readonly error: FormulaError
}

/** Indices ready to be evaluated together. Plain data; it can be sent to a worker. */
export interface IndexSet {
  /** In an order in which each stands after those that it refers to. */
  readonly indices: readonly CompiledIndex[]
  /** A rule with an error is left out of `indices`, and with it those that refer to it. */
  readonly errors: readonly IndexError[]
  readonly steps: readonly Step[]
  /** What all of them read off a spectrum. */
  readonly leaves: readonly SpectralLeaf[]
}

/** Compiles the recipe's indices; what is wrong with one never stops the others. */
export function compileIndices(rules: readonly IndexRule[], known: KnownNames): IndexSet {
  return new SetCompiler(rules, known).compiled()
}

/** Every index of the set on one scan or station, by name. */
export function evaluateIndices(set: IndexSet, values: ScanValues): Map<string, Measured> {
  const run = runSteps(set.steps, withoutIndices(values))
  return new Map(set.indices.map(({ name, result }) => [name, measuredAt(set.steps, run, result)]))
}

/** References inside a set are steps of it, so none is ever asked of a context. */
function withoutIndices(values: ScanValues): ValueContext {
  return {
    leaf: (key) => values.leaf(key),
    share: (mineral) => values.share(mineral),
    group: (name) => values.group(name),
    fit: (mineral) => values.fit(mineral),
    column: (name) => values.column(name),
    index: (name) => {
      throw new Error(`Index "${name}" was not compiled into its set.`)
    },
  }
}

/** A formula as read, or why it cannot be. */
type Read = FormulaNode | FormulaError

interface Entry {
  readonly rule: IndexRule
  readonly name: string
  state: 'waiting' | 'open' | 'done' | 'failed'
  /** Once open; `where` undefined where there is none. */
  where: Read | undefined
  formula: Read | undefined
  /** The indices that it refers to and that have not been looked at for it, the next one last. */
  awaited: Entry[]
  part: Part | null
}

/** Indices of a circle that are told by name. */
const MOST_IN_CIRCLE = 8

function read(formula: string): Read {
  try {
    return parseFormula(formula)
  } catch (error) {
    if (error instanceof FormulaError) return error
    throw error
  }
}

function newEntry(rule: IndexRule, name: string): Entry {
  return {
    rule,
    name,
    state: 'waiting',
    where: undefined,
    formula: undefined,
    awaited: [],
    part: null,
  }
}

class SetCompiler {
  private readonly builder = new ProgramBuilder()
  private readonly entries = new Map<string, Entry>()
  private readonly errors: IndexError[] = []
  private readonly indices: CompiledIndex[] = []
  /** The indices under way, each referred to by the one before. */
  private readonly path: Entry[] = []
  private readonly compilation: Compilation

  constructor(rules: readonly IndexRule[], known: KnownNames) {
    const taken = new Set<string>()
    for (const rule of rules) {
      const name = rule.name.normalize('NFC')
      const error = indexNameError(name, taken)
      if (error) this.errors.push({ index: rule.name, part: 'name', error })
      else this.entries.set(name, newEntry(rule, name))
      taken.add(name.toLowerCase())
    }
    this.compilation = {
      builder: this.builder,
      known: nameSets(known),
      index: (reference) => this.resolve(reference),
    }
  }

  compiled(): IndexSet {
    for (const entry of this.entries.values()) this.compileWithReferred(entry)
    const { indices, errors, builder } = this
    return { indices, errors, steps: builder.steps, leaves: builder.leaves() }
  }

  /** An index after those that it refers to. Not by calling itself: a chain may be long. */
  private compileWithReferred(first: Entry): void {
    if (first.state !== 'waiting') return
    this.open(first)
    while (this.path.length > 0) {
      const entry = this.path[this.path.length - 1]
      const next = entry.awaited.pop()
      if (next?.state === 'waiting') this.open(next)
      else if (!next) {
        this.compile(entry)
        this.path.pop()
      }
    }
  }

  private open(entry: Entry): void {
    const { where = '', formula } = entry.rule
    entry.state = 'open'
    entry.where = where.trim() === '' ? undefined : read(where)
    entry.formula = read(formula)
    const names = [entry.where, entry.formula].flatMap((tree) =>
      tree === undefined || tree instanceof FormulaError ? [] : referencesIn(tree),
    )
    entry.awaited = names.flatMap((name) => this.entries.get(name) ?? []).reverse()
    this.path.push(entry)
  }

  private compile(entry: Entry): void {
    const { where, formula, name, rule } = entry
    const gate = where && this.attempt(entry, 'where', 'boolean', where)
    const value = formula ? this.attempt(entry, 'formula', 'number', formula) : null
    if (value === null || gate === null) {
      entry.state = 'failed'
      return
    }
    const at = gate ? this.builder.add({ op: 'gate', a: gate.at, b: value.at }) : value.at
    entry.part = { type: 'number', at }
    entry.state = 'done'
    const needsScan = this.builder.needsScan(at)
    this.indices.push({ name, unit: rule.unit ?? '', result: at, needsScan })
  }

  /** A part of a rule compiled; null where it is wrong, which is told. */
  private attempt(
    { rule }: Entry,
    part: 'formula' | 'where',
    wanted: 'number' | 'boolean',
    tree: Read,
  ): Part | null {
    try {
      if (tree instanceof FormulaError) throw tree
      return compileAs(wanted, tree, this.compilation)
    } catch (error) {
      if (!(error instanceof FormulaError)) throw error
      this.errors.push({ index: rule.name, part, error })
      return null
    }
  }

  private resolve(reference: ReferenceNode): Part {
    const entry = this.entries.get(reference.name)
    if (!entry) throw unknownIndex(reference, this.entries.keys())
    if (entry.state === 'open') throw this.circle(reference)
    if (entry.part) return entry.part
    throw new FormulaError(
      `The index "${reference.name}" has an error of its own.`,
      reference.from,
      reference.to,
      `Correct "${reference.name}" first.`,
    )
  }

  private circle(reference: ReferenceNode): FormulaError {
    const names = this.path.map(({ name }) => name)
    const circle = names.slice(names.indexOf(reference.name))
    const shown =
      circle.length > MOST_IN_CIRCLE
        ? [...circle.slice(0, MOST_IN_CIRCLE), `${circle.length - MOST_IN_CIRCLE} more`]
        : circle
    return new FormulaError(
      `These indices refer to each other in a circle: ${[...shown, reference.name].join(' → ')}.`,
      reference.from,
      reference.to,
      'Take one of the references out.',
    )
  }
}
