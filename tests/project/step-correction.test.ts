/** The step correction, switched on and off scan by scan: what it reaches and what it leaves alone. */
import { beforeEach, expect, test } from 'vitest'
import { Activities } from '../../src/project/activity'
import { Chain } from '../../src/project/chain'
import { apply } from '../../src/project/commands'
import { layersInput } from '../../src/project/layers-input'
import { emptyProject, NO_HOLDINGS, type Project } from '../../src/project/project'
import { parseRecipe } from '../../src/project/recipe'
import type { Results } from '../../src/project/results'
import { spectrumShown } from '../../src/project/spectrum-shown'
import { spectrumOf } from '../../src/spectra/scan-store'
import { withScans, type MadeScan } from './holdings'
import { CountingPool, scanOf, THREE } from './pools'

/** A scan whose first detector reads 4 % too high. */
function stepped(scan: MadeScan): MadeScan {
  const { wavelengths } = scan
  const reflectance = scan.reflectance.map(
    (value, i) => value * (wavelengths[i] <= 1000 ? 1.04 : 1),
  )
  return { ...scan, reflectance }
}

const SOUND = Array.from({ length: 30 }, (_, i) => scanOf(i))
const HOLDINGS = withScans(NO_HOLDINGS, [
  ...SOUND.slice(0, 7),
  stepped(SOUND[7]),
  ...SOUND.slice(8),
])
const RECIPE = parseRecipe(
  JSON.stringify({ recipe: 1, indices: [{ name: 'level', formula: 'mean(800, 990)' }] }),
)

let pool: CountingPool
let chain: Chain
let project: Project
beforeEach(() => {
  pool = new CountingPool()
  chain = new Chain(pool, THREE)
  project = emptyProject('p', RECIPE)
})

function run(): Promise<Results> {
  return chain.run(project, HOLDINGS, {
    activities: new Activities(() => undefined),
    controller: new AbortController(),
    publish: () => undefined,
  })
}

function decide(on: boolean): void {
  const { file, name } = HOLDINGS.heads[7]
  const about = { kind: 'step correction', on } as const
  const decision = { file, scan: name, about, who: 'w', when: '2024-05-07', why: 'y' }
  project = apply(project, { do: 'decide', decisions: [decision] }).project
}

test('a step is doubted, sound once it is corrected, and doubted again when switched off', async () => {
  const before = await run()
  expect(before.verdicts[7].check).toBe('doubtful')
  expect(before.verdicts[7].reasons.map(({ reason }) => reason)).toEqual(['detector step'])
  decide(true)
  const after = await run()
  expect(after.verdicts[7].check).toBe('sound')
  expect(after.verdicts[7].reasons[0].reason).toBe('detector step')
  expect(after.verdicts[7].reasons[0].words).toMatch(/^Reflectance jumped by −3\.\d %.*corrected/)
  decide(false)
  expect((await run()).verdicts).toEqual(before.verdicts)
})

test('indices are read off the corrected scan, and only that scan is examined anew', async () => {
  await run()
  pool.reset()
  decide(true)
  const results = await run()
  const { indices } = results
  expect(pool.examinations.map(({ count, corrected }) => [count, corrected])).toEqual([[1, [0]]])
  const truth = spectrumOf(withScans(NO_HOLDINGS, [SOUND[7]]).scans, 0)
  const shown = spectrumShown(HOLDINGS, project.decisions, 7, results)
  const at = truth.wavelengths.indexOf(900)
  // To 0.2 % reflectance.
  expect(Math.abs(shown.reflectance[at] - truth.reflectance[at])).toBeLessThan(0.002)
  expect(
    Math.abs(spectrumOf(HOLDINGS.scans, 7).reflectance[at] / truth.reflectance[at]),
  ).toBeCloseTo(1.04, 5)
  let sum = 0
  let count = 0
  shown.wavelengths.forEach((nm, i) => {
    if (nm < 800 || nm > 990) return
    sum += shown.reflectance[i]
    count++
  })
  expect(indices[0].scans[7].value).toBeCloseTo(sum / count, 9)
})

