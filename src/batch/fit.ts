/**
 * Fits a reference set to a folder of library records:
 *
 *   npm run fit -- --library DIR --out FILE [--name NAME] [--source TEXT] [--built-in]
 *
 * Every measurement in the folder becomes a reference, named by the first word of its record
 * through the catalogue; wavelengths may stand in companion files in the folder or above it.
 * With `--built-in` only the records of the built-in set are taken, as this makes it:
 *
 *   npm run fit -- --built-in --library ../shared/spectra/minerals
 *     --name "Aureole’s own" --out src/minerals/reference-set/built-in.json
 *     --source "Fitted to the USGS Spectral Library Version 7 (Kokaly et al. 2017, doi:10.3133/ds1035, public domain)"
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { BUILT_IN_RECORDS } from '../minerals/built-in-records'
import { recordOfFile } from '../minerals/catalogue'
import { fitReference, lostPosition } from '../minerals/fit-reference'
import type { Reference } from '../minerals/reference'
import { writeReferenceSet } from '../minerals/set-file'
import { collectCompanions } from '../readers/companions'
import type { InputFile } from '../readers/input'
import { readFile } from '../readers/read-file'

const USAGE = 'Usage: npm run fit -- --library DIR --out FILE [--name NAME] [--source TEXT]'

/** Runs the command. @returns its exit code: 0 done, 2 nothing could be fitted, 64 wrong call */
export function main(args: readonly string[]): number {
  const option = (name: string): string | null => {
    const at = args.indexOf(`--${name}`)
    return at < 0 ? null : (args[at + 1] ?? null)
  }
  const library = option('library')
  const out = option('out')
  if (!library || !out) {
    console.error(USAGE)
    return 64
  }
  const references = fitFolder(resolve(library), args.includes('--built-in'))
  if (references.length === 0) {
    console.error(`No spectrum could be fitted in ${library}.`)
    return 2
  }
  const name = option('name') ?? basename(library)
  const set = { name, source: option('source') ?? basename(library), references }
  mkdirSync(dirname(out), { recursive: true })
  writeFileSync(out, writeReferenceSet(set))
  report(references)
  return 0
}

/**
 * A reference for each spectrum in the folder; what cannot be fitted is told and left out. So is
 * a record whose bands lose a diagnostic position, unless nothing else stands for its mineral
 * and variety.
 */
function fitFolder(folder: string, builtInOnly: boolean): Reference[] {
  const varieties = new Map(BUILT_IN_RECORDS)
  const companions = collectCompanions([...filesIn(folder), ...filesIn(dirname(folder))])
  const references: Reference[] = []
  const lost = new Map<Reference, string>()
  for (const file of filesIn(folder)) {
    const record = recordOfFile(file.path)
    if (builtInOnly && !varieties.has(record)) continue
    const { scans, problems } = readFile(file, companions)
    for (const { problem, done } of problems) console.error(`${record}: ${problem}; ${done}`)
    for (const scan of scans) {
      const name = scans.length > 1 ? scan.name : record
      try {
        const named = { ...scan, name }
        const reference = fitReference(named, varieties.get(record) ?? null)
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

function filesIn(folder: string): InputFile[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(folder, entry.name))
    .sort()
    .map((path) => ({ path, bytes: readFileSync(path) }))
}

function report(references: readonly Reference[]): void {
  const errors = references.map((reference) => reference.fitError).sort((a, b) => a - b)
  const minerals = new Set(references.map((reference) => reference.mineral))
  console.log(
    `${references.length} references of ${minerals.size} minerals; root-mean-square error of reflectance: median ${errors[errors.length >> 1]}, largest ${errors[errors.length - 1]}`,
  )
}
