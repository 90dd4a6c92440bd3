/** What a surface says of a place. */
import { expect, test } from 'vitest'
import { WAITING } from '../../src/project/computed-surface'
import type { PartialSurface, SurfaceResult } from '../../src/project/results'
import type { SurfaceBands, SurfaceRule } from '../../src/surfaces/model'
import { valueWords } from '../../src/views/map-view/value-words'

const GRID = { west: 0, north: 10, cell: 10, columns: 1, rows: 1 }
const at = (estimate: number, variance: number | null = null): SurfaceBands => ({
  grid: GRID,
  estimate: Float64Array.of(estimate),
  variance: variance === null ? null : Float64Array.of(variance),
})
const surface = (rule: Partial<SurfaceRule>, bands: SurfaceBands | null): SurfaceResult => ({
  ...WAITING,
  rule: { name: 'high', value: 'copper', method: 'chance-above', ...rule },
  bands,
})
const words = (shown: SurfaceResult) => valueWords(shown, [5, 5])

test('a simulated chance carries what its realisations leave open', () => {
  expect(words(surface({}, at(0.5)))).toBe('high: 50 ± 4\u202f%')
  expect(words(surface({ realisations: 2000 }, at(0.5)))).toBe('high: 50.0 ± 1.1\u202f%')
  expect(words(surface({}, at(0)))).toBe('high: 0.0 ± 0.5\u202f%')
  expect(words(surface({ method: 'class-probability' }, at(0.5)))).toBe('high: 50\u202f%')
})

test('of fewer realisations more, and before the first of none nothing', () => {
  const partial: PartialSurface = {
    bands: at(0.5),
    step: 1,
    part: 0.25,
    realisations: [50, 200],
    spread: { estimate: null, error: null },
  }
  expect(words({ ...surface({}, null), partial })).toBe('high: 50 ± 7\u202f%')
  const kriged = { ...partial, realisations: undefined }
  expect(words({ ...surface({}, null), partial: kriged })).toBe('high: 50\u202f%')
})
