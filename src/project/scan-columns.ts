/** What scan files say of the instrument, as columns for rules and formulas. */
import { numberIn } from '../places/cells'
import type { Cell } from '../places/station'
import type { ScanHead } from './project'

/** Fields that are columns; the name of each begins with `scan`, as no heading of a table does. */
const FIELDS = ['operator', 'probe', 'spot', 'integration', 'battery', 'temperature'] as const
type ColumnField = (typeof FIELDS)[number]

const nameOf = (field: ColumnField): string => `scan ${field}`

/** The columns' names. */
export const SCAN_COLUMNS: readonly string[] = FIELDS.map(nameOf)

type Cells = Readonly<Record<string, Cell>>
const NONE: Cells = {}

/** A number and its unit, as instruments write them: `34 ms`, `12.1 V`, `85%`. */
const QUANTITY = /^([+-]?(?:\d+[.,]?\d*|[.,]\d+))\s*([^\s\d.,][^\d]{0,11})?$/u

/**
 * The fields of each scan as cells; a field that no file names is absent.
 *
 * A field is numbers where all scans that have it give a number in one unit, which is left away;
 * else it is text as it is written, so that no two units are ever mixed.
 */
export function scanCells(heads: readonly ScanHead[]): readonly Cells[] {
  const fields = FIELDS.filter((field) => heads.some(({ known }) => known[field] !== null))
  if (fields.length === 0) return heads.map(() => NONE)
  const numeric = new Set(fields.filter((field) => isInOneUnit(heads, field)))
  const made = new Map<ScanHead['known'], Cells>()
  return heads.map(({ known }) => {
    let cells = made.get(known)
    cells ??= Object.fromEntries(
      fields.flatMap((field): [string, Cell][] => {
        const text = known[field]
        if (text === null) return []
        return [[nameOf(field), numeric.has(field) ? quantityOf(text).number : text]]
      }),
    )
    made.set(known, cells)
    return cells
  })
}

function isInOneUnit(heads: readonly ScanHead[], field: ColumnField): boolean {
  const units = new Set<string>()
  for (const { known } of heads) {
    const text = known[field]
    if (text === null) continue
    const { number, unit } = quantityOf(text)
    if (Number.isNaN(number)) return false
    units.add(unit)
    if (units.size > 1) return false
  }
  return true
}

function quantityOf(text: string): { readonly number: number; readonly unit: string } {
  const match = QUANTITY.exec(text.trim())
  if (match === null) return { number: NaN, unit: '' }
  return { number: numberIn(match[1], match[1].includes(',') ? ',' : '.'), unit: match[2] ?? '' }
}
