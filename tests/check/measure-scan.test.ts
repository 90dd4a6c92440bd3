/** What is worked out once an axis must not carry anything from one scan to the next. */
import { describe, expect, test } from 'vitest'
import { measureScan } from '../../src/check/measure-scan'
import type { Spectrum } from '../../src/spectra/spectrum'
import { normal } from '../spectra/chance'
import { libraryMissing, libraryNames, libraryRecord } from '../spectra/library'

describe.skipIf(libraryMissing)('scans on one axis', () => {
  const scans = libraryNames()
    .filter((name) => name.includes('_ASD'))
    .filter((_, i) => i % 12 === 0)
    .map((name, i) => holed(libraryRecord(name), i))

  test('measure as they do alone, in whatever order, gaps and all', () => {
    const together = scans.map(measureScan)
    const alone = scans.map(({ wavelengths, reflectance }) =>
      measureScan({ wavelengths: wavelengths.slice(), reflectance: reflectance.slice() }),
    )
    const backwards = [...scans].reverse().map(measureScan).reverse()
    expect(together).toEqual(alone)
    expect(backwards).toEqual(alone)
  })
})

/** Every other scan noisy, every third with gaps in other places. */
function holed({ wavelengths, reflectance }: Spectrum, seed: number): Spectrum {
  const next = normal(seed + 1)
  const values = reflectance.map((value) => value + (seed % 2 === 0 ? 0.001 * next() : 0))
  if (seed % 3 === 0) {
    for (let k = 0; k < 6; k++) values.fill(NaN, 97 * seed + 311 * k, 97 * seed + 311 * k + 1 + k)
  }
  return { wavelengths, reflectance: values }
}
