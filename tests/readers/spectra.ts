/** Synthetic scans as text, for the readers' tests. The numbers are invented. */
import type { InputFile, Layout, ReadResult } from '../../src/readers/input'
import { NO_COMPANIONS, readFile } from '../../src/readers/read-file'

/** 350 to 2500 nm by 50: 44 wavelengths. */
export const WAVELENGTHS = Array.from({ length: 44 }, (_, i) => 350 + 50 * i)

/** A smooth reflectance of four decimals, another for each `kind`. */
export function reflectanceAt(nm: number, kind = 0): number {
  const curve = 0.35 + 0.0001 * (nm - 350) - 0.12 * Math.exp(-(((nm - 2200) / 60) ** 2))
  return Number((curve + 0.02 * kind).toFixed(4))
}

export interface TwoColumns {
  readonly separator?: string
  readonly decimal?: '.' | ','
  readonly newline?: string
  readonly heading?: string
  readonly wavelength?: (nm: number) => number
  readonly reflectance?: (fraction: number) => number
}

/** A two-column text of the synthetic scan. */
export function twoColumns({
  separator = '\t',
  decimal = '.',
  newline = '\n',
  heading,
  wavelength = (nm) => nm,
  reflectance = (fraction) => fraction,
}: TwoColumns = {}): string {
  const rows = WAVELENGTHS.map((nm) =>
    [wavelength(nm), Number(reflectance(reflectanceAt(nm)).toFixed(6))]
      .map((value) => String(value).replace('.', decimal))
      .join(separator),
  )
  return [...(heading === undefined ? [] : [heading]), ...rows].join(newline) + newline
}

export function bytesOf(text: string): Uint8Array {
  return new TextEncoder().encode(text)
}

export function fileOf(text: string | Uint8Array, path = 'day 1/scan.txt'): InputFile {
  return { path, bytes: typeof text === 'string' ? bytesOf(text) : text }
}

export function readTextOf(text: string, overrides: Partial<Layout> = {}): ReadResult {
  return readFile(fileOf(text), NO_COMPANIONS, overrides)
}
