/** Large surfaces are published before all of their nodes are known; known ones stand at once. */
import { expect, test } from 'vitest'
import { Activities } from '../../src/project/activity'
import { Chain } from '../../src/project/chain'
import { emptyProject, NO_HOLDINGS } from '../../src/project/project'
import { readSources } from '../../src/project/reading'
import type { SurfaceResult } from '../../src/project/results'
import { pool, recipeOf, run, sampleTable, source } from './field'
import { THREE } from './pools'

test('a large surface is published coarse first, and comes out the same bytes', async () => {
  const rule = { method: 'kriging', cell: 2, neighbours: 8 }
  const plain = await run([rule])
  const holdings = await readSources(pool, [source('samples.csv', sampleTable())], NO_HOLDINGS)
  const seen: SurfaceResult[] = []
  const { surfaces } = await new Chain(pool, THREE).run(
    emptyProject('p', recipeOf(rule)),
    holdings,
    {
      activities: new Activities(() => undefined),
      controller: new AbortController(),
      coarseFirst: true,
      publish: ({ surfaces: [first] }) => void (first?.partial && seen.push(first)),
    },
  )
  expect(surfaces[0].bands).toEqual(plain.results.surfaces[0].bands)
  expect(surfaces[0].partial ?? null).toBeNull()
  const grid = surfaces[0].bands?.grid
  expect(seen.map(({ state }) => state)).toEqual(seen.map(() => 'computing'))
  const [{ partial }] = seen
  expect(partial?.step).toBe(8)
  expect(partial?.bands.grid.cell).toBeGreaterThanOrEqual(grid?.cell ?? Infinity)
  const parts = seen.map((each) => each.partial?.part ?? NaN)
  expect(parts.length).toBeGreaterThan(2)
  expect([...parts].sort((a, b) => a - b)).toEqual(parts)
})

test('what is known stands at once, under another mask it is drawn again and no more', async () => {
  const chain = new Chain(pool, THREE)
  const value = { method: 'kriging', cell: 50 }
  const mask = (at_least: number) => ({
    ...value,
    name: 'high',
    mask: { surface: 'copper', at_least },
  })
  const first = await run([value, mask(20)], undefined, chain)
  pool.reset()
  const same = await run([value, mask(20)], undefined, chain)
  expect(pool.asked.map(({ task }) => task)).not.toContain('finish surface')
  expect(same.results.surfaces[1].bands).toBe(first.results.surfaces[1].bands)
  pool.reset()
  const other = await run([value, mask(60)], undefined, chain)
  expect(pool.count('finish surface')).toBe(1)
  expect(pool.count('surface tile')).toBe(0)
  expect(other.results.surfaces[1].bands).not.toEqual(first.results.surfaces[1].bands)
})
