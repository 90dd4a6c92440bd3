/**
 * Class rules to classes. Rules are taken in order and the first that is true wins.
 *
 * A rule that cannot be told true or false does not hold, and the search goes on: a later
 * rule that is true names the station. Where no rule is true, one that could not be told
 * leaves the station `not measurable`, for it might have held; `unclassified` means that
 * every rule was false. So a rule that leans on a gated index should also ask for its
 * mineral: `group("white mica") >= 0.3 and [white mica position] >= 2208` is false, not
 * unknown, where there is no white mica.
 */
import { compileAs, newCompilation, type NamesWithIndices } from '../indices/compile'
import type { ValueContext } from '../indices/context'
import { continueRun, emptyRun, holdsAt, reasonOf, type Run } from '../indices/evaluate'
import { FormulaError } from '../indices/formula-error'
import type { SpectralLeaf } from '../indices/leaves'
import { parseFormula } from '../indices/parse'
import type { Step } from '../indices/program'
import type { Missing } from '../indices/rule'
import { NOT_MEASURABLE, SYMBOLS, UNCLASSIFIED, type ClassRule } from './rule'

export interface CompiledClass {
  readonly rule: ClassRule
  /** The step that holds its condition. */
  readonly result: number
}

export interface ClassError {
  readonly class: string
  readonly part: 'name' | 'when' | 'colour' | 'symbol'
  /** Offsets in that part's text. */
  readonly error: FormulaError
}

/** Class rules ready to be applied. Plain data; it can be sent to a worker. */
export interface ClassSet {
  /** In the rules' order. */
  readonly classes: readonly CompiledClass[]
  /** All conditions; what rules have in common is kept once. */
  readonly steps: readonly Step[]
  /** A rule with an error is left out of `classes`. */
  readonly errors: readonly ClassError[]
  /** What all of them read off a spectrum. */
  readonly leaves: readonly SpectralLeaf[]
}

/** Compiles the recipe's classes; what is wrong with one never stops the others. */
export function compileClasses(rules: readonly ClassRule[], known: NamesWithIndices): ClassSet {
  const classes: CompiledClass[] = []
  const errors: ClassError[] = []
  const taken = new Set<string>()
  const compilation = newCompilation(known)
  for (const rule of rules) {
    const wrong = wrongWith(rule, taken)
    taken.add(rule.name.normalize('NFC').toLowerCase())
    if (wrong) {
      errors.push(wrong)
      continue
    }
    try {
      const { at } = compileAs('boolean', parseFormula(rule.when), compilation)
      classes.push({ rule, result: at })
    } catch (error) {
      if (!(error instanceof FormulaError)) throw error
      errors.push({ class: rule.name, part: 'when', error })
    }
  }
  const { builder } = compilation
  return { classes, errors, steps: builder.steps, leaves: builder.leaves() }
}

/** Runs kept between stations, for making one costs more than using it; one a set. */
const kept = new WeakMap<ClassSet, Run>()

/** The class of a scan or station: a rule's name, `not measurable` or `unclassified`. */
export function classify(set: ClassSet, context: ValueContext): string {
  const run = kept.get(set) ?? emptyRun(set.steps.length)
  kept.delete(set)
  const name = firstTrue(set, run, context, null)
  kept.set(set, run)
  return name
}

/** A class with what led to it. */
export interface ClassAnswer {
  readonly name: string
  /** Rules before the one that held, or all where none did, that could not be told, and why. */
  readonly unknown: readonly { readonly class: string; readonly missing: Missing }[]
}

/** The class of a scan or station, and the rules on the way that could not be told. */
export function explainClass(set: ClassSet, context: ValueContext): ClassAnswer {
  const unknown: { class: string; missing: Missing }[] = []
  return { name: firstTrue(set, emptyRun(set.steps.length), context, unknown), unknown }
}

/** Runs no further than the rule that holds. */
function firstTrue(
  { steps, classes }: ClassSet,
  run: Run,
  context: ValueContext,
  unknown: { class: string; missing: Missing }[] | null,
): string {
  let done = 0
  let untold = false
  for (const { rule, result } of classes) {
    if (result >= done) {
      continueRun(steps, run, done, result + 1, context)
      done = result + 1
    }
    const held = holdsAt(run, result)
    if (held) return rule.name
    if (held !== null) continue
    untold = true
    unknown?.push({ class: rule.name, missing: reasonOf(run, result) })
  }
  return untold ? NOT_MEASURABLE : UNCLASSIFIED
}

function wrongWith(rule: ClassRule, taken: ReadonlySet<string>): ClassError | null {
  const wrong = (part: ClassError['part'], text: string, message: string, hint: string) => ({
    class: rule.name,
    part,
    error: new FormulaError(message, 0, text.length, hint),
  })
  const { name, colour, symbol } = rule
  const lower = name.normalize('NFC').toLowerCase()
  if (name.trim() === '') return wrong('name', name, 'This class has no name.', 'Give it one.')
  if (lower === NOT_MEASURABLE || lower === UNCLASSIFIED) {
    return wrong(
      'name',
      name,
      `"${name}" already means a station without a class.`,
      'Name the class something else.',
    )
  }
  if (taken.has(lower)) {
    return wrong('name', name, `There are two classes named "${name}".`, 'Rename one of them.')
  }
  if (!/^#[0-9a-fA-F]{6}$/.test(colour)) {
    return wrong(
      'colour',
      colour,
      `"${colour}" is not a colour.`,
      'Write # and six hexadecimal digits, such as #0072B2.',
    )
  }
  if (!SYMBOLS.includes(symbol)) {
    return wrong(
      'symbol',
      symbol,
      `There is no symbol "${symbol}".`,
      `Use one of: ${SYMBOLS.join(', ')}.`,
    )
  }
  return null
}
