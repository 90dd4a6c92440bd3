/** The command line's words. */

export interface Arguments {
  readonly scans: readonly string[]
  readonly places: readonly string[]
  readonly recipe: string | null
  readonly decisions: string | null
  readonly references: string | null
  readonly out: string
  /** Worker threads. */
  readonly threads: number | null
}

export const USAGE = `Usage: npm run map -- [--scans FILE|DIR…] [--places FILE|DIR…] [--recipe FILE]
         [--decisions FILE] [--references DIR] [--threads N] --out DIR
Reads scans and places (folders are walked), and writes tables, GeoJSON and GeoTIFF layers to DIR.`

/** A command line that cannot be understood. */
export class ArgumentError extends Error {}

const LISTS = ['--scans', '--places'] as const
const SINGLES = ['--recipe', '--decisions', '--references', '--out', '--threads'] as const

/**
 * Reads the command line.
 *
 * @throws ArgumentError that says which word is wrong
 */
export function parseArguments(words: readonly string[]): Arguments {
  const found = new Map<string, string[]>()
  let option: string | null = null
  for (const word of words) {
    if (word.startsWith('--')) {
      if (![...LISTS, ...SINGLES].some((known) => known === word)) {
        throw new ArgumentError(`There is no option ${word}.`)
      }
      if (found.has(word)) throw new ArgumentError(`${word} is given twice.`)
      found.set(word, [])
      option = word
    } else if (option === null) {
      throw new ArgumentError(`‘${word}’ stands before any option.`)
    } else found.get(option)?.push(word)
  }
  const single = (name: (typeof SINGLES)[number]): string | null => {
    const values = found.get(name)
    if (!values) return null
    if (values.length !== 1) throw new ArgumentError(`${name} takes exactly one value.`)
    return values[0]
  }
  for (const name of LISTS) {
    if (found.get(name)?.length === 0) throw new ArgumentError(`${name} names no file or folder.`)
  }
  const out = single('--out')
  if (out === null) throw new ArgumentError('--out is missing: where are the layers to go?')
  const scans = found.get('--scans') ?? []
  const places = found.get('--places') ?? []
  if (scans.length + places.length === 0) {
    throw new ArgumentError('Neither --scans nor --places is given: there is nothing to read.')
  }
  return {
    scans,
    places,
    recipe: single('--recipe'),
    decisions: single('--decisions'),
    references: single('--references'),
    out,
    threads: threadsOf(single('--threads')),
  }
}

function threadsOf(text: string | null): number | null {
  if (text === null) return null
  const threads = Number(text)
  if (!Number.isInteger(threads) || threads < 1 || threads > 64) {
    throw new ArgumentError(`--threads takes a whole number from 1 to 64, not ‘${text}’.`)
  }
  return threads
}
