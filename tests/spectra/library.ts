/**
 * The part of the USGS Spectral Library Version 7 that lies beside the project (Kokaly et al.
 * 2017, USGS Data Series 1035): a parser of its own, so that these tests stand on no reader.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Spectrum } from '../../src/spectra/spectrum'

const FOLDER = join(process.cwd(), '../shared/spectra')

/** Tests of library records are skipped where the folder is absent. */
export const libraryMissing = !existsSync(FOLDER)
if (libraryMissing) console.warn(`Tests on library records are skipped: no ${FOLDER}`)

/** Names of the records of `minerals` or `mixtures`, sorted. */
export function libraryNames(kind: 'minerals' | 'mixtures' = 'minerals'): string[] {
  return libraryMissing ? [] : readdirSync(join(FOLDER, kind)).sort()
}

/** The one record whose name begins as given (after the library's prefix). */
export function libraryRecord(
  beginning: string,
  kind: 'minerals' | 'mixtures' = 'minerals',
): Spectrum {
  const found = libraryNames(kind).filter((name) =>
    name.startsWith(beginning.startsWith('splib') ? beginning : `splib07a_${beginning}`),
  )
  if (found.length !== 1) throw new Error(`${found.length} records begin with ${beginning}`)
  const reflectance = Float32Array.from(numbers(join(kind, found[0])), (value) =>
    value < -1e30 ? NaN : value,
  )
  return { wavelengths: axis(found[0].includes('_BECK')), reflectance }
}

const axes = new Map<boolean, Float64Array>()

function axis(beckman: boolean): Float64Array {
  const file = beckman
    ? 'splib07a_Wavelengths_BECK_Beckman_0.2-3.0_microns.txt'
    : 'splib07a_Wavelengths_ASD_0.35-2.5_microns_2151_ch.txt'
  const known = axes.get(beckman)
  if (known) return known
  const read = Float64Array.from(numbers(file), (micrometres) => micrometres * 1000)
  axes.set(beckman, read)
  return read
}

function numbers(file: string): number[] {
  return readFileSync(join(FOLDER, file), 'utf8').trim().split(/\r?\n/).slice(1).map(Number)
}
