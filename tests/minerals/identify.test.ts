import { describe, expect, it } from 'vitest'
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { identify } from '../../src/minerals/identify'
import { modelReflectance } from '../../src/minerals/model'
import { featureFit } from '../../src/minerals/feature-fit'
import { joinSets, prepareSet, referencesFromScans } from '../../src/minerals/prepare'

const set = await loadBuiltInSet()
const prepared = prepareSet(set)
const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)

describe('the built-in set', () => {
  it('holds at least 90 minerals and varieties', () => {
    const kinds = new Set(set.references.map(({ mineral, variety }) => `${mineral} ${variety}`))
    expect(kinds.size).toBeGreaterThanOrEqual(90)
  })

  it('keeps each fit within 0.004 reflectance, the median within 0.002, and 40 bands', () => {
    const errors = set.references.map((reference) => reference.fitError).sort((a, b) => a - b)
    expect(errors[errors.length - 1]).toBeLessThanOrEqual(0.004)
    expect(errors[errors.length >> 1]).toBeLessThanOrEqual(0.002)
    for (const { bands } of set.references) expect(bands.length).toBeLessThanOrEqual(40)
  })
})

describe('identify', () => {
  it('names the group of every speaking reference and none of a silent one', () => {
    const wrong = set.references.filter((reference) => {
      const reflectance = modelReflectance(reference, wavelengths)
      const { minerals } = identify({ wavelengths, reflectance }, prepared)
      return reference.silent ? minerals.length > 0 : minerals[0]?.group !== reference.group
    })
    expect(wrong.length / set.references.length).toBeLessThan(0.03)
  })

  it('finds nothing diagnostic in a flat scan', () => {
    const reflectance = new Float64Array(wavelengths.length).fill(0.4)
    expect(identify({ wavelengths, reflectance }, prepared).minerals).toEqual([])
  })

  it('names both parts of a mixture', () => {
    const log = new Float64Array(wavelengths.length)
    for (const record of ['Kaolinite_KGa-2_(pxl)_ASDNGb', 'Alunite_HS295.3B_ASDFRa'])
      modelOf(record).forEach((value, i) => (log[i] += Math.log(value) / 2))
    const { minerals } = identify({ wavelengths, reflectance: log.map(Math.exp) }, prepared)
    expect(minerals.map((mineral) => mineral.group).sort()).toEqual(['alunite', 'kaolin'])
    expect(minerals.reduce((sum, mineral) => sum + mineral.share, 0)).toBeCloseTo(1, 9)
    for (const { share, fit } of minerals) {
      expect(share).toBeGreaterThan(0.2)
      expect(fit).toBeGreaterThan(0)
      expect(fit).toBeLessThanOrEqual(1)
    }
  })

  it('is not moved by albedo', () => {
    const dark = modelOf('Talc_HS21.1B_ASDFRb').map((value) => value * 0.2)
    expect(identify({ wavelengths, reflectance: dark }, prepared).minerals[0].mineral).toBe('talc')
  })

  it('finds nothing diagnostic in noise on a flat continuum', () => {
    const draw = normalDraws(7)
    let named = 0
    for (let trial = 0; trial < 200; trial++) {
      const noise = 0.4 / [100, 50, 25, 10][trial % 4]
      const reflectance = Float64Array.from(wavelengths, () => 0.4 + noise * draw())
      if (identify({ wavelengths, reflectance }, prepared).minerals.length > 0) named++
    }
    expect(named).toBeLessThanOrEqual(1)
  })

  it('compares in the ranges that a user gives at once', () => {
    const scan = { wavelengths, reflectance: modelOf('Epidote_GDS26.b_lt75um_ASDNGb') }
    const ranges = new Map([['epidote', [[1000, 1100]] as const]])
    const usual = identify(scan, prepared)
    expect(usual.minerals[0].mineral).toBe('epidote')
    expect(usual.minerals[0].fit).toBeGreaterThan(0.99)
    expect(identify(scan, prepared, { ranges })).not.toEqual(usual)
  })

  it('leaves out a reference that is switched off, and joins sets', () => {
    const scan = { wavelengths, reflectance: modelOf('Zunyite_GDS241B_lt150um_BECKu') }
    expect(identify(scan, prepared).minerals[0].mineral).toBe('zunyite')
    const without = joinSets([prepared], new Set(['Zunyite_GDS241B_lt150um_BECKu']))
    expect(identify(scan, without).minerals[0]?.mineral).not.toBe('zunyite')
    const own = referencesFromScans([{ ...scan, name: 'Zunyite_mine_1' }])
    expect(identify(scan, joinSets([without, own])).minerals[0].record).toBe('Zunyite_mine_1')
  })

  it('answers nothing for a scan without values and for an empty set', () => {
    const empty = { wavelengths, reflectance: new Float64Array(2151).fill(NaN) }
    expect(identify(empty, prepared).minerals).toEqual([])
    const talc = { wavelengths, reflectance: modelOf('Talc_HS21.1B_ASDFRb') }
    expect(identify(talc, { references: [] }).minerals).toEqual([])
  })

  it('says which band cannot decide between look-alikes', () => {
    const of = (group: string, record: string): (typeof prepared.references)[number][] =>
      prepared.references.filter((r) => r.record === record).map((r) => ({ ...r, group }))
    const [mica] = of('white mica', 'Muscovite_GDS116_Tanzania_ASDNGa')
    const [other] = of('smectite', 'Muscovite_GDS116a_Tanzania_ASDNGa')
    const pair = { references: [mica, { ...other, mineral: 'look-alike' }] }
    const scan = { wavelengths, reflectance: modelOf('Muscovite_GDS116_Tanzania_ASDNGa') }
    expect(identify(scan, pair).doubt).toMatch(/^white mica or smectite: .* cannot decide/)
    expect(identify(scan, { references: [mica] }).doubt).toBe('')
  })
})

describe('featureFit', () => {
  it('is 1 for a reference against itself at any strength and 0 for it upside down', () => {
    const [first] = prepared.references.filter(({ mineral }) => mineral === 'alunite')
    const upside = first.log.map((value) => -value)
    expect(featureFit(first.log, first.log, first.diagnostic)).toBeCloseTo(1, 9)
    expect(featureFit(upside, first.log, [[1400, 1550]])).toBeLessThan(0.2)
  })
})

function modelOf(record: string): Float64Array {
  const reference = set.references.find((candidate) => candidate.record === record)
  if (!reference) throw new Error(`${record} is not in the built-in set`)
  return modelReflectance(reference, wavelengths)
}

/** Standard normal draws (Box and Muller 1958) from a 32-bit congruential generator. */
function normalDraws(seed: number): () => number {
  let state = seed >>> 0
  const uniform = (): number => {
    state = (Math.imul(1664525, state) + 1013904223) >>> 0
    return (state + 0.5) / 2 ** 32
  }
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
}
