/** A table of an invented field, and a chain run on it. */
import { layersInput } from '../../src/project/layers-input'
import { Activities } from '../../src/project/activity'
import { Chain } from '../../src/project/chain'
import { emptyProject, NO_HOLDINGS, type Holdings } from '../../src/project/project'
import { readSources, type InputSource } from '../../src/project/reading'
import { parseRecipe } from '../../src/project/recipe'
import type { Results } from '../../src/project/results'
import { reportJson } from '../../src/layers/report'
import { CountingPool, THREE } from './pools'

export const pool = new CountingPool()

/** A field that falls off smoothly from a centre, sampled on an uneven lattice of 100 m. */
export function sampleTable(cell: (i: number) => string = (i) => valueAt(i).toFixed(3)): string {
  const rows = Array.from({ length: 64 }, (_, i) => {
    const [x, y] = placeOf(i)
    return `N${i},${x.toFixed(2)},${y.toFixed(2)},${cell(i)}`
  })
  return ['SampleID,East,North,Cu_ppm', ...rows].join('\n') + '\n'
}

export function placeOf(i: number): [number, number] {
  const x = 500000 + 100 * (i % 8) + 30 * Math.sin(7.1 * i)
  const y = 7200000 + 100 * Math.floor(i / 8) + 30 * Math.cos(3.3 * i)
  return [x, y]
}

export function valueAt(i: number): number {
  const [x, y] = placeOf(i)
  const d2 = (x - 500350) ** 2 + (y - 7200350) ** 2
  return 10 + 100 * Math.exp(-d2 / 80000) + 2 * Math.sin(12.9 * i)
}

export function source(path: string, text: string): InputSource {
  const bytes = new TextEncoder().encode(text)
  return { path, size: bytes.length, read: async () => bytes }
}

export const INDEX = { name: 'copper', formula: 'column("Cu_ppm")', unit: 'ppm' }

export function recipeOf(...surfaces: object[]) {
  return recipeWith([], surfaces)
}

export function recipeWith(classes: readonly object[], surfaces: readonly object[]) {
  return parseRecipe(
    JSON.stringify({
      recipe: 1,
      crs: 'EPSG:32719',
      places: [{ file: 'samples.csv', crs: 'EPSG:32719', x: 'East', y: 'North', name: 'SampleID' }],
      indices: [INDEX],
      classes,
      surfaces: surfaces.map((surface) => ({ name: 'copper', value: 'copper', ...surface })),
    }),
  )
}

export async function run(
  surfaces: object[],
  sources: InputSource[] = [source('samples.csv', sampleTable())],
  chain = new Chain(pool, THREE),
  classes: object[] = [],
): Promise<{ results: Results; holdings: Holdings; report: Record<string, unknown>[] }> {
  const holdings = await readSources(pool, sources, NO_HOLDINGS)
  const project = emptyProject('p', recipeWith(classes, surfaces))
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
