/** The check against library records as they are, and with faults put in. */
import { expect, test } from 'vitest'
import { checkScans } from '../../src/check/judge'
import type { Verdict } from '../../src/check/verdict'
import type { Spectrum } from '../../src/spectra/spectrum'
import { normal } from '../spectra/chance'
import { libraryMissing, libraryNames, libraryRecord } from '../spectra/library'
import { changed, filmed, inked, labelled, noisy, overgrown, PAPER, stepped, wet } from './faults'
import { LAMPS, lit } from './lamps'

/** One standard deviation of reflectance of an ordinary field scan. */
const FIELD_NOISE = 0.001

const UNTIMED = { time: null, whiteReference: null }

function check(spectra: readonly Spectrum[]): Verdict[] {
  return checkScans(spectra.map((spectrum, i) => ({ name: `scan ${i}`, known: UNTIMED, spectrum })))
}

function has(verdict: Verdict, reason: string): boolean {
  return verdict.reasons.some((found) => found.reason === reason)
}

/** A hundred library records of a field instrument, spread over them all, with field noise. */
function fieldScans(seed: number, take: (name: string) => boolean = () => true): Spectrum[] {
  const chance = normal(seed)
  const names = libraryNames().filter((name) => name.includes('_ASD') && take(name))
  const wanted = Math.min(100, names.length)
  return Array.from(
    { length: wanted },
    (_, i) => names[Math.floor((i * names.length) / wanted)],
  ).map((name) => noisy(libraryRecord(name), FIELD_NOISE, chance))
}

test.skipIf(libraryMissing)(
  'under 2 % of clean library records with field noise are doubted',
  () => {
    const chance = normal(31)
    const names = (['minerals', 'mixtures'] as const).flatMap((kind) =>
      libraryNames(kind).map((name) => ({ kind, name })),
    )
    const spectra = [0.0005, 0.00075, 0.001].flatMap((noise) =>
      names.map(({ kind, name }) => noisy(libraryRecord(name, kind), noise, chance)),
    )
    const doubted = check(spectra).filter(({ check }) => check !== 'sound').length
    console.info(`clean: ${doubted} of ${spectra.length} doubted`)
    expect(spectra.length).toBeGreaterThan(1000)
    expect(doubted / spectra.length).toBeLessThan(0.02)
  },
)

test.skipIf(libraryMissing)('dry minerals that hold water, and dark rock, are not wet', () => {
  const dry =
    /_(Montmorillonite|Beidellite|Nontronite|Hectorite|Saponite|Illite|Halloysite|Vermiculite|Gypsum|Opal|Chalcedony|Clinoptilolite|Heulandite|Stilbite|Laumontite|Mordenite|Analcime|Alunite|Jarosite|Copiapite|Magnetite|Hematite|Goethite|Pyrite)_/
  const chance = normal(32)
  const names = libraryNames().filter((name) => dry.test(name))
  expect(names.length).toBeGreaterThan(80)
  const verdicts = check(names.map((name) => noisy(libraryRecord(name), FIELD_NOISE, chance)))
  expect(names.filter((_, i) => has(verdicts[i], 'wet sample'))).toEqual([])
})

/** Minerals whose own water hides free water in one scan; docs/methods/check.md says so. */
const HYDROUS =
  /Montmor|Beidell|Nontron|Hector|Sapon|Illite|Halloys|Gypsum|Opal|Stilbite|Natrolite|Chrysocolla|Chrysotile|Alunite_HS295\.[346]/

type Fault = [reason: string, unit: string, strengths: number[], put: Put]