test('the report says what was corrected, of that scan alone', async () => {
  decide(true)
  const { notes } = layersInput(project, HOLDINGS, await run()).facts
  const said = notes.filter((note) => note.includes('detector steps'))
  expect(said).toHaveLength(1)
  expect(said[0]).toContain(HOLDINGS.heads[7].name)
  expect(said[0]).toMatch(
    /-3\.\d\d % \(± 0\.\d\d %, told together with 24 other spots\) at 1001\.0 nm, the outer detector times 0\.96\d\d\./,
  )
})

/** Twelve spots scanned one a minute after one white reference, each with the same step. */
function session(): MadeScan[] {
  return Array.from({ length: 12 }, (_, i) => {
    const scan = stepped(scanOf(i))
    const minute = String(i).padStart(2, '0')
    const metadata = {
      ...scan.metadata,
      time: `2024-05-07T09:${minute}:00Z`,
      'white reference time': '2024-05-07T08:58:00Z',
    }
    return { ...scan, metadata }
  })
}

/** The scan so dark that noise hides its step. */
function dark(scan: MadeScan): MadeScan {
  const reflectance = scan.reflectance.map((value, k) => 0.06 * value + 0.0008 * Math.sin(k ** 2))
  return { ...scan, reflectance }
}

test('other spots of the white reference tell a dark scan’s step, and the words say so', async () => {
  const scans = session()
  scans[7] = dark(scans[7])
  const holdings = withScans(NO_HOLDINGS, scans)
  const options = {
    activities: new Activities(() => undefined),
    controller: new AbortController(),
    publish: () => undefined,
  }
  decide(true)
  const results = await chain.run(project, holdings, options)
  expect(pool.count('estimate steps')).toBe(1)
  const [step] = results.verdicts[7].corrected ?? []
  expect(step.rocks).toBe(11)
  expect(Math.abs(step.size - (1 / 1.04 - 1))).toBeLessThan(0.003)
  expect(results.verdicts[7].reasons.map(({ words }) => words).join()).toContain(
    'told together with 11 other spots',
  )
  const { notes } = layersInput(project, holdings, results).facts
  expect(notes.join()).toContain('told together with 11 other spots')
  const alone = await new Chain(new CountingPool(), THREE).run(
    project,
    withScans(NO_HOLDINGS, scans.slice(7, 8)),
    options,
  )
  const left = alone.verdicts[0]
  const own = [...(left.corrected ?? []), ...(left.untold ?? [])][0]
  expect(own.rocks).toBeUndefined()
  expect(own.error).toBeGreaterThan(2 * step.error)

  // What is drawn is what was examined, and nothing is asked of a worker again.
  const shown = spectrumShown(holdings, project.decisions, 7, results)
  const raw = spectrumOf(holdings.scans, 7)
  expect(shown.reflectance[0] / raw.reflectance[0]).toBeCloseTo(step.change, 6)
  pool.reset()
  await chain.run(project, holdings, options)
  expect(pool.asked).toEqual([])
})

test('a spot that is left out speaks no more, and the scan is corrected anew', async () => {
  const holdings = withScans(NO_HOLDINGS, session())
  const options = {
    activities: new Activities(() => undefined),
    controller: new AbortController(),
    publish: () => undefined,
  }
  decide(true)
  await chain.run(project, holdings, options)
  project = { ...project, hidden: [holdings.heads[0].file] }
  pool.reset()
  const { verdicts } = await chain.run(project, holdings, options)
  expect(verdicts[6].corrected?.[0].rocks).toBe(10)
  expect(pool.count('estimate steps')).toBe(0)
  expect(pool.examinations.map(({ count, corrected }) => [count, corrected])).toEqual([[1, [0]]])
})
