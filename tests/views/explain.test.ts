/** A scan's explanation as it is drawn. */
import { expect, test } from 'vitest'
import type { References } from '../../src/jobs/references'
import type { Reference } from '../../src/minerals/reference'
import { modelReflectance } from '../../src/minerals/model'
import { removeContinuum } from '../../src/spectra/hull'
import { explain } from '../../src/views/charts/explain'

const WAVELENGTHS = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)

function reference(mineral: string, position: number, range: [number, number]): Reference {
  return {
    mineral,
    variety: null,
    symbol: null,
    group: mineral,
    continuum: [
      [350, Math.log(0.5)],
      [2500, Math.log(0.5)],
    ],
    bands: [{ position, width: 60, strength: 0.4 }],
    record: mineral,
    fitError: 0,
    range,
    diagnostic: [],
    confusedWith: [],
    setting: '',
    fibrous: false,
  }
}

test('a reference that ends a little before the scan still takes its part', () => {
  const narrow = reference('narrow', 2200, [353, 2496])
  const wide = reference('wide', 1400, [350, 2500])
  const references: References = {
    sets: [{ name: 'invented', source: '', references: [narrow, wide] }],
    measured: [],
    off: [],
    ranges: {},
  }
  const a = modelReflectance(narrow, WAVELENGTHS)
  const b = modelReflectance(wide, WAVELENGTHS)
  const reflectance = a.map((value, i) => value * (b[i] / 0.5) ** 0.5)
  const own = removeContinuum({ wavelengths: WAVELENGTHS, reflectance })
  if (!own) throw new Error('no continuum')
  const explained = explain(own, ['narrow', 'wide'], references)
  expect(explained?.wavelengths[0]).toBe(353)
  expect(explained?.wavelengths.at(-1)).toBe(2496)
  for (const nm of [1400, 2200]) {
    const at = nm - 353
    expect(explained?.reflectance[at]).toBeCloseTo(reflectance[nm - 350], 3)
    expect(explained?.removed[at]).toBeCloseTo(own.removed[nm - 350], 3)
  }
  expect(explained?.parts[0].absorption[2200 - 353]).toBeCloseTo(0.4, 2)
  expect(explained?.parts[1].absorption[1400 - 353]).toBeCloseTo(0.2, 2)
})