/** Faults at weak, middle and strong; the middle one must be found in at least 95 of 100. */
const FAULTS: Fault[] = [
  ['detector step', 'relative', [0.015, 0.03, 0.06], (s, by) => stepped(s, by)],
  ['wet sample', 'µm of water', [10, 25, 50], (s, by) => wet(s, by)],
  ['noise', 'sd', [0.01, 0.05, 0.1], (s, by, chance) => noisy(s, by, chance)],
  ['plastic or grease', 'depth at 1730', [0.02, 0.06, 0.15], (s, by) => filmed(s, by)],
  ['vegetation or lichen', 'part of the spot', [0.05, 0.3, 0.6], (s, by) => overgrown(s, by)],
  [
    'marker ink',
    'black to 680 nm, light taken',
    [0.15, 0.65, 0.9],
    (s, by) => inked(s, by, 0, 680),
  ],
  [
    'marker ink',
    'black to 750 nm, light taken',
    [0.15, 0.65, 0.9],
    (s, by) => inked(s, by, 0, 750),
  ],
  ['marker ink', 'blue, light taken', [0.15, 0.65, 0.9], (s, by) => inked(s, by, 560, 700)],
  ['paper or wood', 'part of the spot', [0.2, 0.7, 0.95], (s, by) => labelled(s, by)],
  ...Object.keys(LAMPS)
    .filter((lamp) => lamp !== 'white diode')
    .map((lamp): Fault => [
      'room light',
      `${lamp}, part of the probe’s light`,
      [0.0003, 0.02, 0.06],
      (s, by) => lit(s, lamp, by),
    ]),
  ['reflectance over 1', 'brightest part', [1.03, 1.15, 1.5], (s, by) => brightest(s, by)],
  ['reflectance under 0', 'darkest part', [-0.003, -0.02, -0.1], (s, by) => darkest(s, by)],
]
/** Values between 420 and 2400 nm, sorted. */
function judgedPart({ wavelengths, reflectance }: Spectrum): Float32Array {
  return Float32Array.from(reflectance)
    .filter((v, i) => !Number.isNaN(v) && wavelengths[i] > 420 && wavelengths[i] < 2400)
    .sort()
}

/** The scan scaled so that its 95th percentile is as given. */
function brightest(spectrum: Spectrum, level: number): Spectrum {
  const sorted = judgedPart(spectrum)
  const factor = level / sorted[Math.floor(0.95 * sorted.length)]
  return changed(spectrum, (value) => value * factor)
}

/** The scan lowered so that its 5th percentile is as given. */
function darkest(spectrum: Spectrum, level: number): Spectrum {
  const sorted = judgedPart(spectrum)
  const offset = level - sorted[Math.floor(0.05 * sorted.length)]
  return changed(spectrum, (value) => value + offset)
}

type Put = (spectrum: Spectrum, by: number, chance: () => number) => Spectrum

for (const [reason, unit, strengths, put] of FAULTS) {
  test.skipIf(libraryMissing)(`${reason} (${unit}) is found at the middle strength`, () => {
    const chance = normal(41)
    const found = strengths.map((strength) => {
      const clean = fieldScans(40, (name) => reason !== 'wet sample' || !HYDROUS.test(name))
      const verdicts = check(clean.map((spectrum) => put(spectrum, strength, chance)))
      // A scan that is no more than darkness is set aside as such.
      const told = (verdict: Verdict) => has(verdict, reason) || has(verdict, 'no signal')
      return verdicts.filter(told).length / clean.length
    })
    console.info(
      `${reason}, ${unit}: ${strengths.map((s, i) => `${s} → ${(100 * found[i]).toFixed(0)} %`).join(', ')}`,
    )
    expect(found[1]).toBeGreaterThanOrEqual(0.95)
    expect(found[2]).toBeGreaterThanOrEqual(0.95)
  })
}

test.skipIf(libraryMissing)(
  'paper on 70 % of the spot is found on any field record, three seeds',
  () => {
    const records = (['minerals', 'mixtures'] as const).flatMap((kind) =>
      libraryNames(kind)
        .filter((name) => name.includes('_ASD'))
        .map((name) => libraryRecord(name, kind)),
    )
    for (const seed of [40, 71, 72]) {
      const chance = normal(seed)
      const part = (paper: () => typeof PAPER): number => {
        const scans = records.map((record) =>
          labelled(noisy(record, FIELD_NOISE, chance), 0.7, paper()),
        )
        return check(scans).filter((verdict) => has(verdict, 'paper or wood')).length / scans.length
      }
      // Each band by a third more or less, each width by a seventh, one standard deviation.
      const other = () =>
        PAPER.map(
          ([at, width, a]) =>
            [at, width * Math.exp(0.15 * chance()), a * Math.exp(0.35 * chance())] as const,
        )
      const [white, others] = [part(() => PAPER), part(other)]
      console.info(
        `paper on 70 % of ${records.length} records, seed ${seed}: ${(100 * white).toFixed(1)} %, papers whose bands differ ${(100 * others).toFixed(1)} %`,
      )
      expect(white).toBeGreaterThanOrEqual(0.95)
      expect(others).toBeGreaterThanOrEqual(0.85)
    }
  },
)

