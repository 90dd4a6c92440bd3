import { describe, expect, it } from 'vitest'
import { modelContinuum, modelReflectance } from '../../src/minerals/model'

const flat = [
  [400, Math.log(0.5)],
  [1500, Math.log(0.5)],
  [2500, Math.log(0.5)],
] as const

describe('modelReflectance', () => {
  it('takes exp(−strength) off the continuum at a band’s centre and the root of it at half width', () => {
    const bands = [{ position: 2200, width: 40, strength: 0.3 }]
    const [centre, half, far] = modelReflectance(
      { continuum: flat, bands },
      Float64Array.of(2200, 2220, 2400),
    )
    expect(centre).toBeCloseTo(0.5 * Math.exp(-0.3), 12)
    expect(half).toBeCloseTo(0.5 * Math.exp(-0.15), 12)
    expect(far).toBeCloseTo(0.5, 12)
  })

  it('multiplies overlapping bands, as Beer’s law has it', () => {
    const one = { position: 2200, width: 40, strength: 0.3 }
    const two = { position: 2210, width: 60, strength: 0.2 }
    const at = Float64Array.of(2205)
    const both = modelReflectance({ continuum: flat, bands: [one, two] }, at)[0]
    const first = modelReflectance({ continuum: flat, bands: [one] }, at)[0]
    const second = modelReflectance({ continuum: flat, bands: [two] }, at)[0]
    expect(both).toBeCloseTo((first * second) / 0.5, 12)
  })
})

describe('modelContinuum', () => {
  it('passes through its knots and goes on straight beyond them', () => {
    const knots = [
      [500, -0.2],
      [1000, -0.5],
      [1800, -0.1],
      [2400, -0.4],
    ] as const
    const at = Float64Array.of(500, 1000, 1800, 2400, 2450, 2500, 2550)
    const values = modelContinuum(knots, at)
    knots.forEach(([, value], k) => expect(values[k]).toBeCloseTo(value, 12))
    expect(values[5] - values[4]).toBeCloseTo(values[6] - values[5], 12)
  })

  it('is the natural cubic spline of scipy.interpolate.CubicSpline', () => {
    // CubicSpline([0, 1, 2, 4], [0, 1, 0, 2], bc_type='natural')([0.5, 1.5, 3]), SciPy 1.10.
    const knots = [
      [0, 0],
      [1, 1],
      [2, 0],
      [4, 2],
    ] as const
    const values = modelContinuum(knots, Float64Array.of(0.5, 1.5, 3))
    expect([...values].map((v) => Number(v.toFixed(9)))).toEqual([
      0.72826087, 0.565217391, 0.347826087,
    ])
  })
})
