import { describe, expect, it } from 'vitest'
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { identify } from '../../src/minerals/identify'
import { modelContinuum, modelReflectance } from '../../src/minerals/model'
import { prepareSet } from '../../src/minerals/prepare'
import type { Reference } from '../../src/minerals/reference'
import { filmOn, WATER_INDEX, withoutFilm } from '../../src/minerals/water'
import { scanShapeOf } from '../../src/minerals/scan-shape'
import { toGrid } from '../../src/minerals/work-grid'

const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)
const logIndex = modelContinuum(
  WATER_INDEX.map(([nm, k]) => [nm, Math.log(k)] as const),
  wavelengths,
)
/** Absorption coefficient, 1/cm: 4πk/λ. */
const absorption = wavelengths.map((nm, i) => (4e7 * Math.PI * Math.exp(logIndex[i])) / nm)
const filmed = (reflectance: Float64Array, micrometres: number): Float64Array =>
  reflectance.map((value, i) => value * Math.exp(-2e-4 * absorption[i] * micrometres))
const white = new Float64Array(wavelengths.length).fill(0.9)
const { references } = await loadBuiltInSet()
const set = prepareSet({ name: '', source: '', references })

function scanOf(record: string): Float64Array {
  const found = references.find((one: Reference) => one.record === record)
  if (!found) throw new Error(`${record} is not in the built-in set`)
  return modelReflectance(found, wavelengths)
}

describe('liquid water', () => {
  // Palmer and Williams 1974 and Kou et al. 1993, from memory, to 15 %.
  it.each([
    [1450, 29],
    [1940, 119],
    [2200, 16.6],
  ])('absorbs at %d nm about %d per centimetre', (nm, perCentimetre) => {
    expect(absorption[nm - 350] / perCentimetre).toBeGreaterThan(0.85)
    expect(absorption[nm - 350] / perCentimetre).toBeLessThan(1.15)
  })

  it('comes off a shape as it lies on the scan', () => {
    const shapeAt = (reflectance: Float64Array) => {
      const onGrid = toGrid({ wavelengths, reflectance })
      if (!onGrid) throw new Error('not on the grid')
      return scanShapeOf(onGrid, 0)
    }
    const dry = shapeAt(scanOf('Alunite_HS295.1B_ASDFRa'))
    const wet = shapeAt(filmed(scanOf('Alunite_HS295.1B_ASDFRa'), 10))
    const off = withoutFilm(wet, 10)
    const apart = Math.max(...off.linear.map((value, node) => Math.abs(value - dry.linear[node])))
    const before = Math.max(...wet.linear.map((value, node) => Math.abs(value - dry.linear[node])))
    expect(apart).toBeLessThan(0.05 * before)
    expect(filmOn(shapeAt(filmed(white, 20)))).toBeCloseTo(20, 0)
  })

  it.each([
    'Muscovite_GDS113_Ruby_ASDNGa',
    'Topaz_HS184.1B_ASDFRb',
    'Topaz_Wigwam_Area_4_#14_BECKb',
  ])('does not change what %s is named', (record) => {
    const dry = identify({ wavelengths, reflectance: scanOf(record) }, set)
    const wet = identify({ wavelengths, reflectance: filmed(scanOf(record), 30) }, set)
    expect(dry.minerals).not.toHaveLength(0)
    expect(wet.minerals[0]?.group).toBe(dry.minerals[0].group)
  })

  it('alone is nothing diagnostic, and asks for a dry scan', () => {
    const { minerals, doubt } = identify({ wavelengths, reflectance: filmed(white, 30) }, set)
    expect(minerals).toEqual([])
    expect(doubt).toMatch(/dry it/)
  })
})

describe('a faint shape', () => {
  const faint = (by: number): Float64Array =>
    scanOf('Alunite_HS295.1B_ASDFRa').map((value) => 0.06 * value ** by)

  it('is named where it matches well, however dark the scan', () => {
    const { minerals } = identify({ wavelengths, reflectance: faint(0.05) }, set)
    expect(minerals[0]?.group).toBe('alunite')
  })

  it('is nothing diagnostic where there is hardly any', () => {
    expect(identify({ wavelengths, reflectance: faint(0.002) }, set).minerals).toEqual([])
  })
})
