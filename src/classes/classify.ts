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
import { compileFormula, type CompiledFormula } from '../indices/compile'
import type { ValueContext } from '../indices/context'
import { holds } from '../indices/evaluate'
import { FormulaError } from '../indices/formula-error'
import type { KnownNames } from '../indices/known-names'
import { spectralLeaves, type SpectralLeaf } from '../indices/leaves'
import { NOT_MEASURABLE, SYMBOLS, UNCLASSIFIED, type ClassRule } from './rule'

/** What class rules may speak of: minerals, groups, columns, and the indices by name. */
export type ClassNames = KnownNames & { readonly indices: Iterable<string> }

export interface CompiledClass {
  readonly rule: ClassRule
  readonly condition: CompiledFormula
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
  /** A rule with an error is left out of `classes`. */
  readonly errors: readonly ClassError[]
  /** What all of them read off a spectrum. */
  readonly leaves: readonly SpectralLeaf[]
}

/** Compiles the recipe's classes; what is wrong with one never stops the others. */
export function compileClasses(rules: readonly ClassRule[], known: ClassNames): ClassSet {
  const classes: CompiledClass[] = []
  const errors: ClassError[] = []
  const taken = new Set<string>()
  const names: ClassNames = {
    minerals: [...known.minerals],
    groups: [...known.groups],
    columns: known.columns && [...known.columns],
    indices: [...known.indices],
  }
  for (const rule of rules) {
    const wrong = wrongWith(rule, taken)
    taken.add(rule.name.normalize('NFC').toLowerCase())
    if (wrong) errors.push(wrong)
    else {
      try {
        classes.push({ rule, condition: compileFormula(rule.when, names, 'boolean') })
      } catch (error) {
        if (!(error instanceof FormulaError)) throw error
        errors.push({ class: rule.name, part: 'when', error })
      }
    }
  }
  const leaves = spectralLeaves(...classes.map(({ condition }) => condition))
  return { classes, errors, leaves }
}

/** The class of a scan or station: a rule's name, `not measurable` or `unclassified`. */
export function classify(set: ClassSet, context: ValueContext): string {
  let unknown = false
  for (const { rule, condition } of set.classes) {
    const held = holds(condition, context)
    if (held) return rule.name
    if (held === null) unknown = true
  }
  return unknown ? NOT_MEASURABLE : UNCLASSIFIED
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
