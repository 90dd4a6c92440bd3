/** From a project's stations to surfaces: what is told of how far each can be believed. */
import { expect, test } from 'vitest'
import { isStopped } from '../../src/jobs/pool'
import { Activities } from '../../src/project/activity'
import { Chain } from '../../src/project/chain'
import { compareOn } from '../../src/project/comparing'
import { layersInput } from '../../src/project/layers-input'
import { emptyProject, NO_HOLDINGS, type Holdings } from '../../src/project/project'
import { readSources, type InputSource } from '../../src/project/reading'
import { parseRecipe } from '../../src/project/recipe'
import type { Results } from '../../src/project/results'
import { reportJson } from '../../src/layers/report'
import { CountingPool, THREE } from './pools'

const pool = new CountingPool()

/** A field that falls off smoothly from a centre, sampled on an uneven lattice of 100 m. */
function sampleTable(cell: (i: number) => string = (i) => valueAt(i).toFixed(3)): string {
  const rows = Array.from({ length: 64 }, (_, i) => {
    const [x, y] = placeOf(i)
    return `N${i},${x.toFixed(2)},${y.toFixed(2)},${cell(i)}`
  })
  return ['SampleID,East,North,Cu_ppm', ...rows].join('\n') + '\n'
}

function placeOf(i: number): [number, number] {
  const x = 500000 + 100 * (i % 8) + 30 * Math.sin(7.1 * i)
  const y = 7200000 + 100 * Math.floor(i / 8) + 30 * Math.cos(3.3 * i)
  return [x, y]
}

function valueAt(i: number): number {
  const [x, y] = placeOf(i)
  const d2 = (x - 500350) ** 2 + (y - 7200350) ** 2
  return 10 + 100 * Math.exp(-d2 / 80000) + 2 * Math.sin(12.9 * i)
}

function source(path: string, text: string): InputSource {
  const bytes = new TextEncoder().encode(text)
  return { path, size: bytes.length, read: async () => bytes }
}

const INDEX = { name: 'copper', formula: 'column("Cu_ppm")', unit: 'ppm' }

function recipeOf(...surfaces: object[]) {
  return parseRecipe(
    JSON.stringify({
      recipe: 1,
      crs: 'EPSG:32719',
      places: [{ file: 'samples.csv', crs: 'EPSG:32719', x: 'East', y: 'North', name: 'SampleID' }],
      indices: [INDEX],
      surfaces: surfaces.map((surface) => ({ name: 'copper', value: 'copper', ...surface })),
    }),
  )
}

async function run(
  surfaces: object[],
  sources: InputSource[] = [source('samples.csv', sampleTable())],
  chain = new Chain(pool, THREE),
): Promise<{ results: Results; holdings: Holdings; report: Record<string, unknown>[] }> {
  const holdings = await readSources(pool, sources, NO_HOLDINGS)
  const project = emptyProject('p', recipeOf(...surfaces))
  const results = await chain.run(project, holdings, {
    activities: new Activities(() => undefined),
    controller: new AbortController(),
    publish: () => undefined,
  })
  const input = layersInput(project, holdings, results)
  const report = JSON.parse(new TextDecoder().decode(reportJson({ ...input, files: [] }))) as {
    surfaces: Record<string, unknown>[]
  }
  return { results, holdings, report: report.surfaces }
}

test('the figure of whole blocks left out comes first, in the sentence and in the report', async () => {
  const { results, report } = await run([{ method: 'kriging' }])
  const [surface] = results.surfaces
  expect(surface.failure).toBeNull()
  expect(surface.sentence).toMatch(/^Away from stations \(whole blocks left out\) it is off by/)
  expect(surface.blocked?.rmse).toBeGreaterThan(surface.testing?.rmse ?? Infinity)
  const figures = report[0].leave_blocks_out as Record<string, number>
  expect(figures.rmse).toBe(surface.blocked?.rmse)
  expect(figures.inside_90_percent_interval).toBe(surface.blocked?.coverage90)
  const keys = Object.keys(report[0])
  expect(keys.indexOf('leave_blocks_out')).toBeLessThan(keys.indexOf('leave_one_out'))
})

test('residuals name their stations, the farthest off first, and make up the RMSE', async () => {
  const { results } = await run([{ method: 'kriging' }])
  const [{ residuals = [], blocked, testing }] = results.surfaces
  const sizes = residuals.map((each) => Math.abs(each.blocked ?? NaN))
  expect(sizes).toHaveLength(64)
  expect([...sizes].sort((a, b) => b - a)).toEqual(sizes)
  const rms = (list: readonly number[]) =>
    Math.sqrt(list.reduce((sum, each) => sum + each * each, 0) / list.length)
  expect(rms(sizes)).toBeCloseTo(blocked?.rmse ?? NaN, 10)
  expect(rms(residuals.map(({ single }) => single))).toBeCloseTo(testing?.rmse ?? NaN, 10)
  for (const { stations, value } of residuals) {
    const [measured] = stations.map((station) => results.indices[0].stations[station].value)
    expect(measured).toBe(value)
  }
})

test('a trend is another surface, not the remembered one', async () => {
  const chain = new Chain(pool, THREE)
  const plain = await run([{ method: 'kriging', reach: 2000, cell: 50 }], undefined, chain)
  const trend = await run(
    [{ method: 'kriging', reach: 2000, cell: 50, trend: 1 }],
    undefined,
    chain,
  )
  const far = ({ results }: typeof plain) => results.surfaces[0].bands?.estimate.at(40 * 30)
  expect(far(trend)).toBeGreaterThan(-Infinity)
  expect(far(trend)).not.toBe(far(plain))
  expect([plain.report[0].trend, trend.report[0].trend]).toEqual([0, 1])
})

test('a trend goes with kriging alone, of degree 0 to 2', () => {
  expect(() => recipeOf({ method: 'inverse-distance', trend: 1 })).toThrow(/surfaces\[0\]\.trend/)
  expect(() => recipeOf({ method: 'kriging', trend: 3 })).toThrow(/surfaces\[0\]\.trend/)
  expect(recipeOf({ method: 'kriging', trend: 2 }).surfaces[0].trend).toBe(2)
})

test('methods are compared one task each, with progress, and can be stopped', async () => {
  const { results } = await run([{ method: 'kriging' }])
  const { points } = results.surfaces[0]
  if (!points) throw new Error('no points')
  const seen: string[] = []
  const activities = new Activities(() =>
    seen.push(...activities.list.map(({ done, total }) => `${done}/${total}`)),
  )
  const table = await compareOn(pool, activities, 'copper', points)
  expect(table).toHaveLength(4)
  expect(seen).toContain('3/4')
  const stopping = compareOn(pool, activities, 'copper', points)
  activities.stop()
  await expect(stopping).rejects.toSatisfy(isStopped)
})
