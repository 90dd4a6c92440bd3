/** The chain: what a change computes anew and what it does not, and how soon Stop is heard. */
import { beforeEach, describe, expect, test } from 'vitest'
import { isStopped } from '../../src/jobs/pool'
import { Activities } from '../../src/project/activity'
import { Chain } from '../../src/project/chain'
import { apply, type Command } from '../../src/project/commands'
import type { DecisionAbout } from '../../src/project/decisions'
import { emptyProject, NO_HOLDINGS, type Project } from '../../src/project/project'
import { parseRecipe } from '../../src/project/recipe'
import type { Results } from '../../src/project/results'
import { withScans } from './holdings'
import { CountingPool, scanOf, THREE } from './pools'

const SCANS = 60
const symbol = { colour: '#0072B2', symbol: 'circle' as const }
const RECIPE = parseRecipe(
  JSON.stringify({
    recipe: 1,
    indices: [{ name: 'hydroxyl', formula: 'depth(2185, 2225, 2120, 2245)' }],
    classes: [{ name: 'mica', when: 'group("white mica") >= 0.3', ...symbol }],
    surfaces: [
      { name: 'hydroxyl', value: 'hydroxyl', method: 'inverse-distance', cell: 50, reach: 200 },
      { name: 'chance', group: 'white mica', method: 'class-probability', cell: 50, reach: 200 },
    ],
  }),
)

const HOLDINGS = withScans(
  NO_HOLDINGS,
  Array.from({ length: SCANS }, (_, i) => scanOf(i)),
)

let pool: CountingPool
let chain: Chain
let project: Project
beforeEach(() => {
  pool = new CountingPool()
  chain = new Chain(pool, THREE)
  project = emptyProject('p', RECIPE)
})

function run(controller = new AbortController(), holdings = HOLDINGS): Promise<Results> {
  return chain.run(project, holdings, {
    activities: new Activities(() => undefined),
    controller,
    publish: () => undefined,
  })
}

async function after(...commands: readonly Command[]): Promise<Results> {
  await run()
  pool.reset()
  for (const command of commands) project = apply(project, command).project
  return run()
}

const decide = (scan: string, about: DecisionAbout): Command => ({
  do: 'decide',
  decisions: [{ file: `${scan}.txt`, scan, about, who: 'w', when: '2024-05-07', why: 'y' }],
})

describe('the first run', () => {
  test('examines every scan once, and classes and draws what it finds', async () => {
    const results = await run()
    const rows = pool.examinations.reduce((sum, { count }) => sum + count, 0)
    expect(rows).toBe(SCANS)
    expect(results.stationClasses.filter((name) => name === 'mica')).toHaveLength(SCANS / 3)
    expect(results.surfaces.map(({ state, failure }) => [state, failure])).toEqual([
      ['ready', null],
      ['ready', null],
    ])
    expect(results.placement.crs.code).toBe('EPSG:32719')
  })

  test('a tile is no longer than it takes to be stopped within 50 ms', async () => {
    await run()
    for (const { count } of pool.examinations) expect(count).toBeLessThanOrEqual(24)
  })

  test('run again on the same, nothing is asked of the workers', async () => {
    const first = await run()
    pool.reset()
    const second = await run()
    expect(pool.asked).toEqual([])
    expect(second.indices).toBe(first.indices)
    expect(second.stationClasses).toBe(first.stationClasses)
  })
})

