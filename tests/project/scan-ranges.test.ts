/** Ranges of comparison for one scan alone. */
import { expect, test } from 'vitest'
import { Activities } from '../../src/project/activity'
import { Chain } from '../../src/project/chain'
import { apply } from '../../src/project/commands'
import { parseDecisions, writeDecisions } from '../../src/project/decisions'
import { emptyProject, NO_HOLDINGS, type Project } from '../../src/project/project'
import { parseRecipe } from '../../src/project/recipe'
import { rangesOfScan } from '../../src/project/scan-ranges'
import { withScans } from './holdings'
import { CountingPool, scanOf, THREE } from './pools'

const HOLDINGS = withScans(
  NO_HOLDINGS,
  Array.from({ length: 30 }, (_, i) => scanOf(i)),
)
const NARROW = [[400, 460]] as const

function decided(
  project: Project,
  mineral: string,
  ranges: readonly (readonly [number, number])[],
) {
  const { file, name } = HOLDINGS.heads[4]
  const about = { kind: 'ranges', mineral, ranges } as const
  const decision = { file, scan: name, about, who: 'w', when: '2024-05-07', why: 'y' }
  return apply(project, { do: 'decide', decisions: [decision] }).project
}

test('a range counts at once for its scan, for no other, and until it is taken back', async () => {
  const pool = new CountingPool()
  const chain = new Chain(pool, THREE)
  const run = (project: Project) =>
    chain.run(project, HOLDINGS, {
      activities: new Activities(() => undefined),
      controller: new AbortController(),
      publish: () => undefined,
    })
  const project = emptyProject('p', parseRecipe('{"recipe": 1}'))
  const before = await run(project)
  const main = before.identifications[4]?.minerals[0]
  if (!main) throw new Error('nothing was found')
  const narrowed = decided(project, main.mineral, NARROW)
  const after = await run(narrowed)
  const fit = after.identifications[4]?.minerals.find((part) => part.mineral === main.mineral)?.fit
  // Where the mineral shows nothing it hardly fits, or is no longer named.
  expect(fit ?? 0).toBeLessThan(main.fit - 0.05)
  after.identifications.forEach((found, scan) => {
    if (scan !== 4) expect(found).toEqual(before.identifications[scan])
  })
  const back = await run(decided(narrowed, main.mineral, []))
  expect(back.identifications[4]).toEqual(before.identifications[4])
})

test('the decisions file keeps ranges, and refuses one that runs backwards', () => {
  const project = decided(emptyProject('p', parseRecipe('{"recipe": 1}')), 'alunite', NARROW)
  const read = parseDecisions(writeDecisions(project.decisions))
  expect(read).toEqual(project.decisions)
  expect(rangesOfScan(read, HOLDINGS.heads[4])).toEqual(new Map([['alunite', NARROW]]))
  const wrong = writeDecisions(project.decisions).replace(/400,\s*460/, '460, 400')
  expect(() => parseDecisions(wrong)).toThrow(/the lower end first/)
})