test.skipIf(libraryMissing)(
  'reasons carry measure, limit, unit and words that say what to do',
  () => {
    const [scan] = fieldScans(50, (name) => name.includes('Muscovite_GDS113_Ruby'))
    const [verdict] = check([stepped(wet(scan, 40), 0.05)])
    expect(verdict.check).toBe('doubtful')
    const step = verdict.reasons.find(({ reason }) => reason === 'detector step')
    expect(step?.measure).toBeCloseTo(1 / 1.05 - 1, 2)
    expect(step?.limit).toBe(0.015)
    expect(step?.words).toMatch(/1000|1001/)
    expect(verdict.reasons.some(({ reason }) => reason === 'wet sample')).toBe(true)
    expect(verdict.noise).toBeGreaterThan(0.0007)
    expect(verdict.noise).toBeLessThan(0.0014)
  },
)

test('a scan of the panel, of nothing, and a filled-in file are not rock', () => {
  const chance = normal(51)
  const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)
  const level = (value: number) => ({ wavelengths, reflectance: wavelengths.map(() => value) })
  const panel = noisy(level(0.99), 0.001, chance)
  const dark = noisy(level(0.002), 0.0005, chance)
  const empty = level(NaN)
  const stuck = noisy(level(0.4), 0.001, chance)
  stuck.reflectance.fill(0.61, 900, 960)
  const [a, b, c, d] = check([panel, dark, empty, stuck])
  expect([a.check, a.reasons[0].reason]).toEqual(['set aside', 'white panel'])
  expect([b.check, b.reasons[0].reason]).toEqual(['set aside', 'no signal'])
  expect([c.check, c.reasons[0].reason]).toEqual(['set aside', 'no values'])
  expect([d.check, d.reasons[0].reason]).toEqual(['doubtful', 'flat stretch'])
  expect(d.reasons[0].measure).toBeCloseTo(59, 0)
})

test('copies are set aside, re-saved copies doubted, repeats of a spot left alone', () => {
  const chance = normal(52)
  const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)
  const rock = { wavelengths, reflectance: wavelengths.map((nm) => 0.3 + 0.0001 * (nm - 350)) }
  const first = noisy(rock, 0.001, chance)
  const again = noisy(rock, 0.001, chance)
  const rounded = changed(first, (value) => Math.round(value * 1e4) / 1e4)
  const verdicts = check([first, again, first, rounded])
  expect(verdicts.map(({ check }) => check)).toEqual(['sound', 'sound', 'set aside', 'doubtful'])
  expect(verdicts[2].reasons[0].words).toContain('scan 0')
  expect(verdicts[3].reasons[0].reason).toBe('near duplicate')
})

test('the copy is the one with the longer name, wherever it stands', () => {
  const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)
  const rock = { wavelengths, reflectance: wavelengths.map((nm) => 0.3 + 0.0001 * (nm - 350)) }
  const spectrum = noisy(rock, 0.001, normal(54))
  const known = { time: null, whiteReference: null }
  const verdicts = checkScans(
    ['KR02_1 copy', 'KR02_1', 'KR02_2'].map((name) => ({ name, known, spectrum })),
  )
  expect(verdicts.map(({ check }) => check)).toEqual(['set aside', 'sound', 'set aside'])
  expect(verdicts[0].reasons[0].words).toContain('KR02_1 counts')
})

test('the white reference ages; what has no time cannot be told and is no doubt', () => {
  const chance = normal(53)
  const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)
  const rock = { wavelengths, reflectance: wavelengths.map((nm) => 0.3 + 0.0001 * (nm - 350)) }
  const at = (minutes: number | null) =>
    minutes === null ? null : { seconds: 1.7e9 + 60 * minutes, zoneStated: true }
  const cases: [time: number | null, white: number | null][] = [
    [5, 0],
    [16, 0],
    [20, null],
    [31, 20],
    [null, null],
    [3000, null],
    [40, 45],
  ]
  const verdicts = checkScans(
    cases.map(([time, white], i) => ({
      name: `scan ${i}`,
      known: { time: at(time), whiteReference: at(white) },
      spectrum: noisy(rock, 0.001, chance),
    })),
  )
  const ages = verdicts.map(({ reasons }) => reasons.map(({ measure }) => Math.round(measure)))
  expect(ages).toEqual([[], [16], [], [], [], [], []])
  expect(verdicts[1].reasons[0]).toMatchObject({ reason: 'stale white reference', limit: 15 })
  expect(verdicts[4].cannotTell?.join(' ')).toContain('no time')
  expect(verdicts[5].cannotTell?.join(' ')).toContain('that day')
  expect(verdicts[6].cannotTell?.join(' ')).toContain('later than')
  expect(verdicts[4].check).toBe('sound')
})
