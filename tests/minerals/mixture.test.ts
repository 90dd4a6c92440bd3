import { describe, expect, it } from 'vitest'
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { identify } from '../../src/minerals/identify'
import { modelReflectance } from '../../src/minerals/model'
import { prepareSet } from '../../src/minerals/prepare'
import { albedoOf, reflectanceOf } from '../bench/alterations'

const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)
const { references } = await loadBuiltInSet()
const set = prepareSet({ name: '', source: '', references })

function scanOf(record: string): Float64Array {
  const found = references.find((one) => one.record === record)
  if (!found) throw new Error(`${record} is not in the built-in set`)
  return modelReflectance(found, wavelengths)
}

/** Half and half by cross-section within one powder (Hapke 1981). */
function powderOf(...records: readonly [string, string]): Float64Array {
  const [a, b] = records.map(scanOf)
  return wavelengths.map((_, i) => reflectanceOf((albedoOf(a[i]) + albedoOf(b[i])) / 2))
}

const groupsIn = (reflectance: Float64Array): string[] =>
  identify({ wavelengths, reflectance }, set)
    .minerals.map(({ group }) => group)
    .sort()

describe('a powder of an iron mineral and a clay', () => {
  it.each([
    ['Jarosite_GDS98_K_90C_Syn_BECKa', 'Kaolinite_GDS11_lt63um_BECKb', ['jarosite', 'kaolin']],
    ['Jarosite_JR2501_(K)_BECKb', 'Muscovite_GDS111_Guatemala_BECKa', ['jarosite', 'white mica']],
    ['Hematite_FE2602_BECKb', 'Kaolinite_GDS11_lt63um_BECKb', ['hematite', 'kaolin']],
  ])('is both where they explain it far better than either: %s, %s', (iron, clay, both) => {
    expect(groupsIn(powderOf(iron, clay))).toEqual(both)
  })
})

describe('a silent mineral', () => {
  const trace = (times: number) =>
    scanOf('Albite_HS66.4B_Plagioclase_ASDFRc').map((v) => v ** times)

  it('stays silent with as much of its traces as its records show', () => {
    expect(groupsIn(trace(1))).toEqual([])
  })

  it('does not hide a scan that shows many times its traces', () => {
    expect(groupsIn(trace(6))).not.toEqual([])
  })
})

describe('a scan with strong absorptions that no reference has', () => {
  it('is said to absorb clearly, and a flat one is not', () => {
    const without = { references: set.references.filter(({ group }) => group !== 'gibbsite') }
    const gibbsite = { wavelengths, reflectance: scanOf('Gibbsite_HS423.3B_ASDFRb') }
    expect(identify(gibbsite, without)).toMatchObject({
      minerals: [],
      doubt: expect.stringMatching(/absorbs clearly/) as string,
    })
    const flat = { wavelengths, reflectance: new Float64Array(2151).fill(0.4) }
    expect(identify(flat, set).doubt).toBe('')
  })
})
