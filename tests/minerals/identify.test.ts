import { describe, expect, it } from 'vitest'
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { identify } from '../../src/minerals/identify'
import { modelReflectance } from '../../src/minerals/model'
import { prepareSet } from '../../src/minerals/prepare'

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
})
