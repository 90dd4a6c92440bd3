/** Drift, warming up, a wavelength standard and a check rock. */
import { expect, test } from 'vitest'
import { checkRockReasons, compareWithHistory } from '../../src/check/check-rock'
import { checkScans } from '../../src/check/judge'
import { DEFAULT_LIMITS } from '../../src/check/limits'
import { measureShift, shiftReason } from '../../src/check/standard'
import { resample } from '../../src/spectra/resample'
import type { Spectrum } from '../../src/spectra/spectrum'
import { normal } from '../spectra/chance'
import { libraryMissing, libraryRecord } from '../spectra/library'
import { changed, noisy, stepped, wet } from './faults'

const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)

function level(value: number): Spectrum {
  return { wavelengths, reflectance: wavelengths.map(() => value) }
}

const ROCK: Spectrum = { wavelengths, reflectance: wavelengths.map((nm) => 0.3 + nm / 2e4) }

const minute = (minutes: number) => ({ seconds: 1.7e9 + 60 * minutes, zoneStated: true })

test('a panel that reads 6 % low twelve minutes after its reference dates the drift', () => {
  const chance = normal(71)
  const scans: [spectrum: Spectrum, time: number, white: number][] = [
    [ROCK, 2, 0],
    [ROCK, 8, 0],
    [level(0.94), 12, 0],
    [ROCK, 14, 13],
  ]
  const verdicts = checkScans(
    scans.map(([spectrum, time, white], i) => ({
      name: `scan ${i}`,
      known: { time: minute(time), whiteReference: minute(white) },
      spectrum: noisy(spectrum, 0.001, chance),
    })),
  )
  expect(verdicts.map(({ check }) => check)).toEqual(['sound', 'doubtful', 'set aside', 'sound'])
  expect(verdicts[1].reasons[0].reason).toBe('drift')
  // Eight of twelve minutes at -6 %.
  expect(verdicts[1].reasons[0].measure).toBeCloseTo(-0.04, 3)
})

test('between two scans of the panel drift lies on the line, and after the last nothing is told', () => {
  const chance = normal(76)
  const scans: [spectrum: Spectrum, time: number][] = [
    [ROCK, 0],
    [level(0.98), 20],
    [ROCK, 30],
    [level(0.94), 40],
    [ROCK, 50],
  ]
  const verdicts = checkScans(
    scans.map(([spectrum, time], i) => ({
      name: `scan ${i}`,
      known: { time: minute(time), whiteReference: null },
      spectrum: noisy(spectrum, 0.001, chance),
    })),
  )
  const measures = verdicts.map(
    ({ reasons }) => reasons.find(({ reason }) => reason === 'drift')?.measure ?? null,
  )
  expect(measures.map((measure) => measure !== null)).toEqual([false, false, true, false, false])
  expect(measures[2]).toBeCloseTo(-0.04, 3)
})

test('a scan of the panel is no new reference; what it read is told beside the age', () => {
  const chance = normal(77)
  const scans: [spectrum: Spectrum, time: number, white: number | null][] = [
    [ROCK, 2, 0],
    [level(1.004), 25, 0],
    [ROCK, 30, 0],
    [level(1.004), 2000, null],
    [ROCK, 2010, null],
    [ROCK, 4000, null],
  ]
  const verdicts = checkScans(
    scans.map(([spectrum, time, white], i) => ({
      name: `scan ${i}`,
      known: { time: minute(time), whiteReference: white === null ? null : minute(white) },
      spectrum: noisy(spectrum, 0.001, chance),
    })),
  )
  expect(verdicts[0].check).toBe('sound')
  const [stale] = verdicts[2].reasons
  expect([stale.reason, Math.round(stale.measure)]).toEqual(['stale white reference', 30])
  expect(stale.words).toContain('A scan of the panel 5 minutes earlier read 1.004')
  expect(verdicts[4].check).toBe('sound')
  expect(verdicts[4].cannotTell?.join(' ')).toContain('the panel was scanned, which shows drift')
  expect(verdicts[5].cannotTell?.join(' ')).toContain('no file tells of one that day.')
})

