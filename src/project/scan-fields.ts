/** Fields that a person set on scans: what the file says of them is kept, and overruled. */
import { cellOf } from '../places/cells'
import type { Cell } from '../places/station'
import type { Active } from './active-scans'
import { scanKey, type Decisions } from './decisions'
import { isHandField, withHandFields, type HandField } from './hand-fields'
import type { ScanHead } from './project'

/** What decides the fields, as a text that differs when they do; empty where nobody set any. */
export function fieldsKey({ list }: Decisions): string {
  const set = list.filter(({ about }) => about.kind === 'field')
  return set.length === 0
    ? ''
    : JSON.stringify(set.map(({ file, scan, about }) => [file, scan, about]))
}

/**
 * The scans with the fields that people set; the last word on each counts, and an empty one takes
 * the earlier ones back. The same object where nobody set any.
 */
export function withFields(active: Active, { list }: Decisions): Active {
  const fields = new Map<string, Map<string, string>>()
  for (const { file, scan, about } of list) {
    if (about.kind !== 'field') continue
    const key = scanKey(file, scan)
    const own = fields.get(key) ?? new Map<string, string>()
    own.set(about.field, about.value)
    fields.set(key, own)
  }
  if (fields.size === 0) return active
  const heads = active.heads.map((head) => {
    const set = fields.get(scanKey(head.file, head.name))
    return set ? withOwn(head, set) : head
  })
  return { ...active, heads }
}

function withOwn(head: ScanHead, set: ReadonlyMap<string, string>): ScanHead {
  const own: [field: string, value: string][] = []
  const known = new Map<HandField, string>()
  for (const [field, value] of set) {
    if (value === '') continue
    if (isHandField(field)) known.set(field, value)
    else own.push([field, value])
  }
  return { ...head, known: withHandFields(head.known, known), own: Object.fromEntries(own) }
}

/** The names of the user's own fields, in the order of their letters. */
export function ownFields(heads: readonly ScanHead[]): string[] {
  const names = new Set<string>()
  for (const { own } of heads) if (own) for (const name of Object.keys(own)) names.add(name)
  return [...names].sort()
}

/** A scan's own fields as cells: numbers where they read as one. */
export function ownCells({ own }: ScanHead): Readonly<Record<string, Cell>> {
  return Object.fromEntries(
    Object.entries(own ?? {}).map(([name, value]) => [name, cellOf(value, '.')]),
  )
}

/** Fields on which a station's scans agree; null where those that have it differ. */
export function agreedCells(
  scans: readonly Readonly<Record<string, Cell>>[],
): Readonly<Record<string, Cell>> {
  const cells = new Map<string, Cell>()
  for (const scan of scans) {
    for (const [name, cell] of Object.entries(scan)) {
      cells.set(name, !cells.has(name) || cells.get(name) === cell ? cell : null)
    }
  }
  return Object.fromEntries(cells)
}
