/** Where a formula's values come from: one scan, or a station's means. */
import type { Cell } from '../places/station'
import { cellNamed } from './cells'
import type { Identification } from '../minerals/reference'
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

/**
 * The values of one scan.
 *
 * @param leaves what `measureLeaves` gave, by key
 * @param identification null where the scan was not identified: shares are then missing,
 *   not 0
 * @param columns the station's row in the sample table
 */
export function scanValues(
  leaves: ReadonlyMap<string, Measured>,
  identification: Identification | null,
  columns: Readonly<Record<string, Cell>>,
): ScanValues {
  const shares = new Map<string, Measured>()
  const groups = new Map<string, number>()
  const fits = new Map<string, Measured>()
  for (const found of identification?.minerals ?? []) {
    shares.set(found.mineral, { value: found.share, error: null })
    fits.set(found.mineral, { value: found.fit, error: null })
    groups.set(found.group, (groups.get(found.group) ?? 0) + found.share)
  }
  const groupShares = new Map<string, Measured>()
  for (const [name, value] of groups) groupShares.set(name, { value, error: null })
  const absent = identification ? ABSENT : NOT_IDENTIFIED
  return {
    leaf: (key) => leaves.get(key) ?? NOT_MEASURED,
    share: (mineral) => shares.get(mineral) ?? absent,
    group: (name) => groupShares.get(name) ?? absent,
    fit: (mineral) => fits.get(mineral) ?? absent,
    column: (name) => cellNamed(columns, name),
  }
}

/** Leaves and what they measured, as the map that {@link scanValues} reads. */
export function leavesByKey(
  leaves: readonly { readonly key: string }[],
  measured: readonly Measured[],
): Map<string, Measured> {
  return new Map(leaves.map((leaf, i) => [leaf.key, measured[i]]))
}
