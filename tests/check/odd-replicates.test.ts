/** Pointing out the one scan that is unlike the others of its station and target. */
import { describe, expect, test } from 'vitest'
import { DEFAULT_LIMITS } from '../../src/check/limits'
import { likenessOf } from '../../src/check/likeness'
import { ODD_REPLICATE, oddReasons, type StationScan } from '../../src/check/odd-replicates'
import type { Spectrum } from '../../src/spectra/spectrum'
import { normal } from '../spectra/chance'
import { libraryMissing, libraryNames, libraryRecord } from '../spectra/library'
import { changed, noisy } from './faults'

const NOISE = 0.001

function scan(spectrum: Spectrum, groups: string[], set = 'A/matrix/0'): StationScan {
  return { set, sketch: likenessOf(spectrum).sketch, noise: NOISE, groups }
}

/** The spot again: another 5 % brightness, a slope of 2 %, and noise. */
function again(spectrum: Spectrum, chance: () => number): Spectrum {
  const [level, slope] = [1 + 0.05 * chance(), 0.02 * chance()]
  return noisy(
    changed(spectrum, (value, nm) => value * level * (1 + (slope * (nm - 1400)) / 1000)),
    NOISE,
    chance,
  )
}

describe.skipIf(libraryMissing)('on library records', () => {
  const mica = () => libraryRecord('Muscovite_GDS113_Ruby_ASDNGa')
  const alunite = () => libraryRecord('Alunite_HS295.1B_ASDFRa')

  test('another mineral is pointed out in words, and only that scan', () => {
    const chance = normal(91)
    const reasons = oddReasons(
      [
        scan(again(mica(), chance), ['white mica']),
        scan(again(alunite(), chance), ['alunite']),
        scan(again(mica(), chance), ['white mica', 'kaolin']),
        null,
      ],
      DEFAULT_LIMITS,
    )
    expect(reasons.map((reason) => reason?.reason ?? null)).toEqual([
      null,
      ODD_REPLICATE,
      null,
      null,
    ])
    expect(reasons[1]?.words).toMatch(/alunite .*white mica.*may be the vein.*still counts/)
  })

  test('another shape is pointed out where the mineral cannot tell', () => {
    const chance = normal(92)
    const scans = [mica(), mica(), alunite(), mica()].map((s) => scan(again(s, chance), []))
    const reasons = oddReasons(scans, DEFAULT_LIMITS)
    expect(reasons.map((reason) => reason !== null)).toEqual([false, false, true, false])
    expect(reasons[2]?.measure).toBeGreaterThan(DEFAULT_LIMITS.oddReplicate)
  })

  test('two scans, other stations and other targets say nothing of each other', () => {
    const chance = normal(93)
    const sets = ['A/matrix/0', 'A/matrix/0', 'A/vein/0', 'B/matrix/0']
    const scans = sets.map((set, i) => scan(again(i === 1 ? alunite() : mica(), chance), [], set))
    expect(oddReasons(scans, DEFAULT_LIMITS).every((reason) => reason === null)).toBe(true)
  })

  test('three scans of one rock are seldom told apart', () => {
    const chance = normal(94)
    const names = libraryNames().filter((name) => name.includes('_ASD'))
    const scans = names.flatMap((name) =>
      [0, 1, 2].map(() => scan(again(libraryRecord(name), chance), ['a'], name)),
    )
    const told = oddReasons(scans, DEFAULT_LIMITS).filter((reason) => reason !== null).length
    console.info(`odd: ${told} of ${names.length} triples of one rock told`)
    expect(told / names.length).toBeLessThan(0.03)
  })
})

test('a day of scans under one name takes no longer than its pairs', () => {
  const chance = normal(94)
  const sketchOf = (bump: number) =>
    Array.from({ length: 48 }, (_, c) => 0.4 + 0.001 * chance() - (c > 20 && c < 30 ? bump : 0))
  const scans = Array.from({ length: 1500 }, (_, i): StationScan => {
    return { set: 'A', sketch: sketchOf(i === 700 ? 0.2 : 0), noise: NOISE, groups: [] }
  })
  const found = oddReasons(scans, DEFAULT_LIMITS).flatMap((reason, i) => (reason ? [i] : []))
  expect(found).toEqual([700])
})

test('a gap of one scan leaves out its channel where that scan counts, and no more', () => {
  const flat = Array.from({ length: 48 }, () => 0.4)
  const at = (channel: number, value: number) => flat.map((v, c) => (c === channel ? value : v))
  const scans = [at(3, NaN), flat, flat, at(40, 0.05)].map((sketch) => {
    return { set: 'A', sketch, noise: NOISE, groups: [] }
  })
  const found = oddReasons(scans, DEFAULT_LIMITS).map((reason) => reason !== null)
  expect(found).toEqual([false, false, false, true])
})
