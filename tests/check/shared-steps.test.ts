/** Steps told by several scans together: against quadrature, and on library records. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { correctSteps, type CorrectedSpectrum } from '../../src/check/correct-steps'
import { expected, joined, sharedSteps } from '../../src/check/shared-steps'
import { stepEstimates, type StepEstimate } from '../../src/check/step-places'
import { measureFeature } from '../../src/spectra/feature'
import type { Spectrum } from '../../src/spectra/spectrum'
import { normal } from '../spectra/chance'
import { libraryMissing, libraryNames, libraryRecord } from '../spectra/library'
import { largestDifference } from './difference'
import { noisy, stepped } from './faults'
import oracle from './shared-steps.json'

function estimate(lift: number, liftError: number, position = 1000.5): StepEstimate {
  return { position, lift, liftError, below: 1 }
}

/** Rocks of one scan each. */
function rocksOf(...estimates: readonly StepEstimate[]): StepEstimate[][][] {
  return estimates.map((place) => [[place]])
}

test.each(Object.entries(oracle))(
  '%s: where the next step will be agrees with quadrature (tests/oracles/shared-steps.py)',
  (_, { lift, error, mean, deviation }) => {
    const parts = expected(lift.map((value, i) => ({ lift: value, error: error[i] })))
    const at = parts.reduce((sum, part) => sum + part.weight * part.mean, 0)
    const square = parts.reduce(
      (sum, part) => sum + part.weight * (part.variance + (part.mean - at) ** 2),
      0,
    )
    expect(Math.abs(at - mean)).toBeLessThan(0.002 * deviation)
    expect(Math.abs(Math.sqrt(square) / deviation - 1)).toBeLessThan(0.02)
  },
)

test('fewer than three rocks say nothing, nor a place that most rocks do not speak of', () => {
  const one = estimate(0.03, 0.001)
  expect(sharedSteps(rocksOf(one, one))).toEqual([])
  const elsewhere = estimate(0.03, 0.001, 990.5)
  const shared = sharedSteps(rocksOf(one, one, one, one, one, elsewhere, elsewhere))
  expect(shared.map(({ position, rocks }) => [position, rocks])).toEqual([[1000.5, 5]])
})

test('scans of one rock count as one, for they share what the rock adds', () => {
  const others = [estimate(0.03, 0.002), estimate(0.032, 0.002), estimate(0.028, 0.002)]
  const once = sharedSteps(rocksOf(...others))
  const often = sharedSteps(others.map((place) => [[place], [place], [place]]))
  expect(often[0].rocks).toBe(3)
  once[0].parts.forEach(({ weight, mean, variance }, i) => {
    expect(often[0].parts[i].weight).toBeCloseTo(weight, 12)
    expect(often[0].parts[i].mean).toBeCloseTo(mean, 12)
    expect(often[0].parts[i].variance).toBeCloseTo(variance, 12)
  })
})

test('a scan that says nothing takes what the others say, a sure one keeps its own', () => {
  const others = Array.from({ length: 12 }, (_, i) => estimate(0.03 + 1e-4 * (i % 3), 4e-4))
  const [shared] = sharedSteps(rocksOf(...others))
  const told = joined(estimate(0, Infinity), shared)
  expect(told.lift).toBeCloseTo(0.0301, 4)
  const unsure = joined(estimate(0.02, 0.01), shared)
  expect(unsure.lift).toBeCloseTo(0.0301, 3)
  expect(unsure.liftError).toBeLessThan(0.002)
  const odd = joined(estimate(-0.01, 4e-4), shared)
  expect(odd.lift).toBeCloseTo(-0.01, 3)
})

test('what is told together lies between what each says, and is no less sure by much', () => {
  const lift = fc.double({ min: -0.2, max: 0.2, noNaN: true })
  const error = fc.double({ min: 1e-6, max: 0.2, noNaN: true })
  const one = fc.tuple(lift, error).map(([value, size]) => estimate(value, size))
  fc.assert(
    fc.property(fc.array(one, { minLength: 3, maxLength: 30 }), one, (others, own) => {
      const [shared] = sharedSteps(rocksOf(...others))
      const told = joined(own, shared)
      const all = [own, ...others].map((place) => place.lift)
      expect(told.lift).toBeGreaterThanOrEqual(Math.min(...all) - 1e-12)
      expect(told.lift).toBeLessThanOrEqual(Math.max(...all) + 1e-12)
      expect(told.liftError).toBeGreaterThan(0)
      expect(Number.isFinite(told.liftError)).toBe(true)
    }),
    { numRuns: 500, seed: 8 },
  )
})

