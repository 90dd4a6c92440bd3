import { describe, expect, it } from 'vitest'
import { mineralOfRecord, sampleOfRecord } from '../../src/minerals/catalogue'
import { identify } from '../../src/minerals/identify'
import { referencesFromScans, type NamedSpectrum } from '../../src/minerals/prepare'
import { hasLibrary, readRecords } from './library'

const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)

type Band = readonly [position: number, width: number, strength: number]

/** A scan with Gaussian absorptions on a level continuum. */
function scanOf(name: string, bands: readonly Band[]): NamedSpectrum {
  const reflectance = Float32Array.from(wavelengths, (nm) => {
    const depths = bands.map(
      ([at, width, strength]) => strength * Math.exp(-4 * Math.LN2 * ((nm - at) / width) ** 2),
    )
    return 0.6 * Math.exp(-depths.reduce((sum, depth) => sum + depth, 0))
  })
  return { name, wavelengths, reflectance }
}

// Positions are those of the library's chlorites and phlogopites; strengths are invented.
const CHLORITE: readonly Band[] = [
  [1395, 20, 0.1],
  [2000, 120, 0.15],
  [2250, 30, 0.2],
  [2330, 60, 0.3],
]
const MICA: readonly Band[] = [
  [1380, 15, 0.1],
  [2250, 25, 0.04],
  [2327, 35, 0.3],
  [2385, 30, 0.12],
]

describe('chlorite beside biotite–phlogopite', () => {
  const set = referencesFromScans([
    scanOf('Chlorite_A1', CHLORITE),
    scanOf('Phlogopite_B1', MICA),
    scanOf('Kaolinite_C1', [
      [1412, 20, 0.2],
      [2206, 40, 0.4],
    ]),
  ])

  it('leaves a mica a mica', () => {
    expect(identify(scanOf('scan', MICA), set).minerals[0].group).toBe('biotite–phlogopite')
  })

  it('is told by the 2250 nm band where all the rest is like mica', () => {
    const strong = MICA.map(([at, width, depth]): Band => [at, width, at === 2250 ? 0.2 : depth])
    expect(identify(scanOf('scan', strong), set).minerals[0].group).toBe('chlorite')
  })

  it('is not told by noise', () => {
    const faint = MICA.map(([at, width, depth]): Band => [at, width, depth / 5])
    const seen = identify(scanOf('scan', faint), set, { noise: 0.05 })
    expect(seen.minerals.map(({ group }) => group)).not.toContain('chlorite')
  })

  // The library's own word for these records (Kokaly et al. 2017, doi:10.3133/ds1035).
  it.skipIf(!hasLibrary)('agrees with the library on measured records of other samples', () => {
    const records = readRecords('minerals')
    const all = referencesFromScans(records)
    const asked = records.filter(({ name }) => /^(Chlorite_HS179\.[1-4]B|Biotite)/.test(name))
    for (const record of asked) {
      const sample = sampleOfRecord(record.name)
      const others = { references: all.references.filter((r) => r.sample !== sample) }
      const [first] = identify(record, others).minerals
      expect(first.group, record.name).toBe(mineralOfRecord(record.name).group)
    }
    expect(asked).toHaveLength(5)
  })
})
