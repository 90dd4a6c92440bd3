/**
 * Fits a reference set to a folder of library records:
 *
 *   npm run fit -- --library DIR --out FILE [--name NAME] [--source TEXT] [--all]
 *
 * Every measurement in the folder becomes a reference, named by the first word of its record
 * through the catalogue. With `--built-in` only the records of the built-in set are taken.
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { BUILT_IN_RECORDS } from '../minerals/built-in-records'
import { fitReference } from '../minerals/fit-reference'
import type { Reference } from '../minerals/reference'
import { writeReferenceSet } from '../minerals/set-file'
import type { Spectrum } from '../spectra/spectrum'

interface Record_ extends Spectrum {
  readonly name: string
}

function values(path: string): number[] {
  return readFileSync(path, 'utf8')
    .split('\n')
    .slice(1)
    .map((line) => line.trim())
    .filter((line) => line.length > 0)
    .map(Number)
}

/** Until the readers room reads companion files, this reads the library's layout here. */
function readLibrary(folder: string): Record_[] {
  const above = dirname(folder)
  const axes = new Map<number, Float64Array>()
  for (const file of [folder, above].flatMap((dir) => readdirSync(dir).map((f) => join(dir, f)))) {
    if (!/Wavelengths/.test(basename(file))) continue
    const axis = Float64Array.from(values(file), (micrometres) => micrometres * 1000)
    axes.set(axis.length, axis)
  }
  return readdirSync(folder)
    .filter((file) => file.endsWith('.txt') && !/Wavelengths|Bandpass/.test(file))
    .sort()
    .flatMap((file) => {
      const reflectance = Float32Array.from(values(join(folder, file)), (value) =>
        value < -1e30 ? NaN : value,
      )
      const wavelengths = axes.get(reflectance.length)
      const name = basename(file, '.txt')
        .replace(/^splib\d+[a-z]_/, '')
        .replace(/_AREF$/, '')
      return wavelengths ? [{ name, wavelengths, reflectance }] : []
    })
}

/** Runs the command. @returns its exit code */
export function main(args: readonly string[]): number {
  const option = (name: string): string | null => {
    const at = args.indexOf(`--${name}`)
    return at < 0 ? null : (args[at + 1] ?? null)
  }
  const library = option('library')
  const out = option('out')
  if (!library || !out) {
    console.error('Usage: npm run fit -- --library DIR --out FILE [--name NAME] [--built-in]')
    return 64
  }
  const varieties = new Map(BUILT_IN_RECORDS)
  const records = readLibrary(library).filter(
    (record) => !args.includes('--built-in') || varieties.has(record.name),
  )
  const references: Reference[] = records.map((record) =>
    fitReference(record, varieties.get(record.name) ?? null),
  )
  const set = {
    name: option('name') ?? basename(library),
    source: option('source') ?? library,
    references,
  }
  mkdirSync(dirname(out), { recursive: true })
  writeFileSync(out, writeReferenceSet(set))
  console.log(`${references.length} references written to ${out}`)
  return references.length > 0 ? 0 : 2
}