/** Scans of one white reference, with the same step and each with noise of its own. */
const SESSION = 12

interface Put {
  readonly clean: Spectrum
  readonly scan: Spectrum
}

/** The library's field records without their own steps, in sessions as chance has them. */
function sessionsOf(noise: number, size: (scan: number) => number, seed: number): Put[][] {
  const chance = normal(seed)
  const names = libraryNames().filter((name) => name.includes('_ASD'))
  const order = names.map((name) => ({ name, at: chance() })).sort((a, b) => a.at - b.at)
  const puts = order.map(({ name }, i): Put => {
    const { spectrum } = correctSteps(libraryRecord(name), { least: 0 })
    const clean = noisy(spectrum, noise, chance)
    return { clean, scan: stepped(clean, size(i % SESSION)) }
  })
  return Array.from({ length: Math.floor(puts.length / SESSION) }, (_, i) =>
    puts.slice(i * SESSION, (i + 1) * SESSION),
  )
}

/** Each scan corrected with what the others of its session say. */
function correctedTogether(session: readonly Put[]): CorrectedSpectrum[] {
  const estimates = session.map(({ scan }) => stepEstimates(scan))
  return session.map(({ scan }, i) => {
    const others = estimates.filter((_, other) => other !== i)
    const shared = [0, 1].map((join) => sharedSteps(others.map((mate) => [mate[join]])))
    return correctSteps(scan, { shared })
  })
}

/** How far the band near 900 nm has moved, nm; null where the clean scan has none. */
function bandMoved(before: Spectrum, after: Spectrum): number | null {
  const [was, is] = [before, after].map((s) => measureFeature(s, [820, 980], [760, 1050]))
  if ('missing' in was || was.depth < 0.05) return null
  return 'missing' in is ? Infinity : Math.abs(is.position - was.position)
}

/** What came of sessions with one step. */
function countOf(noise: number, size: number, seed: number) {
  const count = { scans: 0, refused: 0, within: 0, bands: 0, unsure: 0, still: 0, stillUnsure: 0 }
  for (const session of sessionsOf(noise, () => size, seed)) {
    correctedTogether(session).forEach(({ spectrum, steps, untold }, i) => {
      count.scans++
      if (untold.length > 0) {
        count.refused++
        return
      }
      const { clean } = session[i]
      if (largestDifference(spectrum, clean) < 0.002) count.within++
      const moved = bandMoved(clean, spectrum)
      if (moved === null) return
      count.bands++
      const isSure = steps.every(({ bandMoves }) => bandMoves === null || bandMoves <= 3)
      if (!isSure) count.unsure++
      if (moved < 3) count[isSure ? 'still' : 'stillUnsure']++
    })
  }
  console.info(`noise ${noise}, step ${size}, seed ${seed}: ${JSON.stringify(count)}`)
  return count
}

for (const seed of [71, 81]) {
  for (const size of [0.03, -0.03]) {
    test.skipIf(libraryMissing)(
      `a session’s step of ${100 * size} % is taken out of every scan to 0.2 % reflectance and 3 nm (seed ${seed})`,
      () => {
        const { scans, refused, within, bands, unsure, still, stillUnsure } = countOf(
          0.0005,
          size,
          seed,
        )
        expect([refused, within]).toEqual([0, scans])
        expect(bands).toBeGreaterThan(50)
        expect(unsure / bands).toBeLessThan(0.15)
        // Those told as unsure are in place too: the words are careful.
        expect([still, stillUnsure]).toEqual([bands - unsure, unsure])
      },
    )
  }
  test.skipIf(libraryMissing)(`with twice the noise too, or it is refused (seed ${seed})`, () => {
    const { scans, refused, within, bands, unsure, still } = countOf(0.001, 0.03, seed)
    expect(refused / scans).toBeLessThan(0.02)
    expect(within / (scans - refused)).toBeGreaterThan(0.99)
    expect(still).toBe(bands - unsure)
  })
}

test.skipIf(libraryMissing)(
  'one scan with a step among others without is put right as if it were alone',
  () => {
    const sessions = [0, 4, 8].flatMap((odd) =>
      sessionsOf(0.0005, (scan) => (scan === odd ? 0.03 : 0), 72).map((session) => ({
        clean: session[odd].clean,
        told: correctedTogether(session)[odd],
      })),
    )
    const corrected = sessions.filter(({ told }) => told.untold.length === 0)
    const right = corrected.filter(
      ({ clean, told }) => largestDifference(told.spectrum, clean) < 0.002,
    )
    expect(corrected.length / sessions.length).toBeGreaterThan(0.9)
    expect(right.length / corrected.length).toBeGreaterThan(0.95)
  },
)
