/** Products of references' shapes with one another, kept with the set that they belong to. */
import { dot } from './likeness'
import type { ScanShape } from './match'
import type { PreparedSet } from './prepare'

const kept = new WeakMap<PreparedSet, Map<number, Float64Array>>()

/**
 * Products of one reference's linear shape with all of the set's at a scan's scale, computed
 * once a set.
 */
export function gramRow(
  set: PreparedSet,
  { scale }: Pick<ScanShape, 'scale'>,
  index: number,
): Float64Array {
  let rows = kept.get(set)
  if (!rows) {
    rows = new Map()
    kept.set(set, rows)
  }
  const key = index * 16 + scale
  let row = rows.get(key)
  if (!row) {
    const own = set.references[index].shapeAt(scale).linear
    row = Float64Array.from(set.references, ({ shapeAt }) => dot(own, shapeAt(scale).linear))
    rows.set(key, row)
  }
  return row
}
