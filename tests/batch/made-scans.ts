/** Scans made from the built-in band tables, each with its place in its header. */
import builtIn from '../../src/minerals/reference-set/built-in.json'
import { modelReflectance } from '../../src/minerals/model'
import { readReferenceSet } from '../../src/minerals/set-file'

const REFERENCES = readReferenceSet(builtIn).references
const WAVELENGTHS = Float64Array.from({ length: 2101 }, (_, i) => 400 + i)

/** Reflectance of a group's first reference from 400 to 2500 nm. */
export function reflectanceOf(group: string): Float64Array {
  const reference = REFERENCES.find((entry) => entry.group === group)
  if (!reference) throw new Error(`no reference of the group ${group}`)
  return modelReflectance(reference, WAVELENGTHS)
}

/** A number from 0 to 1 that looks random and is always the same for a seed and a step. */
function scatter(seed: number, step: number): number {
  const x = Math.sin(seed * 12.9898 + step * 78.233) * 43758.5453
  return x - Math.floor(x)
}

export interface MadeScan {
  readonly group: string
  readonly seed: number
  /** Header lines, `key: value`. */
  readonly header?: Readonly<Record<string, string | number>>
}

/** A scan as two columns of text under its header, with noise of 0.0003 and a brightness of its own. */
export function scanText({ group, seed, header = {} }: MadeScan): string {
  const reflectance = reflectanceOf(group)
  const bright = 0.8 + 0.2 * scatter(seed, -1)
  const lines = Object.entries(header).map(([key, value]) => `${key}: ${value}`)
  lines.push('wavelength nm\treflectance')
  reflectance.forEach((value, i) => {
    const noise = 0.001 * (scatter(seed, i) - 0.5)
    lines.push(`${WAVELENGTHS[i]}\t${(bright * value + noise).toFixed(5)}`)
  })
  return lines.join('\n') + '\n'
}

/** Degrees of a place so many metres east and north of an origin in an invented desert. */
export function degreesAt(east: number, north: number): { latitude: string; longitude: string } {
  const latitude = -24.9 + north / 110_800
  const longitude = -69.25 + east / 101_060
  return { latitude: latitude.toFixed(6), longitude: longitude.toFixed(6) }
}
