/** Records named with their own sample left out of the references. */
import { mineralOfRecord, purityOfRecord, sampleOfRecord } from '../../src/minerals/catalogue'
import { isSilent } from '../../src/minerals/groups'
import { identify } from '../../src/minerals/identify'
import type { NamedSpectrum, PreparedSet } from '../../src/minerals/prepare'
import { NOTHING_DIAGNOSTIC } from '../../src/minerals/reference'

/** What a record is and what it was taken for, by group. */
export interface Answer {
  readonly name: string
  readonly truth: string
  readonly said: string
  /** Whether the record's purity is a or b. */
  readonly pure: boolean
}

/** The groups before some were split (`--lumped`), so that the split's worth can be seen. */
const LUMPED: ReadonlyMap<string, string> = new Map([
  ['zoisite', 'epidote'],
  ['trioctahedral smectite', 'smectite'],
  ['mixed-layer illite–smectite', 'mixed-layer clay'],
  ['mixed-layer chlorite–smectite', 'mixed-layer clay'],
  ['copiapite', 'iron sulfate'],
  ['coquimbite', 'iron sulfate'],
  ['butlerite', 'iron sulfate'],
  ['schwertmannite', 'iron sulfate'],
])
const lumped = process.argv.includes('--lumped')
const countedAs = (group: string): string => (lumped ? LUMPED.get(group) : undefined) ?? group

/** The group that a record should be named by: nothing diagnostic where its mineral is silent. */
export function truthOf(name: string): string {
  const { group } = mineralOfRecord(name)
  return isSilent(group) ? NOTHING_DIAGNOSTIC : countedAs(group)
}

/** What a scan of a record is taken for. */
export function answer(scan: NamedSpectrum, name: string, set: PreparedSet): Answer {
  const { minerals } = identify(scan, set)
  return {
    name,
    truth: truthOf(name),
    said: countedAs(minerals[0]?.group ?? NOTHING_DIAGNOSTIC),
    pure: 'ab'.includes(purityOfRecord(name) ?? '-'),
  }
}

/**
 * Each record, altered as asked, named by references of other samples alone. Records of groups
 * with one sample only are left out.
 */
export function leaveOneSampleOut(
  records: readonly NamedSpectrum[],
  all: PreparedSet,
  alter: (scan: NamedSpectrum, seed: number) => NamedSpectrum = (scan) => scan,
): Answer[] {
  const samples = new Map<string, Set<string>>()
  for (const { name } of records) {
    const truth = truthOf(name)
    samples.set(truth, (samples.get(truth) ?? new Set()).add(sampleOfRecord(name)))
  }
  return records.flatMap((record, i) => {
    if ((samples.get(truthOf(record.name))?.size ?? 0) < 2) return []
    return [answer(alter(record, 17 * i + 1), record.name, without(all, record.name))]
  })
}

const kept = new WeakMap<PreparedSet, Map<string, PreparedSet>>()

/** A set without a record's sample. */
function without(all: PreparedSet, record: string): PreparedSet {
  const sets = kept.get(all) ?? new Map<string, PreparedSet>()
  kept.set(all, sets)
  const sample = sampleOfRecord(record)
  let set = sets.get(sample)
  if (!set) {
    set = { references: all.references.filter((reference) => reference.sample !== sample) }
    sets.set(sample, set)
  }
  return set
}

/** The part of answers that are right, %. */
export function percentRight(answers: readonly Answer[]): number {
  return (100 * answers.filter((a) => a.said === a.truth).length) / answers.length
}
