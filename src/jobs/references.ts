/** What scans are identified against: sets of band tables, measured records, or both. */
import { mineralOfRecord } from '../minerals/catalogue'
import {
  joinSets,
  prepareSet,
  referencesFromScans,
  type NamedSpectrum,
  type PreparedSet,
} from '../minerals/prepare'
import type { UserRanges } from '../minerals/match'
import type { ReferenceSet } from '../minerals/reference'

export interface References {
  readonly sets: readonly ReferenceSet[]
  /** Measured records used as they are, named as their files name them. */
  readonly measured: readonly NamedSpectrum[]
  /** Records that are not to be used. */
  readonly off: readonly string[]
  /** Ranges in which a mineral is compared in place of its own, nm. */
  readonly ranges: Readonly<Record<string, readonly (readonly [from: number, to: number])[]>>
}

/** References as a worker uses them. */
export interface PreparedReferences {
  readonly set: PreparedSet
  readonly ranges: UserRanges
}

/** References made ready for identification. */
export function prepareReferences(references: References): PreparedReferences {
  const { sets, measured, off, ranges } = references
  return {
    set: joinSets([...sets.map(prepareSet), referencesFromScans(measured)], new Set(off)),
    ranges: new Map(Object.entries(ranges)),
  }
}

/** A mineral and its group as formulas name them. */
export interface KnownMineral {
  readonly mineral: string
  readonly group: string
}

/** The minerals that can be named, each once, in the references' order. */
export function knownMinerals({ sets, measured }: References): KnownMineral[] {
  const known = new Map<string, KnownMineral>()
  const tables = sets.flatMap(({ references }) => references)
  for (const { mineral, group } of [
    ...tables,
    ...measured.map(({ name }) => mineralOfRecord(name)),
  ]) {
    if (!known.has(mineral)) known.set(mineral, { mineral, group })
  }
  return [...known.values()]
}
