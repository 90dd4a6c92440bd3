/** Reference sets as they leave with the layers. */
import { createHash } from 'node:crypto'
import { expect, test } from 'vitest'
import { planLayers } from '../../src/layers/export-all'
import { readReferenceSet } from '../../src/minerals/set-file'
import { layersInput } from '../../src/project/layers-input'
import { emptyProject } from '../../src/project/project'
import { reportedSets, unmetChoices } from '../../src/project/reported-sets'
import { recipeOf, run } from './field'
import { THREE } from './pools'

test('the report names each set by its bytes, and an own set leaves whole', async () => {
  const { results, holdings } = await run([])
  const own = { ...THREE.sets[0], name: 'our pit/2024' }
  const project = { ...emptyProject('p', recipeOf()), sets: [own] }
  const files = planLayers(layersInput(project, holdings, results))
  const text = (name: string) =>
    new TextDecoder().decode(files.find(({ file }) => file === name)?.write())
  const saved = text('our pit_2024.references.json')
  expect(readReferenceSet(JSON.parse(saved))).toEqual(own)
  const { identified, files: listed } = JSON.parse(text('report.json'))
  expect(identified.against).toEqual([
    {
      set: 'three',
      source: 'the built-in set',
      references: THREE.sets[0].references.length,
      off: 0,
      sha256: createHash('sha256')
        .update(saved.replace('"name": "our pit/2024"', '"name": "three"'))
        .digest('hex'),
    },
  ])
  expect(listed).toContainEqual({
    file: 'our pit_2024.references.json',
    holds: 'references',
    name: 'our pit/2024',
  })
})

test('measured records are told together, by their names and numbers', () => {
  const measured = [
    {
      name: 'Kaolinite_a',
      wavelengths: Float64Array.of(400, 500),
      reflectance: Float64Array.of(0.5, 0.25),
    },
  ]
  const [told, ...others] = reportedSets({ sets: [], measured, off: [], ranges: {} })
  expect(others).toEqual([])
  expect(told).toMatchObject({ set: 'measured records', references: 1 })
  const renamed = [{ ...measured[0], name: 'Kaolinite_b' }]
  const [other] = reportedSets({ sets: [], measured: renamed, off: [], ranges: {} })
  expect(other.sha256).not.toBe(told.sha256)
})

test('references that are switched off are counted, and choices that nothing answers to are told', () => {
  const [{ record, mineral }] = THREE.sets[0].references
  const references = {
    ...THREE,
    off: [record, 'Nothing_1'],
    ranges: { [mineral]: [[2100, 2200]] as const, unobtainium: [[2100, 2200]] as const },
  }
  expect(reportedSets(references)).toMatchObject([{ set: 'three', off: 1 }])
  expect(unmetChoices(references)).toEqual([
    'The recipe switches off ‘Nothing_1’, which no reference set has.',
    'The recipe has ranges for ‘unobtainium’, which no reference is of.',
  ])
})
