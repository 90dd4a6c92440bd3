/** Hull, smoothing, angle, resampling, statistics and noise against published or exact figures. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { spectralAngle } from '../../src/spectra/angle'
import { removeContinuum, upperHull } from '../../src/spectra/hull'
import { estimateNoise } from '../../src/spectra/noise'
import { fitPolynomial } from '../../src/spectra/polynomial'
import { cropTo, resample } from '../../src/spectra/resample'
import { savitzkyGolayWeights, smoothSpectrum } from '../../src/spectra/smooth'
import type { Spectrum } from '../../src/spectra/spectrum'
import { meanReflectance, reflectanceAt } from '../../src/spectra/statistics'
import { normal } from './chance'
import { libraryMissing, libraryNames, libraryRecord } from './library'

function spectrum(wavelengths: number[], reflectance: number[]): Spectrum {
  return {
    wavelengths: Float64Array.from(wavelengths),
    reflectance: Float64Array.from(reflectance),
  }
}

const curve = fc.array(fc.double({ min: 0.01, max: 1.2, noNaN: true }), {
  minLength: 3,
  maxLength: 60,
})

test('the hull lies over the curve, is concave, and touches both ends', () => {
  fc.assert(
    fc.property(curve, (values) => {
      const x = Float64Array.from(values, (_, i) => 400 + 3 * i)
      const y = Float64Array.from(values)
      const hull = upperHull(x, y)
      expect(hull[0]).toBe(y[0])
      expect(hull[hull.length - 1]).toBe(y[y.length - 1])
      for (let i = 0; i < y.length; i++) {
        expect(hull[i]).toBeGreaterThanOrEqual(y[i])
        if (i > 0 && i + 1 < y.length) {
          expect(2 * hull[i]).toBeGreaterThanOrEqual(hull[i - 1] + hull[i + 1] - 1e-12)
        }
      }
    }),
  )
})

test('continuum-removed reflectance of a positive curve lies in (0, 1] and ignores scale', () => {
  fc.assert(
    fc.property(curve, fc.double({ min: 0.1, max: 5, noNaN: true }), (values, scale) => {
      const x = values.map((_, i) => 400 + 3 * i)
      const once = removeContinuum(spectrum(x, values))
      const twice = removeContinuum(
        spectrum(
          x,
          values.map((v) => v * scale),
        ),
      )
      once?.removed.forEach((value, i) => {
        expect(value).toBeGreaterThan(0)
        expect(value).toBeLessThanOrEqual(1)
        expect(twice?.removed[i]).toBeCloseTo(value, 10)
      })
    }),
  )
})

test('smoothing weights are the published ones (Savitzky and Golay 1964)', () => {
  const times = (weights: Float64Array, by: number) =>
    [...weights].map((w) => Math.round(w * by * 1e6) / 1e6)
  expect(times(savitzkyGolayWeights(5, 2), 35)).toEqual([-3, 12, 17, 12, -3])
  expect(times(savitzkyGolayWeights(7, 2), 21)).toEqual([-2, 3, 6, 7, 6, 3, -2])
  // First derivative, quadratic, five points: (-2, -1, 0, 1, 2) / 10, from memory of the same tables.
  expect(times(savitzkyGolayWeights(5, 2, 1), 10).map((w) => w + 0)).toEqual([-2, -1, 0, 1, 2])
  expect(() => savitzkyGolayWeights(4, 2)).toThrow(/4 points/)
})

test('smoothing keeps a parabola, to the ends and over uneven channels, and keeps gaps', () => {
  const x = Array.from({ length: 40 }, (_, i) => 500 + i + (i > 20 ? 0.4 * (i - 20) : 0))
  const y = x.map((nm) => 0.3 + 0.002 * (nm - 500) - 0.00003 * (nm - 500) ** 2)
  const smoothed = smoothSpectrum(spectrum(x, y), 7, 2).reflectance
  smoothed.forEach((value, i) => expect(value).toBeCloseTo(y[i], 9))
  const holed = smoothSpectrum(
    spectrum(
      x,
      y.map((v, i) => (i === 10 ? NaN : v)),
    ),
    7,
    2,
  ).reflectance
  expect(holed[10]).toBeNaN()
  expect(holed[11]).toBeCloseTo(y[11], 9)
})

test('a polynomial through its own points comes back', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 }),
      (c) => {
        const x = Float64Array.from({ length: 12 }, (_, i) => (i - 5.5) / 6)
        const y = x.map((u) => c[0] + c[1] * u + c[2] * u * u + c[3] * u ** 3)
        fitPolynomial(x, y, 3)?.forEach((value, k) => expect(value).toBeCloseTo(c[k], 8))
      },
    ),
  )
})

test('points that do not determine a polynomial give none', () => {
  const x = Float64Array.of(-1, -1 + 1e-12, 1, 1 - 1e-12)
  expect(fitPolynomial(x, x, 2)).toBeNull()
  expect(fitPolynomial(x, x, 1)?.[1]).toBeCloseTo(1, 9)
})

test('the spectral angle is 0 under scaling and 90° for orthogonal spectra (Kruse et al. 1993)', () => {
  const a = Float64Array.of(0.2, 0.5, NaN, 0.3)
  expect(
    spectralAngle(
      a,
      a.map((v) => 3 * v),
    ),
  ).toBeCloseTo(0, 7)
  expect(spectralAngle(Float64Array.of(1, 0), Float64Array.of(0, 2))).toBeCloseTo(Math.PI / 2, 12)
  expect(spectralAngle(Float64Array.of(0, 0), Float64Array.of(0, 2))).toBeNull()
  expect(() => spectralAngle(Float64Array.of(1), Float64Array.of(0, 2))).toThrow(RangeError)
})

test('resampling is linear, gives its own channels back, and never fills a gap', () => {
  const from = spectrum([500, 510, 520, 530, 540], [0.1, 0.2, NaN, 0.4, 0.5])
  const to = Float64Array.of(490, 500, 503, 510, 515, 520, 525, 530, 537.5, 540, 541)
  const out = [...resample(from, to).reflectance]
  const expected = [NaN, 0.1, 0.13, 0.2, NaN, NaN, NaN, 0.4, 0.475, 0.5, NaN]
  out.forEach((value, i) =>
    Number.isNaN(expected[i])
      ? expect(value).toBeNaN()
      : expect(value).toBeCloseTo(expected[i], 12),
  )
  expect([...cropTo(from, 510, 530).wavelengths]).toEqual([510, 520, 530])
})

test('reflectance and mean read a line off exactly', () => {
  const x = Array.from({ length: 101 }, (_, i) => 1000 + 3 * i)
  const line = spectrum(
    x,
    x.map((nm) => 0.2 + 0.0001 * (nm - 1000)),
  )
  expect(reflectanceAt(line, 1001.5)).toBeCloseTo(0.20015, 12)
  expect(reflectanceAt(line, 999)).toBeNull()
  expect(reflectanceAt(line, 1301)).toBeNull()
  expect(meanReflectance(line, 1000, 1300)).toBeCloseTo(0.215, 12)
  expect(meanReflectance(line, 1301, 1400)).toBeNull()
})

test('too few channels tell no noise', () => {
  expect(estimateNoise(spectrum([2190, 2200, 2210], [0.5, 0.5, 0.5]))).toBeNull()
})

test.skipIf(libraryMissing)(
  'noise put on field records is found again, kaolinite doublets and all',
  () => {
    const chance = normal(11)
    const ratios = libraryNames()
      .filter((name) => name.includes('_ASD'))
      .map((name) => {
        const { wavelengths, reflectance } = libraryRecord(name)
        const noisy = reflectance.map((value) => value + 0.002 * chance())
        return (estimateNoise({ wavelengths, reflectance: noisy }) ?? NaN) / 0.002
      })
      .sort((a, b) => a - b)
    expect(ratios[0]).toBeGreaterThan(0.65)
    expect(ratios[Math.floor(ratios.length / 2)]).toBeCloseTo(1, 1)
    expect(ratios[ratios.length - 1]).toBeLessThan(1.5)
  },
)

test.skipIf(libraryMissing)(
  'a step and a gap do not pass for noise; coarse records err high, not low',
  () => {
    const chance = normal(12)
    const { wavelengths, reflectance } = libraryRecord('Kaolinite_KGa-2_(pxl)_ASDNGb')
    const stepped = reflectance.map(
      (value, i) => (wavelengths[i] > 2150 ? 1.1 : 1) * value + 0.002 * chance(),
    )
    stepped.fill(NaN, 1800, 1830)
    const noise = estimateNoise({ wavelengths, reflectance: stepped }) ?? NaN
    expect(noise / 0.002).toBeGreaterThan(0.7)
    expect(noise / 0.002).toBeLessThan(1.4)
    const coarse = libraryRecord('Kaolinite_KGa-2_(pxl)_BECKb')
    const noisy = coarse.reflectance.map((value) => value + 0.01 * chance())
    const estimate = estimateNoise({ wavelengths: coarse.wavelengths, reflectance: noisy }) ?? NaN
    expect(estimate / 0.01).toBeGreaterThan(0.5)
    expect(estimate / 0.01).toBeLessThan(2.5)
  },
)
