/** The recipe's `layouts` on the command line: the report names files alike, a correction reads them so. */
import { afterAll, expect, test } from 'vitest'
import { Layers, runMap, Scratch } from './command'

const scratch = new Scratch()
afterAll(() => scratch.remove())

/** A dark rock in percent throughout below 2, which passes for a fraction. */
const rows = Array.from(
  { length: 431 },
  (_, i) => `${350 + 5 * i}\t${(1.2 + 0.0005 * i).toFixed(4)}`,
)
const scan = `Wavelength\tR\n${rows.join('\n')}\n`
const index = { name: 'level', formula: 'mean(1000, 1100)', unit: '' }

test('a scan that passes for a fraction is percent once the recipe says so', () => {
  const path = scratch.put('dark.txt', scan)
  const run = (name: string, layouts: object) => {
    const recipe = scratch.json(`${name}.json`, { recipe: 1, indices: [index], ...layouts })
    const out = new Layers(scratch.path(name))
    expect(runMap('--scans', path, '--recipe', recipe, '--out', out.folder).code).toBe(0)
    const report = JSON.parse(out.text('report.json')) as { layouts: Record<string, unknown>[] }
    return { layouts: report.layouts, level: Number(out.rows('scans.csv')[0].level) }
  }
  const found = run('found', {})
  expect(found.layouts).toEqual([
    {
      like: 'two columns; tab; 431 from 350 to 2500; Wavelength | *',
      files: 1,
      scans: 1,
      wavelength_units: ['nm'],
      reflectance_units: ['fraction'],
      corrected: false,
    },
  ])
  const like = found.layouts[0].like
  const corrected = run('corrected', { layouts: [{ like, reflectance: 'percent' }] })
  expect(corrected.layouts[0]).toMatchObject({ reflectance_units: ['percent'], corrected: true })
  expect(found.level).toBeCloseTo(1.27, 2)
  expect(corrected.level).toBeCloseTo(0.0127, 4)
})
