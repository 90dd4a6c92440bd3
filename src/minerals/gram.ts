/** Products of references' shapes with one another, kept with the set that they belong to. */
import { dot } from './likeness'
import type { ScanShape } from './match'
import type { PreparedSet } from './prepare'

const kept = new WeakMap<PreparedSet, Map<number, Float64Array>>()

/**
 * Products of one reference's linear shape with all of the set's, where the scan has values.
 * Rows for scans without gaps are computed once a set.
 */
export function gramRow(set: PreparedSet, scan: ScanShape, index: number): Float64Array {
  if (!scan.whole) return computed(set, scan, index)
  let rows = kept.get(set)
  if (!rows) {
    rows = new Map()
    kept.set(set, rows)
  }
  const key = index * 16 + scan.scale
  let row = rows.get(key)
  if (!row) {
    row = computed(set, scan, index)
    rows.set(key, row)
  }
  return row
}

function computed(set: PreparedSet, scan: ScanShape, index: number): Float64Array {
  const { linear } = set.references[index].shapeAt(scan.scale)
  const own = scan.whole ? linear : linear.map((value, i) => value * scan.known[i])
  return Float64Array.from(set.references, ({ shapeAt }) => dot(own, shapeAt(scan.scale).linear))
}
