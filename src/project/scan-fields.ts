/** Fields that a person set on scans: what the file says of them is kept, and overruled. */
import { cellOf } from '../places/cells'
import type { Cell } from '../places/station'
import type { Active } from './active-scans'
import { scanKey, type Decisions } from './decisions'
import type { ScanHead } from './project'

/** Fields that the program itself knows and that can be set by hand. */
export const KNOWN_FIELDS = ['sample', 'operator', 'comment'] as const
type KnownField = (typeof KNOWN_FIELDS)[number]

function isKnownField(field: string): field is KnownField {
  return KNOWN_FIELDS.some((known) => known === field)
}

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
  const known: Partial<Record<KnownField, string>> = {}
  for (const [field, value] of set) {
    if (value === '') continue
    if (isKnownField(field)) known[field] = value
    else own.push([field, value])
  }
  return { ...head, known: { ...head.known, ...known }, own: Object.fromEntries(own) }
}

/** Heads as placing reads them: a sample that a person named stands in the metadata. */
export function headsForPlacing(heads: readonly ScanHead[]): readonly ScanHead[] {
  if (!heads.some(({ own }) => own !== undefined)) return heads
  return heads.map((head) => {
    const { sample } = head.known
    if (head.own === undefined || sample === null) return head
    // `sample` is the surest spelling of all, and of equals the first counts.
    const said = Object.entries(head.metadata).filter(([key]) => key !== 'sample')
    return { ...head, metadata: Object.fromEntries([['sample', sample], ...said]) }
  })
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

/** Own fields on which a station's scans agree; null where those that have it differ. */
export function agreedCells(heads: readonly ScanHead[]): Readonly<Record<string, Cell>> {
  const cells = new Map<string, Cell>()
  for (const head of heads) {
    for (const [name, cell] of Object.entries(ownCells(head))) {
      cells.set(name, !cells.has(name) || cells.get(name) === cell ? cell : null)
    }
  }
  return Object.fromEntries(cells)
}
