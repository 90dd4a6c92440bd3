/** Varieties stand beside the minerals by the presets' own formulas, and ask no more than they must. */
import { expect, test } from 'vitest'
import { presetOf, presetRule } from '../../src/indices/presets'
import { Activities } from '../../src/project/activity'
import { Chain } from '../../src/project/chain'
import { emptyProject, NO_HOLDINGS } from '../../src/project/project'
import { parseRecipe } from '../../src/project/recipe'
import { withScans } from './holdings'
import { CountingPool, scanOf, THREE } from './pools'

const HOLDINGS = withScans(
  NO_HOLDINGS,
  Array.from({ length: 30 }, (_, i) => scanOf(i)),
)

function preset(id: string) {
  const found = presetOf(id)
  if (!found) throw new Error(`no preset ${id}`)
  return found
}

const MICA = preset('white-mica-position')
const RECIPE = parseRecipe(JSON.stringify({ recipe: 1, indices: [presetRule(MICA)] }))

function run(pool: CountingPool, varieties: boolean, chain = new Chain(pool, THREE)) {
  return chain.run(emptyProject('p', RECIPE), HOLDINGS, {
    activities: new Activities(() => undefined),
    controller: new AbortController(),
    publish: () => undefined,
    varieties,
  })
}

test('are what the preset gives in the recipe, value, error and reason alike', async () => {
  const { varieties, indices, identifications } = await run(new CountingPool(), true)
  let told = 0
  identifications.forEach((found, scan) => {
    const mica = found?.minerals.some(({ group }) => group === 'white mica')
    expect(varieties[scan].has(MICA.id)).toBe(mica)
    if (!mica) return
    expect(varieties[scan].get(MICA.id)).toEqual(indices[0].scans[scan])
    if (indices[0].scans[scan].value !== null) told++
  })
  expect(told).toBeGreaterThan(5)
})

test('are measured on the scans that hold the mineral alone, and once', async () => {
  const pool = new CountingPool()
  const chain = new Chain(pool, THREE)
  await run(pool, true, chain)
  const alunite = pool.examinations.filter(({ leaves }) =>
    leaves.some(({ key }) => key.includes('1440')),
  )
  const asked = alunite.reduce((sum, { count }) => sum + count, 0)
  expect(asked).toBeGreaterThan(0)
  expect(asked).toBeLessThan(15)
  pool.reset()
  await run(pool, true, chain)
  expect(pool.examinations).toEqual([])
})

test('are not worked out where nobody asks for them', async () => {
  const pool = new CountingPool()
  const { varieties } = await run(pool, false)
  expect(varieties).toEqual([])
  const keys = pool.examinations.flatMap(({ leaves }) => leaves.map(({ key }) => key))
  expect(keys.some((key) => key.includes('2185'))).toBe(true)
  expect(keys.some((key) => key.includes('1440'))).toBe(false)
})
