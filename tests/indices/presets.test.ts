/** Presets: they compile, name what exists, and read on library records what they say. */
import { existsSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { compileFormula } from '../../src/indices/compile'
import { leavesByKey } from '../../src/indices/context'
import { evaluate } from '../../src/indices/evaluate'
import { compileIndices } from '../../src/indices/index-set'
import { measureLeaves } from '../../src/indices/measure-leaves'
import { presetOf, presetRule, PRESETS } from '../../src/indices/presets'
import type { FormulaValue } from '../../src/indices/rule'
import { CATALOGUE } from '../../src/minerals/catalogue'
import { GROUPS } from '../../src/minerals/groups'
import { context } from './sample'

const LIBRARY = '../shared/spectra'
const NAMES = {
  minerals: CATALOGUE.map(({ mineral }) => mineral),
  groups: [...GROUPS.keys()],
  columns: [],
}

test('at least ten presets, each whole, with a name and an id of its own', () => {
  expect(PRESETS.length).toBeGreaterThanOrEqual(10)
  expect(new Set(PRESETS.map(({ id }) => id)).size).toBe(PRESETS.length)
  for (const preset of PRESETS) {
    for (const words of [preset.meaning, preset.source, preset.caution, preset.reading]) {
      expect(words, preset.id).not.toBe('')
    }
    expect(preset.usual[0], preset.id).toBeLessThan(preset.usual[1])
    expect(presetOf(preset.id)).toBe(preset)
  }
})

test('all compile together against the built-in minerals and groups', () => {
  expect(compileIndices(PRESETS.map(presetRule), NAMES).errors).toEqual([])
})

test('each is gated by a group, and says nothing of a scan that has none', () => {
  for (const preset of PRESETS) expect(preset.where, preset.id).toContain('group(')
  for (const preset of PRESETS.filter(({ id }) => id !== 'water-depth')) {
    const known = { ...NAMES, indices: [] }
    const nothing = context({ shares: Object.fromEntries(NAMES.groups.map((name) => [name, 0])) })
    expect(evaluate(compileFormula(preset.where, known, 'boolean'), nothing).value).toBe(false)
  }
})

const axes = new Map<string, Float64Array>()

function numbers(path: string): number[] {
  const lines = readFileSync(`${LIBRARY}/${path}`, 'utf8').split('\n').slice(1)
  return lines.filter((line) => line.trim() !== '').map(Number)
}

function axisOf(record: string): Float64Array {
  const file = record.includes('_ASD')
    ? 'splib07a_Wavelengths_ASD_0.35-2.5_microns_2151_ch.txt'
    : 'splib07a_Wavelengths_BECK_Beckman_0.2-3.0_microns.txt'
  let axis = axes.get(file)
  if (!axis) {
    axis = Float64Array.from(numbers(file), (micrometres) => micrometres * 1000)
    axes.set(file, axis)
  }
  return axis
}

/** What a preset's formula, its gate aside, gives on a record of the library. */
function reading(id: string, record: string): FormulaValue {
  const formula = compileFormula(presetOf(id)?.formula ?? '', { ...NAMES, indices: [] })
  const values = numbers(`minerals/splib07a_${record}_AREF.txt`)
  const reflectance = Float64Array.from(values, (value) => (value < -1e30 ? NaN : value))
  const spectrum = { wavelengths: axisOf(record), reflectance }
  const measured = leavesByKey(formula.leaves, measureLeaves(formula.leaves, spectrum, 0.001))
  return evaluate(formula, {
    ...context(),
    leaf: (key) => measured.get(key) ?? context().leaf(key),
  })
}

/*
 * Positions of the first rows: measured with SciPy. The others
 * hold the readings in the presets' own words to what this program measures.
 */
describe.skipIf(!existsSync(LIBRARY))(
  'readings on USGS library records (needs ../shared/spectra)',
  () => {
    test.each([
      ['white-mica-position', 'Paragonite_GDS109_BECKa', 2191.2, 1],
      ['white-mica-position', 'Muscovite_GDS113_Ruby_ASDNGa', 2197.3, 0.5],
      ['white-mica-position', 'Muscovite_GDS116_Tanzania_ASDNGa', 2208.7, 0.5],
      ['white-mica-position', 'Muscovite_GDS111_Guatemala_BECKa', 2216.3, 1],
      ['alunite-position', 'Alunite_HS295.1B_ASDFRa', 1477.5, 0.5],
      ['alunite-position', 'Alunite_GDS84_Na03_BECKa', 1478.5, 1],
      ['alunite-position', 'Alunite_SUSTDA-20_BECKb', 1495.5, 1],
      ['chlorite-position', 'Clinochlore_GDS158_Flagstaff_ASDNGb', 2248.9, 0.5],
      ['chlorite-position', 'Thuringite_SMR-15.a_115um_BECKb', 2259.3, 1],
      ['carbonate-position', 'Dolomite_HS102.4B_ASDNGb', 2321.8, 0.5],
      ['carbonate-position', 'Calcite_GDS304_75-150um_ASDFRb', 2339.6, 0.5],
      ['carbonate-position', 'Rhodochrosite_HS338.6_ASDFRb', 2358.4, 0.5],
      ['carbonate-position', 'Siderite_HS271.4B_ASDFRa', 2330.6, 0.5],
      ['mg-oh-position', 'Talc_HS21.3B_ASDFRb', 2311, 1],
      ['mg-oh-position', 'Actinolite_HS22.3B_ASDFRb', 2314.6, 1],
      ['mg-oh-position', 'Serpentine_HS8.3B_ASDFRc', 2324, 1],
      ['epidote-position', 'Epidote_GDS26.a_75-200um_ASDNGb', 1542.8, 1],
      ['kaolin-order', 'Kaolinite_KGa-2_(pxl)_ASDNGb', 1, 0.01],
      ['kaolin-order', 'Kaolinite_GDS11_lt63um_BECKb', 1.026, 0.01],
      ['kaolin-order', 'Halloysite_NMNH106237_ASDNGa', 0.946, 0.01],
      ['kaolin-hydroxyl-width', 'Dickite_NMNH46967_BECKa', 13, 1],
      ['kaolin-hydroxyl-width', 'Kaolinite_KGa-2_(pxl)_ASDNGb', 39, 1],
      ['kaolin-hydroxyl-width', 'Halloysite_NMNH106237_ASDNGa', 47.4, 1],
      ['ferric-depth', 'Jarosite_GDS635_Na_Cyprus_ASDNGa', 0.377, 0.01],
      ['ferric-position', 'Hematite_FE2602_BECKb', 876, 2],
      ['ferrous-slope', 'Actinolite_HS22.3B_ASDFRb', 0.678, 0.01],
      ['ammonium-depth', 'Buddingtonite_GDS85_D-206_BECKb', 0.104, 0.01],
      ['gypsum-depth', 'Gypsum_HS333.3B_(Selenite)_ASDFRa', 0.279, 0.01],
      ['water-depth', 'Illite_IMt-1.a_ASDNGb', 0.131, 0.01],
    ])('%s on %s', (id, record, expected, tolerance) => {
      expect(Math.abs(Number(reading(id, record).value) - expected)).toBeLessThanOrEqual(tolerance)
    })

    test('mica reads as better ordered than illite, and ferric minerals have no gypsum band', () => {
      const order = (record: string) => Number(reading('white-mica-order', record).value)
      expect(order('Muscovite_GDS113_Ruby_ASDNGa')).toBeGreaterThan(1.5)
      expect(order('Illite_GDS4_Marblehead_ASDNGb')).toBeLessThan(1.2)
      expect(reading('gypsum-depth', 'Alunite_HS295.1B_ASDFRa').missing).toBe('minimum at edge')
    })
  },
)