test('small steps early in the day tell of warming up, later they do not', () => {
  const chance = normal(72)
  const times = [0, 5, 40]
  const verdicts = checkScans(
    times.map((time, i) => ({
      name: `scan ${i}`,
      known: { time: minute(time), whiteReference: minute(time) },
      spectrum: noisy(time === 0 ? ROCK : stepped(ROCK, 0.012), 0.0003, chance),
    })),
  )
  const reasons = verdicts.map((verdict) => verdict.reasons.map(({ reason }) => reason))
  expect(reasons).toEqual([[], ['warm-up'], []])
})

test.skipIf(libraryMissing)('a shift of the wavelength scale is found on a standard', () => {
  const record = libraryRecord('Kaolinite_KGa-2_(pxl)_ASDNGb')
  const bands = [
    [1370, 1440],
    [2140, 2240],
  ] as const
  const standard = { name: 'Kaolinite', record, bands }
  const chance = normal(73)
  for (const shift of [-2.5, 0, 0.7, 1.5]) {
    const wavelengthsRead = record.wavelengths.map((nm) => nm + shift)
    const moved = resample(
      { wavelengths: wavelengthsRead, reflectance: record.reflectance.map((v) => 0.7 * v) },
      record.wavelengths,
    )
    const found = measureShift(noisy(moved, 0.001, chance), standard)
    if (found === null) throw new Error('no band was found')
    expect(Math.abs(found.shift - shift)).toBeLessThan(0.15)
    expect(found.error).toBeLessThan(0.2)
    expect(found.bands).toBe(2)
    const reason = shiftReason(found, standard, DEFAULT_LIMITS)
    expect(reason !== null).toBe(Math.abs(shift) > 1)
    if (reason) expect(reason.words).toContain('Kaolinite')
  }
  expect(measureShift(level(0.5), standard)).toBeNull()
})

test.skipIf(libraryMissing)(
  'a check rock tells brightness from shape, and knows its own spread',
  () => {
    const rock = libraryRecord('Muscovite_GDS113_Ruby_ASDNGa')
    const chance = normal(74)
    const morning = (scale: number) =>
      noisy(
        changed(rock, (v) => v * scale),
        0.001,
        chance,
      )
    const steady = [1, 1.01, 0.99, 1].map(morning)
    const reasonsOf = (scan: Spectrum, history: Spectrum[]) => {
      const comparison = compareWithHistory(scan, history)
      if (comparison === null) throw new Error('nothing to compare')
      return checkRockReasons(comparison, DEFAULT_LIMITS).map(({ reason }) => reason)
    }
    expect(reasonsOf(morning(1.02), steady)).toEqual([])
    expect(reasonsOf(morning(1.2), steady)).toEqual(['check rock level'])
    expect(reasonsOf(stepped(morning(1), 0.08), steady)).toEqual(['check rock shape'])
    const restless = [0.8, 1.2, 1, 1.15, 0.85].map(morning)
    expect(reasonsOf(morning(1.2), restless)).toEqual([])
    expect(compareWithHistory(morning(1), [])).toBeNull()
  },
)

test.skipIf(libraryMissing)('a wet smectite is told beside a dry scan of the same sample', () => {
  const chance = normal(75)
  const names = [
    'Hectorite_SHCa-1_ASDNGc',
    'Illite_GDS4_Marblehead_ASDNGb',
    'Beidellite_GDS124_ASDFRb',
  ]
  for (const name of names) {
    const dry = libraryRecord(name)
    const spectra = [dry, wet(dry, 25), changed(dry, (v) => 0.8 * v), wet(dry, 25)]
    const samples = ['S1', 'S1', 'S1', 'S2']
    const verdicts = checkScans(
      spectra.map((spectrum, i) => ({
        name: `scan ${i}`,
        known: { time: null, whiteReference: null, sample: samples[i], target: null },
        spectrum: noisy(spectrum, 0.001, chance),
      })),
    )
    const reasons = verdicts.map((verdict) => verdict.reasons.map(({ reason }) => reason))
    expect(reasons, name).toEqual([[], ['wet sample'], [], []])
    expect(verdicts[1].reasons[0].words).toMatch(/scan [02]/)
  }
})
