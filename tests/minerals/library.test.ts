import { beforeAll, describe, expect, it } from 'vitest'
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { mineralOfRecord, purityOfRecord, sampleOfRecord } from '../../src/minerals/catalogue'
import { isSilent } from '../../src/minerals/groups'
import { identify } from '../../src/minerals/identify'
import { modelReflectance } from '../../src/minerals/model'
import { prepareSet, referencesFromScans, type NamedSpectrum } from '../../src/minerals/prepare'
import { measureFeature } from '../../src/spectra/feature'
import { mixtureOf } from '../bench/mixtures'
import { hasLibrary, readRecords } from './library'

// Records of the USGS Spectral Library Version 7 (Kokaly et al. 2017, doi:10.3133/ds1035) in
// ../shared/spectra; skipped where they are absent. The floors stand a little below what
// tests/bench/identification.ts measured; docs/methods/minerals.md has the figures.
describe.skipIf(!hasLibrary)('identification on measured records', () => {
  let minerals: NamedSpectrum[] = []
  let mixtures: NamedSpectrum[] = []

  beforeAll(() => {
    minerals = readRecords('minerals')
    mixtures = readRecords('mixtures')
  })

  it('names the main group with the record’s whole sample left out', () => {
    const all = referencesFromScans(minerals)
    const truth = (name: string): string => {
      const { group } = mineralOfRecord(name)
      return isSilent(group) ? '' : group
    }
    const samples = new Map<string, Set<string>>()
    for (const { name } of minerals)
      samples.set(truth(name), (samples.get(truth(name)) ?? new Set()).add(sampleOfRecord(name)))
    const counted = minerals.filter(
      ({ name }) =>
        'ab'.includes(purityOfRecord(name) ?? '-') && (samples.get(truth(name))?.size ?? 0) > 1,
    )
    const right = counted.filter((scan) => {
      const sample = sampleOfRecord(scan.name)
      const others = { references: all.references.filter((r) => r.sample !== sample) }
      return (identify(scan, others).minerals[0]?.group ?? '') === truth(scan.name)
    })
    expect(counted.length).toBeGreaterThan(190)
    expect(right.length / counted.length).toBeGreaterThanOrEqual(0.93)
  }, 60_000)

  it('finds the parts of the prepared mixtures and adds few that are not there', async () => {
    const set = prepareSet(await loadBuiltInSet())
    const known = mixtures.flatMap((scan) => {
      const mixture = mixtureOf(scan.name)
      return mixture ? [{ ...mixture, named: identify(scan, set).minerals }] : []
    })
    const complete = known.filter(({ weights, named }) =>
      Object.entries(weights).every(
        ([group, weight]) => weight < 0.2 || named.some((mineral) => mineral.group === group),
      ),
    )
    const strangers = known.flatMap(({ weights, named }) =>
      named.filter(({ group, share }) => share >= 0.1 && !(group in weights)),
    )
    expect(known.length).toBe(35)
    expect(complete.length / known.length).toBeGreaterThanOrEqual(0.9)
    expect(strangers.length / known.length).toBeLessThan(0.12)
  }, 60_000)

  it('keeps the diagnostic positions of the records in the built-in set', async () => {
    const records = new Map(minerals.map((record) => [record.name, record]))
    const apart: number[] = []
    for (const reference of (await loadBuiltInSet()).references) {
      const record = records.get(reference.record)
      if (!record) throw new Error(`${reference.record} is not in the library`)
      const { wavelengths } = record
      const model = { wavelengths, reflectance: modelReflectance(reference, wavelengths) }
      for (const hull of reference.diagnostic) {
        const measured = measureFeature(record, hull)
        if ('missing' in measured || measured.depth < 0.02) continue
        const modelled = measureFeature(model, hull)
        apart.push(
          'missing' in modelled ? Infinity : Math.abs(modelled.position - measured.position),
        )
      }
    }
    apart.sort((a, b) => a - b)
    expect(apart.length).toBeGreaterThan(600)
    expect(apart[apart.length >> 1]).toBeLessThanOrEqual(0.2)
    expect(apart.at(-1)).toBeLessThanOrEqual(1)
  }, 60_000)
})
