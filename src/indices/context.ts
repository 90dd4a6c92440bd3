/** Where a formula's values come from: one scan, or a station's means. */
import type { Cell } from '../places/station'
import { cellNamed } from './cells'
import type { Identification, MineralShare } from '../minerals/reference'
import type { Measured } from './rule'

/** The values of one scan or one station. */
export interface ValueContext {
  /** What was read off the spectrum, by the leaf's key. */
  leaf(key: string): Measured
  /** 0 when absent; missing when the scan was not identified. */
  share(mineral: string): Measured
  group(name: string): Measured
  fit(mineral: string): Measured
  /** Another index, by its name. */
  index(name: string): Measured
  /** A cell of the sample table; undefined where the table has no such column. */
  column(name: string): Cell | undefined
}

/** A context before any index is known. */
export type ScanValues = Omit<ValueContext, 'index'>

const NOT_IDENTIFIED: Measured = { value: null, error: null, missing: 'not identified' }
const NOT_MEASURED: Measured = { value: null, error: null, missing: 'no scan' }
const ABSENT: Measured = { value: 0, error: null }

/** What was read off a spectrum, by the leaf's key: a map, or whatever looks it up. */
export type LeafLookup = Pick<ReadonlyMap<string, Measured>, 'get'>

/**
 * The values of one scan.
 *
 * @param leaves what `measureLeaves` gave, by key
 * @param identification null where the scan was not identified: shares are then missing,
 *   not 0
 * @param columns the station's row in the sample table
 */
export function scanValues(
  leaves: LeafLookup,
  identification: Identification | null,
  columns: Readonly<Record<string, Cell>>,
): ScanValues {
  return new OneScan(leaves, identification, columns)
}

/** Looked up each time: a scan has one to four minerals, and a project many scans. */
class OneScan implements ScanValues {
  constructor(
    private readonly leaves: LeafLookup,
    private readonly identification: Identification | null,
    private readonly columns: Readonly<Record<string, Cell>>,
  ) {}

  leaf(key: string): Measured {
    return this.leaves.get(key) ?? NOT_MEASURED
  }

  share(mineral: string): Measured {
    return this.of(mineral, ({ share }) => share)
  }

  fit(mineral: string): Measured {
    return this.of(mineral, ({ fit }) => fit)
  }

  group(name: string): Measured {
    if (!this.identification) return NOT_IDENTIFIED
    let value: number | null = null
    for (const { group, share } of this.identification.minerals)
      if (group === name) value = (value ?? 0) + share
    return value === null ? ABSENT : { value, error: null }
  }

  column(name: string): Cell | undefined {
    return cellNamed(this.columns, name)
  }

  private of(mineral: string, read: (share: MineralShare) => number): Measured {
    if (!this.identification) return NOT_IDENTIFIED
    const found = this.identification.minerals.findLast((share) => share.mineral === mineral)
    return found ? { value: read(found), error: null } : ABSENT
  }
}

/** Leaves and what they measured, as the map that {@link scanValues} reads. */
export function leavesByKey(
  leaves: readonly { readonly key: string }[],
  measured: readonly Measured[],
): Map<string, Measured> {
  return new Map(leaves.map((leaf, i) => [leaf.key, measured[i]]))
}
