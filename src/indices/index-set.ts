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
import type { FormulaNode, ReferenceNode } from './syntax'

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

interface Entry {
  readonly rule: IndexRule
  readonly name: string
  state: 'waiting' | 'open' | 'done' | 'failed'
  part: Part | null
}

class SetCompiler {
  private readonly builder = new ProgramBuilder()
  private readonly entries = new Map<string, Entry>()
  private readonly errors: IndexError[] = []
  private readonly indices: CompiledIndex[] = []
  /** Names of the indices being compiled, each referred to by the one before. */
  private readonly path: string[] = []
  private readonly compilation: Compilation

  constructor(rules: readonly IndexRule[], known: KnownNames) {
    const taken = new Set<string>()
    for (const rule of rules) {
      const name = rule.name.normalize('NFC')
      const error = indexNameError(name, taken)
      if (error) this.errors.push({ index: rule.name, part: 'name', error })
      else this.entries.set(name, { rule, name, state: 'waiting', part: null })
      taken.add(name.toLowerCase())
    }
    this.compilation = {
      builder: this.builder,
      known: nameSets(known),
      index: (reference) => this.resolve(reference),
    }
  }

  compiled(): IndexSet {
    for (const entry of this.entries.values()) this.compile(entry)
    const { indices, errors, builder } = this
    return { indices, errors, steps: builder.steps, leaves: builder.leaves() }
  }

  private compile(entry: Entry): void {
    if (entry.state !== 'waiting') return
    entry.state = 'open'
    this.path.push(entry.name)
    const where = this.attempt(entry, 'where', entry.rule.where ?? '')
    const value = this.attempt(entry, 'formula', entry.rule.formula)
    this.path.pop()
    if (value === null || where === null) {
      entry.state = 'failed'
      return
    }
    const at = where ? this.builder.add({ op: 'gate', a: where.at, b: value.at }) : value.at
    entry.part = { type: 'number', at }
    entry.state = 'done'
    const { name, rule } = entry
    const needsScan = this.builder.needsScan(at)
    this.indices.push({ name, unit: rule.unit ?? '', result: at, needsScan })
  }

  /** One part of a rule compiled; null where it is wrong, the empty part undefined for `where`. */
  private attempt(entry: Entry, part: 'formula' | 'where', text: string): Part | null
  private attempt(entry: Entry, part: 'where', text: string): Part | null | undefined
  private attempt(entry: Entry, part: 'formula' | 'where', text: string): Part | null | undefined {
    if (part === 'where' && text.trim() === '') return undefined
    try {
      const tree: FormulaNode = parseFormula(text)
      return compileAs(part === 'where' ? 'boolean' : 'number', tree, this.compilation)
    } catch (error) {
      if (!(error instanceof FormulaError)) throw error
      this.errors.push({ index: entry.rule.name, part, error })
      return null
    }
  }

  private resolve(reference: ReferenceNode): Part {
    const entry = this.entries.get(reference.name)
    if (!entry) throw unknownIndex(reference, this.entries.keys())
    if (entry.state === 'open') throw this.circle(reference)
    this.compile(entry)
    if (entry.part) return entry.part
    throw new FormulaError(
      `The index "${reference.name}" has an error of its own.`,
      reference.from,
      reference.to,
      `Correct "${reference.name}" first.`,
    )
  }

  private circle(reference: ReferenceNode): FormulaError {
    const circle = this.path.slice(this.path.indexOf(reference.name))
    return new FormulaError(
      `These indices refer to each other in a circle: ${[...circle, reference.name].join(' → ')}.`,
      reference.from,
      reference.to,
      'Take one of the references out.',
    )
  }
}
