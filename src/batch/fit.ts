/**
 * Fits a reference set to a folder of library records:
 *
 *   npm run fit -- --library DIR --out FILE [--name NAME] [--source TEXT] [--built-in]
 *
 * Every measurement in the folder and those in it becomes a reference, named by the first word of
 * its record through the catalogue; wavelengths may stand in companion files beside the records or
 * above them.
 * With `--built-in` only the records of the built-in set are taken, as this makes it:
 *
 *   npm run fit -- --built-in --library ../shared/spectra/minerals
 *     --name "Aureole’s own" --out src/minerals/reference-set/built-in.json
 *     --source "Fitted to the USGS Spectral Library Version 7 (Kokaly et al. 2017, doi:10.3133/ds1035, public domain)"
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { BUILT_IN_RECORDS } from '../minerals/built-in-records'
import { recordOfFile, recordOfScan } from '../minerals/catalogue'
import { fitReference, lostPosition } from '../minerals/fit-reference'
import type { Reference } from '../minerals/reference'
import { writeReferenceSet } from '../minerals/set-file'
import { collectCompanions } from '../readers/companions'
import type { InputFile } from '../readers/input'
import { readFile } from '../readers/read-file'
import { asksForHelp } from './arguments'
import { systemWords } from './system-words'
import { walk } from './walk'

const USAGE = 'Usage: npm run fit -- --library DIR --out FILE [--name NAME] [--source TEXT]'

const VALUES = ['--library', '--out', '--name', '--source'] as const
type Options = Partial<Record<(typeof VALUES)[number], string>>

/** Runs the command. @returns its exit code: 0 done or helped, 2 nothing could be fitted, 64 wrong call */
export function main(words: readonly string[]): number {
  if (asksForHelp(words)) {
    console.log(USAGE)
    return 0
  }
  const options: Options = {}
  for (let at = 0; at < words.length; at++) {
    const word = words[at]
    if (word === '--built-in') continue
    const option = VALUES.find((name) => name === word)
    const value = words.at(at + 1)
    if (option === undefined) return wrongCall(`There is no option ${word}.`)
    if (value === undefined || value.startsWith('--')) return wrongCall(`${word} names nothing.`)
    options[option] = value
    at++
  }
  const { '--library': library, '--out': out } = options
  if (library === undefined || out === undefined)
    return wrongCall('--library and --out are wanted both.')
  try {
    mkdirSync(dirname(out), { recursive: true })
  } catch (error) {
    return wrongCall(`The folder of ${out} cannot be made: ${systemWords(error)}`)
  }
  let references: Reference[]
  try {
    references = fitFolder(resolve(library), words.includes('--built-in'))
  } catch (error) {
    return wrongCall(`The library ${library} cannot be read: ${systemWords(error)}`)
  }
  if (references.length === 0) {
    console.error(`No spectrum could be fitted in ${library}.`)
    return 2
  }
  const source = options['--source'] ?? basename(library)
  const set = { name: options['--name'] ?? basename(library), source, references }
  try {
    writeFileSync(out, writeReferenceSet(set))
  } catch (error) {
    return wrongCall(`The set ${out} cannot be written: ${systemWords(error)}`)
  }
  report(references)
  return 0
}

function wrongCall(why: string): number {
  console.error(`${why}\n${USAGE}`)
  return 64
}

/**
 * A reference for each spectrum in the folder and those in it; what cannot be fitted is told and left out. So is
 * a record whose bands lose a diagnostic position, unless nothing else stands for its mineral
 * and variety.
 */
function fitFolder(folder: string, builtInOnly: boolean): Reference[] {
  const varieties = new Map(BUILT_IN_RECORDS)
  const { files, problems: unread } = walk(folder)
  for (const { file, problem, done } of unread) console.error(`${file}: ${problem}; ${done}`)
  const library = files.map(({ at }) => at).sort()
  const companions = collectCompanions(opened([...filesIn(dirname(folder)), ...library]))
  const references: Reference[] = []
  const lost = new Map<Reference, string>()
  for (const file of opened(library)) {
    if (builtInOnly && !varieties.has(recordOfFile(file.path))) continue
    const { scans, problems } = readFile(file, companions)
    for (const { problem, done } of problems) console.error(`${file.path}: ${problem}; ${done}`)
    for (const scan of scans) {
      const name = recordOfScan(file.path, scan.name, scans.length === 1)
      try {
        const named = { ...scan, name }
        const reference = fitReference(named, varieties.get(name) ?? null)
        const reason = lostPosition(named, reference)
        if (reason) lost.set(reference, reason)
        references.push(reference)
      } catch (error) {
        console.error(`${name}: ${error instanceof Error ? error.message : String(error)}`)
      }
    }
  }
  return withoutLost(references, lost)
}

/** The references without those that lost a position, where others stand for the same variety. */
function withoutLost(
  references: readonly Reference[],
  lost: ReadonlyMap<Reference, string>,
): Reference[] {
  return references.filter((reference) => {
    const reason = lost.get(reference)
    if (!reason) return true
    const { mineral, variety, record } = reference
    const hasOther = references.some(
      (other) => !lost.has(other) && other.mineral === mineral && other.variety === variety,
    )
    const done = hasOther ? 'left out' : `kept, as nothing else stands for ${mineral}`
    console.error(`${record}: ${reason}; ${done}`)
    return !hasOther
  })
}

/** The files of a folder alone, by their paths. */
function filesIn(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(folder, entry.name))
}

/** Files opened one after another, so that a large library is not in memory at once. */
function* opened(paths: readonly string[]): Generator<InputFile> {
  for (const path of paths) yield { path, bytes: readFileSync(path) }
}

function report(references: readonly Reference[]): void {
  const errors = references.map((reference) => reference.fitError).sort((a, b) => a - b)
  const minerals = new Set(references.map((reference) => reference.mineral))
  console.log(
    `${references.length} references of ${minerals.size} minerals; root-mean-square error of reflectance: median ${errors[errors.length >> 1]}, largest ${errors[errors.length - 1]}`,
  )
}
