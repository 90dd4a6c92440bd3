/** Whatever is thrown at it, measuring ends in plain numbers, null or a reason, never a crash. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { correctSteps } from '../../src/check/correct-steps'
import { judgeScans } from '../../src/check/judge'
import { measureScan } from '../../src/check/measure-scan'
import { measureFeature } from '../../src/spectra/feature'
import type { Spectrum } from '../../src/spectra/spectrum'

/** Ascending wavelengths of any spacing, with values of any kind, gaps and infinities too. */
const spectrumWith = (odd: readonly number[]): fc.Arbitrary<Spectrum> =>
  fc
    .tuple(
      fc.double({ min: 200, max: 2000, noNaN: true }),
      fc.array(
        fc.tuple(
          fc.oneof(
            { weight: 60, arbitrary: fc.constantFrom(1, 2, 5) },
            fc.double({ min: 1e-7, max: 400, noNaN: true }),
          ),
          fc.oneof(
            { weight: 60, arbitrary: fc.double({ min: 0, max: 1, noNaN: true }) },
            fc.constantFrom(...odd),
          ),
        ),
        { maxLength: 400, size: 'max' },
      ),
    )
    .map(([start, channels]) => {
      let nm = start
      const wavelengths = Float64Array.from(channels, ([step]) => (nm += step))
      return { wavelengths, reflectance: Float32Array.from(channels, ([, value]) => value) }
    })

const anySpectrum = spectrumWith([NaN, 0, -1, 1e30, 0.5])
/** Without what leaves no hull: gaps and level stretches only. */
const tameSpectrum = spectrumWith([NaN, 0.5])

test('features of anything are numbers or a reason', () => {
  const firstChannel = fc.integer({ min: 0, max: 300 })
  const channels = fc.integer({ min: 2, max: 60 })
  const noise = fc.constantFrom(null, 0, 0.001)
  const either = fc.oneof(anySpectrum, tameSpectrum)
  let measured = 0
  fc.assert(
    fc.property(either, firstChannel, channels, noise, (spectrum, first, count, sd) => {
      const { wavelengths: x } = spectrum
      const last = Math.min(x.length - 1, first + count)
      const [from, to] = [x[first] ?? 0, x[last] ?? 0]
      const result = measureFeature(spectrum, [from, to], [from, to], sd)
      if ('missing' in result) return
      measured++
      expect(Number.isFinite(result.position)).toBe(true)
      expect(result.position).toBeGreaterThanOrEqual(from)
      expect(result.position).toBeLessThanOrEqual(to)
      expect(result.width).toBeGreaterThan(0)
      if (sd !== null) expect(Number.isFinite(result.positionError)).toBe(true)
    }),
    { numRuns: 2000, seed: 5 },
  )
  expect(measured).toBeGreaterThan(20)
})

test('anything is judged, and steps corrected or left', () => {
  fc.assert(
    fc.property(fc.array(anySpectrum, { maxLength: 4 }), (spectra) => {
      const verdicts = judgeScans(
        spectra.map((spectrum, i) => ({
          name: `scan ${i}`,
          known: { time: null, whiteReference: null },
          measures: structuredClone(measureScan(spectrum)),
        })),
      )
      for (const { check, reasons } of verdicts) {
        expect(check === 'sound').toBe(reasons.length === 0)
        for (const { words } of reasons) expect(words).not.toMatch(/NaN|undefined|Infinity/)
      }
      for (const spectrum of spectra) {
        const { steps } = correctSteps(spectrum)
        for (const { change } of steps) expect(Number.isFinite(change)).toBe(true)
      }
    }),
    { numRuns: 300, seed: 6 },
  )
})
