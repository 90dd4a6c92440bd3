import { describe, expect, it } from 'vitest'
import { findMineral, factsOf } from '../../src/minerals/catalogue'
import { fitBands } from '../../src/minerals/fit-bands'
import { fitReference, lostPosition } from '../../src/minerals/fit-reference'
import { modelReflectance } from '../../src/minerals/model'
import { measureFeature } from '../../src/spectra/feature'
import { hasLibrary, readRecords } from './library'

const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)
const known = {
  continuum: [
    [350, -1],
    [700, -0.5],
    [1300, -0.4],
    [2500, -0.7],
  ] as const,
  bands: [
    { position: 900, width: 180, strength: 0.2 },
    { position: 1410, width: 25, strength: 0.25 },
    { position: 1910, width: 60, strength: 0.15 },
    { position: 2205, width: 34, strength: 0.4 },
  ],
}
const reflectance = modelReflectance(known, wavelengths)

function positionOf(values: Float64Array, hull: readonly [number, number]): number {
  const feature = measureFeature({ wavelengths, reflectance: values }, hull)
  return 'missing' in feature ? NaN : feature.position
}

describe('fitBands', () => {
  it('gives back a spectrum made of bands', () => {
    const fit = fitBands({ wavelengths, reflectance }, { diagnostic: [[2100, 2300]] })
    expect(fit.fitError).toBeLessThan(5e-4)
    const deepest = fit.bands.filter((band) => band.position > 2000 && band.strength > 0.1)
    expect(deepest).toHaveLength(1)
    expect(deepest[0].position).toBeCloseTo(2205, 0)
    expect(deepest[0].strength).toBeCloseTo(0.4, 1)
  })

  it('puts a diagnostic minimum where the record has it, though too few bands are allowed', () => {
    // A skewed absorption that three Gaussians cannot follow.
    const skewed = Float64Array.from(wavelengths, (nm) => {
      const t = (nm - 2200) / (nm < 2200 ? 35 : 14)
      return 0.6 * (1 - 0.3 / (1 + t * t) ** 2)
    })
    const hull = [2120, 2260] as const
    const [position, without, kept] = [
      skewed,
      ...[undefined, [{ hull, position: positionOf(skewed, hull) }]].map((minima) =>
        modelReflectance(
          fitBands({ wavelengths, reflectance: skewed }, { maxBands: 3, minima }),
          wavelengths,
        ),
      ),
    ].map((values) => positionOf(values, hull))
    expect(Math.abs(without - position)).toBeGreaterThan(0.3)
    expect(Math.abs(kept - position)).toBeLessThan(0.15)
  })

  it('skips gaps', () => {
    const gapped = reflectance.slice()
    gapped.fill(NaN, 550, 800)
    const fit = fitBands({ wavelengths, reflectance: gapped })
    expect(fit.fitError).toBeLessThan(5e-4)
  })

  it('says what is missing where too few channels have values', () => {
    expect(() => fitBands({ wavelengths, reflectance: new Float64Array(2151) })).toThrow(
      /Only 0 channels/,
    )
  })
})

describe.skipIf(!hasLibrary)('a fit of a library record (Kokaly et al. 2017)', () => {
  // Positions measured with SciPy on the records themselves.
  it.each([
    ['Alunite_HS295.1B_ASDFRa', [1440, 1550], [1440, 1550], 1477.5],
    ['Muscovite_GDS113_Ruby_ASDNGa', [2185, 2225], [2120, 2245], 2197.3],
    ['Calcite_GDS304_75-150um_ASDFRb', [2300, 2370], [2230, 2400], 2339.6],
  ] as const)('keeps %s within 0.004 and its position', (name, search, hull, position) => {
    const record = readRecords('minerals').find((candidate) => candidate.name === name)
    if (!record) throw new Error(`${name} is not in the library`)
    const reference = fitReference(record, null)
    expect(reference.fitError).toBeLessThan(0.001)
    const model = {
      wavelengths: record.wavelengths,
      reflectance: modelReflectance(reference, record.wavelengths),
    }
    const feature = measureFeature(model, search, hull)
    expect('missing' in feature ? NaN : feature.position).toBeCloseTo(position, 0)
  })
})

describe('fitReference', () => {
  it('names the record by the catalogue', () => {
    const reference = fitReference({ name: 'Chrysotile_X1_ASDFRa', wavelengths, reflectance }, null)
    const entry = findMineral('chrysotile')
    if (!entry) throw new Error('the catalogue has no chrysotile')
    expect(reference).toMatchObject({ mineral: 'chrysotile', group: 'serpentine', fibrous: true })
    expect(reference.diagnostic).toEqual(factsOf(entry).diagnostic)
  })
})

describe('lostPosition', () => {
  const record = { name: 'Muscovite_X1_ASDFRa', wavelengths, reflectance }
  const fitted = fitReference(record, null)
  const movedBy = (nm: number) => ({
    ...fitted,
    bands: fitted.bands.map((band) =>
      Math.abs(band.position - 2205) < 60 ? { ...band, position: band.position + nm } : band,
    ),
  })

  it('has nothing to say where every minimum is kept to 1 nm', () => {
    expect(lostPosition(record, fitted)).toBeNull()
    expect(lostPosition(record, movedBy(0.5))).toBeNull()
  })

  it('names the minimum that the bands put elsewhere, and how far', () => {
    expect(lostPosition(record, movedBy(2))).toMatch(/2205 nm minimum \(2120–2245 nm\) 2\.0 nm/)
  })

  it('says so where the bands have no minimum at all', () => {
    const bands = fitted.bands.filter(({ position }) => Math.abs(position - 2205) > 60)
    expect(lostPosition(record, { ...fitted, bands })).toMatch(/nowhere|nm away/)
  })
})
