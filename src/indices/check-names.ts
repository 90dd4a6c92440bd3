/** Names and arguments of a call, checked where they stand. */
import type { WavelengthRange } from '../spectra/feature'
import { FormulaError } from './formula-error'
import { FUNCTIONS, functionNamed, type FormulaFunction } from './functions'
import { nearestName, type NameSets } from './known-names'
import type { CallNode, FormulaNode, Place } from './syntax'

/** Longest wavelength that a formula may name, nm. */
const LONGEST_NM = 100_000

/**
 * The function that a call names.
 *
 * @throws FormulaError where there is no such function or the count of arguments is wrong.
 */
export function checkedFunction(call: CallNode): FormulaFunction {
  const found = functionNamed(call.name)
  if (!found) {
    const names = FUNCTIONS.map((entry) => entry.name)
    throw unknownName(`There is no function "${call.name}".`, call.name, names, call.nameAt)
  }
  const open = found.counts.at(-1) === Infinity
  const fits = open ? call.args.length >= found.counts[0] : found.counts.includes(call.args.length)
  if (fits) return found
  const wanted = open ? `${found.counts[0]} or more` : found.counts.join(' or ')
  const extra =
    call.args.length > Math.max(...found.counts) ? call.args[Math.max(...found.counts)] : null
  throw new FormulaError(
    `${call.name} takes ${wanted} ${wanted === '1' ? 'value' : 'values'}, not ${call.args.length}.`,
    extra ? extra.from : call.nameAt.from,
    call.to,
    `Write ${found.form}.`,
  )
}

/** The ranges of a feature: search, and hull where a second pair stands. */
export function checkedFeature(call: CallNode): [search: WavelengthRange, hull: WavelengthRange] {
  const search = checkedRange(call, 0)
  if (call.args.length === 2) return [search, search]
  const hull = checkedRange(call, 2)
  if (hull[0] > search[0] || hull[1] < search[1]) {
    throw new FormulaError(
      'The hull range does not hold the search range.',
      call.args[2].from,
      call.args[3].to,
      `Take the hull from ${search[0]} nm or less to ${search[1]} nm or more.`,
    )
  }
  return [search, hull]
}

/** Two arguments as a range of wavelengths, nm. */
export function checkedRange(call: CallNode, first: number): WavelengthRange {
  const from = checkedWavelength(call.args[first])
  const to = checkedWavelength(call.args[first + 1])
  if (from >= to) {
    throw new FormulaError(
      `The range from ${from} to ${to} nm holds nothing.`,
      call.args[first].from,
      call.args[first + 1].to,
      'Write the shorter wavelength first.',
    )
  }
  return [from, to]
}

/** An argument as a wavelength, nm. */
export function checkedWavelength(node: FormulaNode): number {
  if (node.kind !== 'number') {
    throw new FormulaError(
      'A wavelength must be written as a number here.',
      node.from,
      node.to,
      'Write it in nm, such as 2200.',
    )
  }
  if (node.value < 100 || node.value > LONGEST_NM) {
    throw new FormulaError(
      `${node.value} nm is not a wavelength that is measured.`,
      node.from,
      node.to,
      'Write wavelengths in nm: 2.2 µm is 2200.',
    )
  }
  return node.value
}

/** The name that `share`, `group`, `fit` or `column` asks for, where it is known. */
export function checkedName(call: CallNode, known: NameSets): string {
  const [node] = call.args
  if (node.kind !== 'text') {
    throw new FormulaError(
      `${call.name} takes a name in double quotes.`,
      node.from,
      node.to,
      `Write ${functionNamed(call.name)?.form}.`,
    )
  }
  const name = node.value.normalize('NFC')
  const [names, noun] = namesFor(call.name, known)
  if (names && !names.has(name)) {
    throw unknownName(`There is no ${noun} "${name}".`, name, names, node)
  }
  return name
}

function namesFor(
  functionName: string,
  known: NameSets,
): [names: ReadonlySet<string> | null, noun: string] {
  if (functionName === 'group') return [known.groups, 'group']
  if (functionName === 'column') return [known.columns, 'column']
  return [known.minerals, 'mineral']
}

/** The error for a name that is not known, with the nearest known ones as the hint. */
export function unknownName(
  message: string,
  name: string,
  known: Iterable<string>,
  place: Place,
): FormulaError {
  const nearest = nearestName(name, known)
  return new FormulaError(
    message,
    place.from,
    place.to,
    nearest ? `Did you mean "${nearest}"?` : listed(known),
  )
}

function listed(known: Iterable<string>): string {
  const names = [...known]
  if (names.length === 0) return 'None is known yet.'
  const shown = names.slice(0, 12).join(', ')
  return `Known: ${shown}${names.length > 12 ? ` and ${names.length - 12} more` : ''}.`
}