describe('what a change computes anew', () => {
  test('a class threshold: no examination, no identification, no surface', async () => {
    const when = 'group("white mica") >= 0.99 and [hydroxyl] > 0.9'
    const results = await after({ do: 'set classes', classes: [{ name: 'mica', when, ...symbol }] })
    expect(results.stationClasses).not.toContain('mica')
    expect(pool.count('examine')).toBe(0)
    expect(pool.count('plan surface') + pool.count('surface tile')).toBe(0)
  })

  test('a class that reads something new off the spectrum: that alone', async () => {
    const when = 'reflectance(1650) > 0'
    const results = await after({ do: 'set classes', classes: [{ name: 'all', when, ...symbol }] })
    expect(new Set(results.stationClasses)).toEqual(new Set(['all']))
    for (const { check, identify, leaves } of pool.examinations) {
      expect([check, identify]).toEqual([false, false])
      expect(leaves).toHaveLength(1)
    }
  })

  test('a verdict by hand: no examination, but the surfaces that lose a point', async () => {
    const results = await after(decide('S1', { kind: 'verdict', check: 'set aside' }))
    expect(results.verdicts[1].check).toBe('set aside')
    expect(results.identifications[1]).toBeNull()
    expect(pool.count('examine')).toBe(0)
    expect(pool.count('plan surface')).toBe(2)
  })

  test('a cell size: that surface and no other', async () => {
    const [hydroxyl, chance] = RECIPE.surfaces
    const surfaces = [{ ...hydroxyl, cell: 40 }, chance]
    const results = await after({ do: 'set surfaces', surfaces })
    expect(results.surfaces[0].bands?.grid.cell).toBe(40)
    expect(pool.count('plan surface')).toBe(1)
  })

  test('a mask: no surface is computed, one is blanked', async () => {
    const [hydroxyl, chance] = RECIPE.surfaces
    const masked = { ...hydroxyl, mask: { surface: 'chance', at_least: 0.5 } }
    const before = await run()
    const results = await after({ do: 'set surfaces', surfaces: [masked, chance] })
    expect(pool.count('plan surface')).toBe(0)
    const drawn = (found: Results) =>
      found.surfaces[0].bands?.estimate.filter((value) => !Number.isNaN(value)).length ?? 0
    expect(drawn(results)).toBeLessThan(drawn(before))
    expect(drawn(results)).toBeGreaterThan(0)
  })

  test('other references: every scan is identified anew, none is checked again', async () => {
    const [alunite] = THREE.sets[0].references
    const references = { off: [alunite.record], ranges: {} }
    const results = await after({ do: 'set references', references })
    expect(pool.examinations.reduce((sum, { count }) => sum + count, 0)).toBe(SCANS)
    for (const { check, identify } of pool.examinations)
      expect([check, identify]).toEqual([false, true])
    const named = results.identifications.flatMap((found) => found?.minerals ?? [])
    expect(named.map(({ group }) => group)).not.toContain('alunite')
  })

  test('more scans: they alone, with what shares their tile', async () => {
    await run()
    pool.reset()
    const results = await run(undefined, withScans(HOLDINGS, [scanOf(SCANS)]))
    expect(results.heads).toHaveLength(SCANS + 1)
    expect(pool.examinations.reduce((sum, { count }) => sum + count, 0)).toBeLessThanOrEqual(24)
  })

  test('a hidden file: its scan is gone, and back when it is shown again', async () => {
    const results = await after({ do: 'hide files', paths: ['S5.txt'] })
    expect(results.heads.map(({ name }) => name)).not.toContain('S5')
    expect(results.scanNumbers).not.toContain(5)
    project = apply(project, { do: 'set hidden', hidden: [] }).project
    expect((await run()).heads).toHaveLength(SCANS)
    expect(pool.count('examine')).toBe(0)
  })
})

describe('stop', () => {
  test('during the examination: the tile under way ends, no other begins, what was found is kept', async () => {
    const controller = new AbortController()
    let examined = 0
    const activities = new Activities(() => {
      const [activity] = activities.list
      if (!activity || activity.done === 0) return
      examined = activity.done
      controller.abort()
    })
    const error: unknown = await chain
      .run(project, HOLDINGS, { activities, controller, publish: () => undefined })
      .catch((reason: unknown) => reason)
    expect(isStopped(error)).toBe(true)
    expect(examined).toBe(24)
    expect(activities.list).toEqual([])
    pool.reset()
    const results = await run()
    expect(pool.examinations.reduce((sum, { count }) => sum + count, 0)).toBe(SCANS - 24)
    expect(results.identifications.every((found) => found !== null)).toBe(true)
  })

  test('during a surface: no further surface is begun; a later run draws both', async () => {
    const controller = new AbortController()
    pool.before = (task) => {
      if (task === 'surface tile') controller.abort()
    }
    const error: unknown = await run(controller).catch((reason: unknown) => reason)
    expect(isStopped(error)).toBe(true)
    expect(pool.count('plan surface')).toBe(1)
    pool.before = () => undefined
    const { surfaces } = await run()
    expect(surfaces.map(({ state }) => state)).toEqual(['ready', 'ready'])
  })
})

test('a surface that fails stops no other, and says why', async () => {
  const [hydroxyl] = RECIPE.surfaces
  const surfaces = [
    { ...hydroxyl, name: 'a', mask: { surface: 'b', at_least: 0 } },
    { ...hydroxyl, name: 'b', value: 'none' },
    { ...hydroxyl, name: 'c' },
  ]
  project = apply(project, { do: 'set surfaces', surfaces }).project
  const results = await run()
  expect(results.surfaces.map(({ state }) => state)).toEqual(['failed', 'failed', 'ready'])
  expect(results.surfaces[0].failure).toMatch(/‘b’, could not be computed/)
  expect(results.surfaces[1].failure).toMatch(/‘none’/)
})

test('surfaces that mask each other in a circle end in words', async () => {
  const [hydroxyl] = RECIPE.surfaces
  const surfaces = [
    { ...hydroxyl, name: 'a', mask: { surface: 'b', at_least: 0 } },
    { ...hydroxyl, name: 'b', mask: { surface: 'a', at_least: 0 } },
  ]
  project = apply(project, { do: 'set surfaces', surfaces }).project
  const results = await run()
  expect(results.surfaces.filter(({ state }) => state === 'failed')).toHaveLength(2)
  for (const { failure } of results.surfaces) expect(failure).toMatch(/mask/)
})
