/** The shared library records, read for tests without the readers room. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import type { NamedSpectrum } from '../../src/minerals/prepare'

const FOLDER = '../shared/spectra'

/** Whether the shared records are here; tests that need them are skipped where they are not. */
export const hasLibrary = existsSync(`${FOLDER}/minerals`)

function column(path: string): number[] {
  const lines = readFileSync(path, 'utf8').split('\n').slice(1)
  return lines.filter((line) => line.trim() !== '').map(Number)
}

/**
 * All records of a folder, by name.
 *
 * Source: Kokaly et al. 2017, USGS Spectral Library Version 7, doi:10.3133/ds1035.
 */
export function readRecords(folder: 'minerals' | 'mixtures'): NamedSpectrum[] {
  const axes = readdirSync(FOLDER)
    .filter((file) => file.includes('Wavelengths'))
    .map((file) =>
      Float64Array.from(column(`${FOLDER}/${file}`), (micrometres) => 1000 * micrometres),
    )
  const directory = `${FOLDER}/${folder}`
  return readdirSync(directory)
    .sort()
    .map((file) => {
      const values = column(`${directory}/${file}`)
      const wavelengths = axes.find((axis) => axis.length === values.length)
      if (!wavelengths)
        throw new Error(`${file} has ${values.length} values and no axis of that length.`)
      const name = file.replace(/^splib07a_/, '').replace(/_AREF\.txt$/, '')
      const reflectance = Float32Array.from(values, (value) => (value < -1e30 ? NaN : value))
      return { name, wavelengths, reflectance }
    })
}
