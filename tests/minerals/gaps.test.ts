import { describe, expect, it } from 'vitest'
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { identify } from '../../src/minerals/identify'
import { modelReflectance } from '../../src/minerals/model'
import { prepareSet, setAsSeen } from '../../src/minerals/prepare'
import { GRID, toGrid } from '../../src/minerals/work-grid'
import type { Spectrum } from '../../src/spectra/spectrum'

const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)
const { references } = await loadBuiltInSet()
const set = prepareSet({ name: '', source: '', references })

function scanOf(record: string): Spectrum {
  const found = references.find((one) => one.record === record)
  if (!found) throw new Error(`${record} is not in the built-in set`)
  return { wavelengths, reflectance: modelReflectance(found, wavelengths) }
}

function cutOut(scan: Spectrum, keeps: (nm: number) => boolean): Spectrum {
  const channels = Array.from(scan.wavelengths.keys()).filter((i) => keeps(scan.wavelengths[i]))
  return {
    wavelengths: Float64Array.from(channels, (i) => scan.wavelengths[i]),
    reflectance: Float64Array.from(channels, (i) => scan.reflectance[i]),
  }
}

function leftEmpty({ wavelengths, reflectance }: Spectrum, keeps: (nm: number) => boolean) {
  return { wavelengths, reflectance: reflectance.map((v, i) => (keeps(wavelengths[i]) ? v : NaN)) }
}

const outsideAir = (nm: number): boolean => !(nm > 1345 && nm < 1450) && !(nm > 1795 && nm < 1965)

describe('a scan with gaps', () => {
  it('knows nothing between channels that a band would fit between', () => {
    const known = toGrid(cutOut(scanOf('Talc_HS21.1B_ASDFRb'), outsideAir))?.known
    const at = (nm: number) => known?.[GRID.findIndex((node) => node >= nm)]
    expect([1300, 1400, 1500, 1780, 1900, 2000].map(at)).toEqual([1, 0, 1, 1, 0, 1])
  })

  it('knows what lies in a gap no wider than coarse channels leave', () => {
    const scan = leftEmpty(scanOf('Talc_HS21.1B_ASDFRb'), (nm) => nm < 2200 || nm > 2220)
    expect(toGrid(scan)?.known.includes(0)).toBe(false)
  })

  it('shares one mask with scans that have the same gaps', () => {
    const [a, b] = ['Talc_HS21.1B_ASDFRb', 'Alunite_HS295.1B_ASDFRa'].map((record) =>
      toGrid(leftEmpty(scanOf(record), outsideAir)),
    )
    expect(a?.known).toBe(b?.known)
    expect(setAsSeen(set, a?.known ?? new Uint8Array())).toBe(
      setAsSeen(set, b?.known ?? new Uint8Array()),
    )
  })

  it('is exactly like its own reference seen through the same gaps', () => {
    const scan = leftEmpty(scanOf('Dolomite_HS102.4B_ASDNGb'), outsideAir)
    const seen = toGrid(scan)
    if (!seen) throw new Error('not on the grid')
    const own = setAsSeen(set, seen.known).references.find(
      ({ record }) => record === 'Dolomite_HS102.4B_ASDNGb',
    )
    const apart = Math.max(
      ...seen.log.map((value, node) => Math.abs(value - (own?.log[node] ?? 0))),
    )
    expect(apart).toBeLessThan(0.01)
  })

  it.each([
    'Kaolinite_KGa-2_(pxl)_ASDNGb',
    'Alunite_HS295.1B_ASDFRa',
    'Diaspore_HS416.3B_ASDFRb',
    'Dolomite_HS102.4B_ASDNGb',
    'Muscovite_GDS116_Tanzania_ASDNGa',
  ])('is named alike where the air’s bands are cut out and left empty: %s', (record) => {
    const scan = scanOf(record)
    const whole = identify(scan, set).minerals[0].group
    expect(identify(cutOut(scan, outsideAir), set).minerals[0].group).toBe(whole)
    expect(identify(leftEmpty(scan, outsideAir), set).minerals[0].group).toBe(whole)
  })

  it('is not named by a mineral none of whose diagnostic ranges it covers', () => {
    const scan = scanOf('Goethite_MPCMA2-B_FineGr_adj_BECKb')
    expect(identify(scan, set).minerals[0].mineral).toBe('goethite')
    const infrared = identify(
      cutOut(scan, (nm) => nm > 1300),
      set,
    )
    expect(infrared.minerals.map(({ mineral }) => mineral)).not.toContain('goethite')
  })
})
