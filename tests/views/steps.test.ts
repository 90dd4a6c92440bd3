/** The line of steps: what each counts and what it worries about. */
import { expect, test } from 'vitest'
import { Activities } from '../../src/project/activity'
import { Chain } from '../../src/project/chain'
import { emptyProject, NO_HOLDINGS, type Project } from '../../src/project/project'
import { readSources } from '../../src/project/reading'
import { parseRecipe } from '../../src/project/recipe'
import { steps, type Step, type StepId } from '../../src/views/shell/steps'
import { pool, recipeWith, sampleTable, source } from '../project/field'
import { scanOf, THREE } from '../project/pools'
import { withScans } from '../project/holdings'

const TABLE = await readSources(pool, [source('samples.csv', sampleTable())], NO_HOLDINGS)

async function lineOf(project: Project, holdings = TABLE): Promise<Record<StepId, Step>> {
  const results = await new Chain(pool, THREE).run(project, holdings, {
    activities: new Activities(() => undefined),
    controller: new AbortController(),
    publish: () => undefined,
  })
  const line = steps({ project, holdings, results })
  return Object.fromEntries(line.map((step) => [step.id, step])) as Record<StepId, Step>
}

const symbol = { colour: '#0072B2', symbol: 'circle' }

test('counts of a table that is placed, and no worry', async () => {
  const recipe = recipeWith([{ name: 'rich', when: '[copper] > 50', ...symbol }], [])
  const line = await lineOf(emptyProject('p', recipe))
  expect(line.scans.count).toBe('0 scans')
  expect(line.places.count).toBe('64 stations')
  expect(line.indices.count).toBe('1 index')
  expect(line.classes.count).toBe('1 class')
  expect(line.surfaces.count).toBe('0 surfaces')
  expect(line.traverse.count).toBe('no walk yet')
  expect(Object.values(line).map(({ worry }) => worry)).toEqual(Array(9).fill(''))
})

test('a question about the coordinate system stands for what waits for its answer', async () => {
  const line = await lineOf(emptyProject('p', parseRecipe('{ "recipe": 1 }')))
  expect(line.places).toMatchObject({ count: '0 stations', worry: '1 question' })
})

test('formulas are to be mended in the step in which they stand', async () => {
  const recipe = recipeWith([{ name: 'rich', when: '[copper >', ...symbol }], [])
  const broken = { ...recipe, indices: [...recipe.indices, { name: 'lead', formula: '1 +' }] }
  const line = await lineOf(emptyProject('p', broken))
  expect(line.indices.worry).toBe('1\u00a0to mend')
  expect(line.classes.worry).toBe('1\u00a0to mend')
})

test('scans of a hidden file are not counted', async () => {
  const holdings = withScans(
    NO_HOLDINGS,
    Array.from({ length: 3 }, (_, i) => scanOf(i)),
  )
  const project = emptyProject('p', parseRecipe('{ "recipe": 1 }'))
  const line = await lineOf(project, holdings)
  expect(line.scans.count).toBe('3 scans')
  const hidden = { ...project, hidden: [holdings.files[0].path] }
  expect((await lineOf(hidden, holdings)).scans.count).toBe('2 scans')
})
