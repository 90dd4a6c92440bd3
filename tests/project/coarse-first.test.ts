/** Large surfaces are published before all of their nodes are known; known ones stand at once. */
import { expect, test } from 'vitest'
import { Activities } from '../../src/project/activity'
import { Chain } from '../../src/project/chain'
import { emptyProject, NO_HOLDINGS } from '../../src/project/project'
import { readSources } from '../../src/project/reading'
import type { SurfaceResult } from '../../src/project/results'
import { everyValue } from '../../src/surfaces/coarse'
import { pool, recipeOf, recipeWith, run, sampleTable, source } from './field'
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

async function seenAndFinal(rule: object, classes: object[] = []) {
  const plain = await run([rule], undefined, undefined, classes)
  const holdings = await readSources(pool, [source('samples.csv', sampleTable())], NO_HOLDINGS)
  const seen: SurfaceResult[] = []
  const { surfaces } = await new Chain(pool, THREE).run(
    emptyProject('p', recipeWith(classes, [rule])),
    holdings,
    {
      activities: new Activities(() => undefined),
      controller: new AbortController(),
      coarseFirst: true,
      publish: ({ surfaces: [first] }) => void (first?.partial && seen.push(first)),
    },
  )
  expect(surfaces[0].failure).toBeNull()
  expect(surfaces[0].bands).toEqual(plain.results.surfaces[0].bands)
  expect(surfaces[0].partial ?? null).toBeNull()
  return { seen, final: surfaces[0] }
}

test('a chance is shown as kriging has it, then from the realisations so far', async () => {
  const rule = { method: 'chance-above', above: 50, cell: 12, reach: 100, realisations: 120 }
  const { seen, final } = await seenAndFinal(rule)
  const told = seen.map(({ partial }) => partial?.realisations ?? null)
  expect(told[0]).toBeNull()
  expect(told.length).toBe(3)
  expect(told[1]?.[1]).toBe(120)
  expect(told[2]?.[0]).toBeGreaterThan(told[1]?.[0] ?? Infinity)
  const nodes = final.bands?.estimate ?? new Float64Array(0)
  for (const { partial } of seen) {
    const shown = partial?.bands.estimate ?? new Float64Array(0)
    expect(shown.length).toBe(nodes.length)
    shown.forEach((chance, node) => expect(Number.isNaN(chance)).toBe(Number.isNaN(nodes[node])))
    expect(meanOf(shown.map((chance, node) => Math.abs(chance - nodes[node])))).toBeLessThan(0.06)
    expect(Math.abs(meanOf(shown) - meanOf(nodes))).toBeLessThan(0.05)
  }
})

test('the likeliest class is shown coarse, all classes together', async () => {
  const classes = [{ name: 'high', when: '[copper] >= 60', colour: '#CC79A7', symbol: 'triangle' }]
  const rule = {
    value: undefined,
    method: 'likeliest-class',
    classes: ['high', 'low'],
    cell: 4,
    reach: 90,
  }
  const both = [...classes, { ...classes[0], name: 'low', when: '[copper] < 30' }]
  const { seen, final } = await seenAndFinal(rule, both)
  expect(seen.length).toBe(1)
  const [{ partial, likeliest }] = seen
  const [coarse, full] = [partial?.bands, final.bands]
  if (!coarse || !full || !likeliest) throw new Error('nothing shown')
  expect(partial?.step).toBe(4)
  expect(coarse.grid.cell).toBe(16)
  expect(coarse.estimate).toEqual(everyValue(full.grid, full.estimate, 4))
  expect(likeliest.doubt).toEqual(everyValue(full.grid, final.likeliest?.doubt ?? full.estimate, 4))
})

function meanOf(values: Float64Array): number {
  const known = values.filter((value) => !Number.isNaN(value))
  return known.reduce((a, b) => a + b, 0) / known.length
}
