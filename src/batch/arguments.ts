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

/** What each option is for, and how the command ends. */
export const HELP = `${USAGE}

  --scans       spectra; without them, tables alone are mapped
  --places      sample tables, GPS tracks, collars and surveys, elevation models, outlines
  --recipe      how places are read; indices, classes and surfaces
  --decisions   what was changed by hand
  --references  measured records, saved reference sets, or both, in place of the built-in ones
  --threads     workers, 1 to 64; changes the time and nothing else
  --out         the folder of the layers; it is made where there is none

Ends with 0 when something was read, 2 when nothing could be, 64 for a wrong command line, recipe,
decisions or references, 74 when the layers could not be written.`

/** Something that the command was told to do and cannot: a wrong word, or a file that it names. */
export class ArgumentError extends Error {}

const LISTS = ['--scans', '--places'] as const
const SINGLES = ['--recipe', '--decisions', '--references', '--out', '--threads'] as const
const OPTIONS: readonly string[] = [...LISTS, ...SINGLES]

/** Whether the words ask how the command is used. */
export function asksForHelp(words: readonly string[]): boolean {
  return words.includes('--help') || words.includes('-h')
}

/**
 * Reads the command line.
 *
 * @throws ArgumentError that says which word is wrong
 */
export function parseArguments(words: readonly string[]): Arguments {
  const found = valuesByOption(words)
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

function valuesByOption(words: readonly string[]): Map<string, string[]> {
  const found = new Map<string, string[]>()
  let option: string | null = null
  for (const word of words) {
    if (word.startsWith('--')) {
      if (!OPTIONS.includes(word)) throw new ArgumentError(noSuchOption(word))
      if (found.has(word)) throw new ArgumentError(`${word} is given twice.`)
      found.set(word, [])
      option = word
    } else if (option === null) {
      throw new ArgumentError(`‘${word}’ stands before any option.`)
    } else if (word.trim() === '') {
      throw new ArgumentError(`${option} is given an empty name: is a variable not set?`)
    } else found.get(option)?.push(word)
  }
  return found
}

function noSuchOption(word: string): string {
  const [name, value] = word.split(/=(.*)/s)
  const joined = value !== undefined && OPTIONS.includes(name)
  return joined
    ? `${name} and its value are two words: ${name} ${value}`
    : `There is no option ${word}.`
}

function threadsOf(text: string | null): number | null {
  if (text === null) return null
  const threads = Number(text)
  if (!/^\d+$/.test(text) || threads < 1 || threads > 64) {
    throw new ArgumentError(`--threads takes a whole number from 1 to 64, not ‘${text}’.`)
  }
  return threads
}
