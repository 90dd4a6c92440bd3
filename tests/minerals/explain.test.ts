import { describe, expect, it } from 'vitest'
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { explain } from '../../src/minerals/explain'
import { identify } from '../../src/minerals/identify'
import { modelReflectance } from '../../src/minerals/model'
import { prepareSet } from '../../src/minerals/prepare'

const set = await loadBuiltInSet()
const prepared = prepareSet(set)
const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)

function mixtureOf(amounts: Readonly<Record<string, number>>): Float64Array {
  const log = new Float64Array(wavelengths.length)
  for (const [record, amount] of Object.entries(amounts)) {
    const reference = set.references.find((candidate) => candidate.record === record)
    if (!reference) throw new Error(`${record} is not in the built-in set`)
    modelReflectance(reference, wavelengths).forEach((r, i) => (log[i] += amount * Math.log(r)))
  }
  return log.map(Math.exp)
}

describe('explain', () => {
  const reflectance = mixtureOf({
    'Kaolinite_KGa-2_(pxl)_ASDNGb': 0.5,
    'Alunite_HS295.3B_ASDFRa': 0.5,
  })
  const scan = { wavelengths, reflectance }
  const identification = identify(scan, prepared)
  const explanation = explain(scan, identification, prepared)
  if (!explanation) throw new Error('nothing was explained')

  it('models a mixture of two references closely', () => {
    const squares = explanation.residual.reduce((sum, value) => sum + value * value, 0)
    expect(Math.sqrt(squares / explanation.residual.length)).toBeLessThan(0.015)
    expect(explanation.parts.map((part) => part.group).sort()).toEqual(['alunite', 'kaolin'])
  })

  it('keeps each part above the mixture and the residual what is left', () => {
    const { measured, modelled, residual, parts } = explanation
    for (let i = 0; i < measured.length; i += 50) {
      expect(measured[i] - modelled[i]).toBeCloseTo(residual[i], 12)
      for (const part of parts)
        expect(part.reflectance[i]).toBeGreaterThanOrEqual(modelled[i] - 1e-9)
    }
  })

  it('explains nothing where nothing was named', () => {
    const flat = { wavelengths, reflectance: new Float64Array(2151).fill(0.3) }
    expect(explain(flat, identify(flat, prepared), prepared)).toBeNull()
  })
})
