import { describe, expect, it } from 'vitest'
import { BUILT_IN_RECORDS } from '../../src/minerals/built-in-records'
import {
  CATALOGUE,
  FIBRE_CAUTION,
  findMineral,
  mineralOfRecord,
  purityOfRecord,
  recordOfFile,
  sampleOfRecord,
} from '../../src/minerals/catalogue'
import { GROUPS, isSilent } from '../../src/minerals/groups'

describe('the catalogue', () => {
  it('puts every mineral in a known group, under one name each', () => {
    const names = CATALOGUE.flatMap((entry) => [entry.mineral, ...entry.names])
    expect(new Set(names).size).toBe(names.length)
    for (const entry of CATALOGUE) expect(GROUPS.has(entry.group), entry.group).toBe(true)
  })

  it('gives each speaking group ranges in ascending order inside 350–2500 nm', () => {
    for (const { group, diagnostic, silent } of GROUPS.values()) {
      expect(diagnostic.length > 0, group).toBe(!silent)
      for (const [from, to] of diagnostic) {
        expect(from, group).toBeGreaterThanOrEqual(350)
        expect(to, group).toBeGreaterThan(from)
        expect(to, group).toBeLessThanOrEqual(2500)
      }
    }
  })

  it('uses the symbols of Warr 2021 that the project has at hand', () => {
    const symbols = ['kaolinite', 'muscovite', 'illite', 'alunite', 'calcite', 'dolomite'].map(
      (name) => findMineral(name)?.symbol,
    )
    expect(symbols).toEqual(['Kln', 'Ms', 'Ilt', 'Alu', 'Cal', 'Dol'])
  })

  it('warns of the minerals that can be fibrous', () => {
    for (const name of ['chrysotile', 'Actinolite', 'tremolite', 'anthophyllite', 'erionite'])
      expect(findMineral(name)?.fibrous, name).toBe(true)
    expect(findMineral('kaolinite')?.fibrous).toBe(false)
    expect(FIBRE_CAUTION).toMatch(/spectra do not show fibre/)
    expect(FIBRE_CAUTION).toMatch(/local rules/)
    expect(FIBRE_CAUTION).toMatch(/licensed assessor/)
  })

  it('holds quartz, feldspar, garnet, magnetite and pyrite for silent', () => {
    for (const group of ['quartz', 'feldspar', 'garnet', 'magnetite', 'pyrite'])
      expect(isSilent(group), group).toBe(true)
    expect(isSilent('alunite')).toBe(false)
  })

  it('finds the mineral of every record of the built-in set', () => {
    for (const [record] of BUILT_IN_RECORDS)
      expect(GROUPS.has(mineralOfRecord(record).group), record).toBe(true)
  })
})

describe('names of records', () => {
  it('makes a mineral and a group of a name it does not know', () => {
    expect(mineralOfRecord('Weloganite_X12_ASDFRa')).toMatchObject({
      mineral: 'weloganite',
      group: 'weloganite',
      symbol: null,
    })
  })

  // The two examples of the issue, and others of the library's splits.
  it.each([
    ['Alunite_HS295.3B_ASDFRa', 'Alunite_HS295.6_ASDFRb'],
    ['Muscovite_GDS113a_Ruby_ASDNGa', 'Muscovite_GDS113_Ruby_BECKa'],
    ['Chlorite_SMR-13.a_104-150um_BECKa', 'Chlorite_SMR-13.e_lt30um_BECKb'],
    ['Illite_IMt-1.a_BECKb', 'Illite_IMt-1.b_lt2um_BECKa'],
    ['Saponite_SapCa-1.AcB_BECKb', 'Saponite_SapCa-1_BECKb'],
  ])('%s and %s are one sample', (one, other) => {
    expect(sampleOfRecord(one)).toBe(sampleOfRecord(other))
  })

  it.each([
    ['Topaz_Glen_Cove_#6_BECKb', 'Topaz_Glen_Cove_#8_BECKb'],
    ['Jarosite_GDS100_Na_90C_Syn_BECKa', 'Jarosite_GDS101_Na_200C_Syn_BECKa'],
    ['Chlorite_SMR-13.a_104-150um_BECKa', 'Prochlorite_SMR-14.a_115um_BECKa'],
  ])('%s and %s are two', (one, other) => {
    expect(sampleOfRecord(one)).not.toBe(sampleOfRecord(other))
  })

  it('reads purity off the end of the instrument code', () => {
    expect(purityOfRecord('Albite_HS143.6_Plagioclase_ASDFRd')).toBe('d')
    expect(purityOfRecord('splib07a_Quartz_HS32.4B_BECKa_AREF')).toBe('a')
    expect(purityOfRecord('my quartz')).toBeNull()
  })

  it('strips a file’s folder, ending and library prefix', () => {
    expect(recordOfFile('a/b/splib07a_Alunite_HS295.3B_ASDFRa_AREF.txt')).toBe(
      'Alunite_HS295.3B_ASDFRa',
    )
  })
})

it('knows a record by its first word, without a number, a formula or a place after it', () => {
  const named = (record: string) => mineralOfRecord(record).mineral
  for (const record of ['kaolinite-01', 'Kaolinite KGa-1', 'Kaolinite.2', 'kaolinite, Georgia'])
    expect(named(record)).toBe('kaolinite')
  expect(named('Ammonio-Jarosite_SCF-NHJ')).toBe(named('ammonio-jarosite'))
  expect(named('Calcite.33+Epidote.67_GDS311')).toBe('calcite.33+epidote.67')
  expect(named('Foobar-7')).toBe('foobar-7')
})
