/** The day's wavelength standard and check rock: whom they speak against, and whom not. */
import { expect, test } from 'vitest'
import { compareWithHistory } from '../../src/check/check-rock'
import { daysOf } from '../../src/check/day'
import { NO_STANDARDS, type DayStandards } from '../../src/check/day-standards'
import { judgeScans } from '../../src/check/judge'
import { measureScan } from '../../src/check/measure-scan'
import { DEFAULT_LIMITS, LIMIT_KINDS } from '../../src/check/limits'
import { measureShiftOfPositions } from '../../src/check/standard'
import type { Spectrum } from '../../src/spectra/spectrum'
import { normal } from '../spectra/chance'
import { noisy } from './faults'

const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)
const ROCK: Spectrum = { wavelengths, reflectance: wavelengths.map((nm) => 0.3 + nm / 2e4) }
/** Where the absorptions of an invented standard lie, nm. */
const POSITIONS = [740.2, 1132.6, 1534.1, 1983.7, 2167.4]
const HOUR = 3600

/** A standard with Gaussian absorptions, 9 nm wide by their standard deviation, read off by `shift`. */
function standard(shift: number): Spectrum {
  const reflectance = wavelengths.map((nm) =>
    POSITIONS.reduce(
      (value, at) => value * (1 - 0.3 * Math.exp(-0.5 * ((nm - at - shift) / 9) ** 2)),
      0.7 + nm / 2e4,
    ),
  )
  return { wavelengths, reflectance }
}

test('a shift of known positions comes back within its error, whatever the noise', () => {
  for (const [shift, noise] of [
    [0, 0],
    [1.7, 0],
    [-2.4, 0.001],
    [1.2, 0.003],
  ]) {
    const found = measureShiftOfPositions(noisy(standard(shift), noise, normal(9)), POSITIONS)
    expect(found?.bands).toBe(POSITIONS.length)
    expect(Math.abs((found?.shift ?? NaN) - shift)).toBeLessThan(
      Math.max(0.1, 3 * (found?.error ?? NaN)),
    )
    expect(found?.error).toBeLessThan(0.3)
  }
  expect(measureShiftOfPositions(ROCK, POSITIONS)).toBeNull()
})

test('a night parts days, a long lunch does not', () => {
  const times = [0, 4 * HOUR, null, 20 * HOUR, 24.9 * HOUR, 44 * HOUR]
  expect(daysOf(times)).toEqual([0, 0, null, 1, 1, 2])
})

function judge(times: readonly (number | null)[], standards: DayStandards) {
  const chance = normal(3)
  return judgeScans(
    times.map((seconds, i) => ({
      name: `scan ${i}`,
      known: {
        time: seconds === null ? null : { seconds, zoneStated: true },
        whiteReference: null,
      },
      measures: measureScan(noisy(ROCK, 0.001, chance)),
    })),
    DEFAULT_LIMITS,
    standards,
  )
}

test('a shifted standard speaks against the scans of its day, and itself counts for nothing', () => {
  const times = [0, HOUR, 24 * HOUR, 25 * HOUR, 48 * HOUR, null]
  const shifts = new Map([
    [0, { shift: 0.2, error: 0.1, bands: 5 }],
    [2, { shift: 2.1, error: 0.2, bands: 5 }],
  ])
  const verdicts = judge(times, { ...NO_STANDARDS, standard: 'plastic', shifts })
  expect(verdicts.map(({ check }) => check)).toEqual([
    'set aside',
    'sound',
    'set aside',
    'doubtful',
    'sound',
    'sound',
  ])
  expect(verdicts[3].reasons.map(({ reason, measure }) => [reason, measure])).toEqual([
    ['wavelength shift', 2.1],
  ])
  expect(verdicts[4].cannotTell).toContain(
    'The wavelength scale: no scan of the standard that day.',
  )
  expect(verdicts[5].cannotTell).toContain('The wavelength scale: the scan has no time.')
  expect(verdicts[1].cannotTell?.join(' ')).not.toContain('wavelength scale')
})

test('of two scans of the standard in a day the nearer one speaks', () => {
  const shifts = new Map([
    [0, { shift: 0, error: 0.1, bands: 5 }],
    [3, { shift: 3, error: 0.1, bands: 5 }],
  ])
  const verdicts = judge([0, HOUR, 3 * HOUR, 4 * HOUR], { ...NO_STANDARDS, standard: 'p', shifts })
  expect(verdicts.map(({ check }) => check)).toEqual([
    'set aside',
    'sound',
    'doubtful',
    'set aside',
  ])
})

test('a check rock that reads 20 % dark one morning speaks against that day alone', () => {
  const chance = normal(5)
  const mornings = [1, 1.01, 0.99, 1, 0.8].map((factor) =>
    noisy({ wavelengths, reflectance: ROCK.reflectance.map((r) => r * factor) }, 0.001, chance),
  )
  const times = mornings.flatMap((_, day) => [24 * HOUR * day, 24 * HOUR * day + HOUR])
  const rocks = new Map(
    mornings.map((scan, day) => [2 * day, compareWithHistory(scan, mornings.slice(0, day))]),
  )
  const verdicts = judge(times, { ...NO_STANDARDS, rock: 'camp granite', rocks })
  expect(verdicts.map(({ check }) => check)).toEqual([
    ...['set aside', 'sound', 'set aside', 'sound', 'set aside', 'sound', 'set aside', 'sound'],
    ...['set aside', 'doubtful'],
  ])
  expect(verdicts[9].reasons[0].reason).toBe('check rock level')
  expect(verdicts[9].reasons[0].measure).toBeCloseTo(-0.2, 2)
  expect(verdicts[1].cannotTell).toContain('The check rock: no scan of it on an earlier day.')
})

test('every limit is known by kind, and its default lies between its bounds', () => {
  expect(Object.keys(LIMIT_KINDS).sort()).toEqual(Object.keys(DEFAULT_LIMITS).sort())
  for (const [name, value] of Object.entries(DEFAULT_LIMITS)) {
    const { low, high } = LIMIT_KINDS[name as keyof typeof LIMIT_KINDS]
    expect(value).toBeGreaterThanOrEqual(low)
    expect(value).toBeLessThanOrEqual(high)
  }
})
