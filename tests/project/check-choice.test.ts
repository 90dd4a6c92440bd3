/** The recipe's check: how it is read, and what it changes. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { Activities } from '../../src/project/activity'
import { Chain } from '../../src/project/chain'
import { apply } from '../../src/project/commands'
import { matchesPattern } from '../../src/project/name-pattern'
import { emptyProject, NO_HOLDINGS, type Holdings } from '../../src/project/project'
import { EMPTY_RECIPE, parseRecipe, writeRecipe } from '../../src/project/recipe'
import type { CheckChoice } from '../../src/project/recipe-check'
import { withScans, type MadeScan } from './holdings'
import { CountingPool, scanOf, THREE } from './pools'

const parse = (check: unknown) => parseRecipe(JSON.stringify({ recipe: 1, check }))

test('a check is read and written as it stands', () => {
  const check: CheckChoice = {
    limits: { detectorStep: 0.03, whiteReferenceAge: 30 },
    standard: { scan: 'plastic*', positions: [1132.6, 1534.1] },
    rock: 'camp granite',
  }
  expect(parse(check).check).toEqual(check)
  expect(parseRecipe(writeRecipe(parse(check)))).toEqual(parse(check))
  const record = { scan: 'mica', record: 'mica.txt', bands: [[2150, 2250]] }
  expect(parse({ standard: record }).check).toEqual({ standard: record })
  expect(parse(undefined).check).toBeUndefined()
})

test.each([
  [{ limit: {} }, /check\.limit: no such key/],
  [{ limits: { detectorSteps: 1 } }, /check\.limits\.detectorSteps: no such key/],
  [{ limits: { detectorStep: -1 } }, /check\.limits\.detectorStep: -1 is not between/],
  [{ limits: { detectorStep: '2 %' } }, /a number is expected/],
  [{ standard: { scan: 'x' } }, /either positions or a record/],
  [{ standard: { scan: 'x', positions: [1400], record: 'y' } }, /either positions or a record/],
  [{ standard: { scan: 'x', positions: [1.4] } }, /between 350 and 2500 nm/],
  [{ standard: { scan: 'x', record: 'y' } }, /1 to 50 bands/],
  [{ standard: { scan: 'x', record: 'y', bands: [[2250, 2150]] } }, /a band \[from, to\]/],
  [{ rock: ' ' }, /the text is empty/],
])('%j is refused with its place', (check, message) => {
  expect(() => parse(check)).toThrow(message)
})

test('a pattern matches what its expression does', () => {
  const letters = fc.string({ unit: fc.constantFrom('a', 'B', '*'), maxLength: 7 })
  const words = fc.string({ unit: fc.constantFrom('a', 'b', 'A'), maxLength: 9 })
  fc.assert(
    fc.property(letters, words, (pattern, word) => {
      const expression = new RegExp(`^${pattern.replaceAll('*', '.*')}$`, 'i')
      expect(matchesPattern(pattern, word)).toBe(expression.test(word))
    }),
    { numRuns: 2000, seed: 11 },
  )
})

async function verdictsOf(holdings: Holdings, ...checks: readonly (CheckChoice | undefined)[]) {
  const pool = new CountingPool()
  const chain = new Chain(pool, THREE)
  let project = emptyProject('p', EMPTY_RECIPE)
  const run = () =>
    chain.run(project, holdings, {
      activities: new Activities(() => undefined),
      controller: new AbortController(),
      publish: () => undefined,
    })
  const found = [await run()]
  pool.reset()
  for (const check of checks) {
    project = apply(project, { do: 'set check', check }).project
    found.push(await run())
  }
  return { found, pool }
}

test('a limit changes verdicts at once, without a scan examined anew, and back', async () => {
  const holdings = withScans(NO_HOLDINGS, [scanOf(0), scanOf(1)])
  const limits = { signalToNoise: 1e5 }
  const { found, pool } = await verdictsOf(holdings, { limits }, undefined)
  expect(found.map(({ verdicts }) => verdicts[0].check)).toEqual(['sound', 'doubtful', 'sound'])
  expect(found[1].verdicts[0].reasons[0]).toMatchObject({ reason: 'noise', limit: 1e5 })
  expect(pool.count('examine')).toBe(0)
})

/** A scan at an hour, on a scale that reads `shift` too long. */
function at(scan: MadeScan, hour: number, shift = 0): MadeScan {
  const time = new Date(Date.UTC(2024, 4, 7, hour)).toISOString()
  return {
    ...scan,
    wavelengths: scan.wavelengths.map((nm) => nm + shift),
    metadata: { ...scan.metadata, Time: time },
  }
}

test('a standard is found by name and speaks against its day, by positions and by record', async () => {
  const record = { ...scanOf(0), name: 'trusted', file: 'known/kept.txt' }
  const scans = [
    record,
    at({ ...scanOf(3), name: 'Plate 1' }, 8, 2.5),
    at(scanOf(4), 9),
    at({ ...scanOf(6), name: 'Plate 2' }, 32),
    at(scanOf(7), 33),
  ]
  const holdings = withScans(NO_HOLDINGS, scans)
  const standard = { scan: 'plate*', record: 'kept.txt', bands: [[1440, 1550]] as const }
  const { found } = await verdictsOf(
    holdings,
    { standard },
    { standard: { ...standard, scan: 'q' } },
  )
  const reasons = found[1].verdicts.map((verdict) => verdict.reasons.map(({ reason }) => reason))
  expect(reasons).toEqual([
    [],
    ['wavelength standard'],
    ['wavelength shift'],
    ['wavelength standard'],
    [],
  ])
  expect(found[1].verdicts[2].reasons[0].measure).toBeCloseTo(2.5, 0)
  expect(found[2].verdicts.map(({ check }) => check)).toEqual(found[0].verdicts.map((v) => v.check))
  expect(found[2].problems.map(({ problem }) => problem)).toEqual([
    'its check names a wavelength standard ‘q’, of which no scan was read',
  ])
})

test('a check rock is found by its sample’s name and speaks against its day', async () => {
  const rock = (day: number, factor: number): MadeScan => {
    const scan = scanOf(0)
    const reflectance = scan.reflectance.map((value) => value * factor)
    const made = at({ ...scan, name: `R${day}`, file: `R${day}.txt`, reflectance }, 24 * day + 7)
    return { ...made, metadata: { ...made.metadata, Sample: 'Camp granite' } }
  }
  const holdings = withScans(NO_HOLDINGS, [
    ...[1, 1.002, 0.998, 0.8].map((factor, day) => rock(day, factor)),
    at(scanOf(1), 24 * 2 + 8),
    at(scanOf(4), 24 * 3 + 8),
  ])
  const { found } = await verdictsOf(holdings, { rock: 'camp granite' })
  const { verdicts } = found[1]
  expect(verdicts.slice(0, 4).map(({ check }) => check)).toEqual(Array(4).fill('set aside'))
  expect(verdicts[4].check).toBe('sound')
  expect(verdicts[5].reasons.map(({ reason }) => reason)).toEqual(['check rock level'])
})
