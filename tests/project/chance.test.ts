/** A simulated chance from stations to a surface, by workers and without. */
import { describe, expect, test } from 'vitest'
import { isStopped } from '../../src/jobs/pool'
import { computeChance } from '../../src/surfaces/chance'
import { planSurface } from '../../src/surfaces/compute'
import { Activities } from '../../src/project/activity'
import { Chain } from '../../src/project/chain'
import { emptyProject, NO_HOLDINGS } from '../../src/project/project'
import { readSources } from '../../src/project/reading'
import { pool, sampleTable, source, recipeOf, run } from './field'
import { THREE } from './pools'

describe('the chance of exceeding a value', () => {
  const rule = { method: 'chance-above', above: 50, cell: 50, reach: 200, realisations: 60 }

  test('is drawn in stretches, with progress, and is the same as in one thread', async () => {
    pool.reset()
    const { results, report } = await run([rule])
    const [{ bands, failure, unit, sentence, points }] = results.surfaces
    expect(failure).toBeNull()
    expect(unit).toBe('')
    expect(sentence).toContain('From 60 realisations')
    expect(report[0]).toMatchObject({ above: 50, realisations: 60, method: 'chance-above' })
    if (!bands || !points) throw new Error('nothing was drawn')
    const asRule = { ...rule, name: 'copper', value: 'copper', method: 'chance-above' as const }
    expect(bands).toEqual(computeChance(planSurface(asRule, points, { grid: bands.grid })))
    expect(pool.count('draw stretch')).toBe(
      2 * Math.ceil((bands.grid.columns * bands.grid.rows) / 800),
    )
  })

  test('stops between stretches', async () => {
    const controller = new AbortController()
    pool.reset()
    pool.before = (task, count) => {
      if (task === 'draw stretch' && count === 2) controller.abort()
    }
    const holdings = await readSources(pool, [source('samples.csv', sampleTable())], NO_HOLDINGS)
    const options = {
      activities: new Activities(() => undefined),
      controller,
      publish: () => undefined,
    }
    const running = new Chain(pool, THREE).run(emptyProject('p', recipeOf(rule)), holdings, options)
    await expect(running).rejects.toSatisfy(isStopped)
    expect(pool.count('draw stretch')).toBe(2)
    pool.before = () => undefined
  })

  test('needs its value; the value goes with nothing else', () => {
    expect(() => recipeOf({ method: 'chance-above' })).toThrow(/above/)
    expect(() => recipeOf({ method: 'kriging', above: 5 })).toThrow(/chance-above alone/)
    expect(() => recipeOf({ method: 'chance-above', above: 5, realisations: 5 })).toThrow(
      /realisations/,
    )
  })
})
