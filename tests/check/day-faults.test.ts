/** Faults of a day, drift and a shifted wavelength scale, at three strengths of a hundred each. */
import { expect, test } from 'vitest'
import { NO_STANDARDS } from '../../src/check/day-standards'
import { checkScans, judgeScans } from '../../src/check/judge'
import { DEFAULT_LIMITS } from '../../src/check/limits'
import { measureScan } from '../../src/check/measure-scan'
import { measureShift, measureShiftOfPositions } from '../../src/check/standard'
import { resample } from '../../src/spectra/resample'
import type { Spectrum } from '../../src/spectra/spectrum'
import { normal } from '../spectra/chance'
import { libraryMissing, libraryNames, libraryRecord } from '../spectra/library'
import { changed, noisy } from './faults'

const DAY = 24 * 3600
const NOISE = 0.001

function at(seconds: number) {
  return { seconds, zoneStated: true }
}

function tell(what: string, strengths: readonly number[], found: readonly number[]): void {
  const figures = strengths.map((by, i) => `${by} → ${(100 * found[i]).toFixed(0)} %`)
  console.info(`${what}: ${figures.join(', ')}`)
}

/** How much a wavelength drifts for a drift of 1: alike throughout, or from −1/2 to 1/2. */
const DRIFTS: Readonly<Record<string, (nm: number) => number>> = {
  even: () => 1,
  'from end to end': (nm) => (nm - 350) / 2150 - 0.5,
}

for (const [how, at1] of Object.entries(DRIFTS))
  for (const referenceKnown of [true, false]) {
    const what = `drift, ${how}, ${referenceKnown ? 'since a reference' : 'no reference told of'}`
    test.skipIf(libraryMissing)(`${what}: found by a scan of the panel`, () => {
      const names = libraryNames().filter((name) => name.includes('_ASD'))
      const strengths = [0.01, 0.03, 0.05]
      const chance = normal(81)
      const found = strengths.map((drift) => {
        // A hundred days: a reference, a rock twelve minutes after, the panel two later.
        const verdicts = checkScans(
          Array.from({ length: 100 }, (_, day) => {
            const rock = libraryRecord(names[Math.floor((day * names.length) / 100)])
            const sign = day % 2 === 0 ? 1 : -1
            const drifted = (spectrum: Spectrum, minutes: number) =>
              noisy(
                changed(spectrum, (v, nm) => v * (1 + (sign * drift * at1(nm) * minutes) / 14)),
                NOISE,
                chance,
              )
            const panel = changed(rock, () => 1)
            const known = (minutes: number) => ({
              time: at(day * DAY + 60 * minutes),
              whiteReference: referenceKnown ? at(day * DAY) : null,
            })
            return [
              { name: `first ${day}`, known: known(0), spectrum: drifted(rock, 0) },
              { name: `rock ${day}`, known: known(12), spectrum: drifted(rock, 12) },
              { name: `panel ${day}`, known: known(14), spectrum: drifted(panel, 14) },
              { name: `later ${day}`, known: known(15), spectrum: drifted(rock, 0) },
            ]
          }).flat(),
        )
        const drifts = verdicts.map(({ reasons }) => reasons.some((r) => r.reason === 'drift'))
        expect(drifts.filter((is, i) => is && i % 4 === 0)).toEqual([])
        return drifts.filter((is, i) => is && i % 4 === 1).length / 100
      })
      tell(what, strengths, found)
      expect(found[0]).toBe(0)
      expect(found[1]).toBeGreaterThanOrEqual(0.95)
      expect(found[2]).toBeGreaterThanOrEqual(0.95)
    })
  }

test.skipIf(libraryMissing)('a shift is found on a standard, by record and by positions', () => {
  const record = libraryRecord('Kaolinite_KGa-2_(pxl)_ASDNGb')
  const bands = [
    [1370, 1440],
    [2140, 2240],
  ] as const
  // Invented absorptions, as on the certificate of a doped plastic.
  const positions = [740.2, 1132.6, 1534.1, 1983.7, 2167.4]
  const plate = changed(record, (_, nm) =>
    positions.reduce((value, p) => value * (1 - 0.3 * Math.exp(-0.5 * ((nm - p) / 9) ** 2)), 0.8),
  )
  const ways = {
    'by a record': [record, (scan: Spectrum) => measureShift(scan, { name: 's', record, bands })],
    'by positions': [plate, (scan: Spectrum) => measureShiftOfPositions(scan, positions)],
  } as const
  const strengths = [0, 0.7, 1.5, 3]
  for (const [way, [standard, measure]] of Object.entries(ways)) {
    const chance = normal(82)
    const found = strengths.map((by) => {
      const told = Array.from({ length: 100 }, (_, i) => {
        const shift = i % 2 === 0 ? by : -by
        const read = { ...standard, wavelengths: standard.wavelengths.map((nm) => nm + shift) }
        const scan = noisy(resample(read, standard.wavelengths), NOISE, chance)
        return isDoubted(scan, measure(scan))
      })
      return told.filter(Boolean).length / 100
    })
    tell(`wavelength shift ${way}, nm`, strengths, found)
    expect(found[0]).toBe(0)
    expect(found[2]).toBeGreaterThanOrEqual(0.95)
    expect(found[3]).toBeGreaterThanOrEqual(0.95)
  }
})

/** Whether another scan of the day is doubted for the standard's shift. */
function isDoubted(scan: Spectrum, shift: ReturnType<typeof measureShift>): boolean {
  const measures = measureScan(scan)
  const known = (seconds: number) => ({ time: at(seconds), whiteReference: null })
  const [, other] = judgeScans(
    [0, 3600].map((seconds, i) => ({ name: `scan ${i}`, known: known(seconds), measures })),
    DEFAULT_LIMITS,
    { ...NO_STANDARDS, standard: 'plate', shifts: new Map([[0, shift]]) },
  )
  return other.reasons.some(({ reason }) => reason === 'wavelength shift')
}
