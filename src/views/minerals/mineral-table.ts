/** Minerals over the whole project. */
import { varietiesOf } from '../../indices/varieties'
import type { IndexPreset } from '../../indices/presets'
import type { Identification } from '../../minerals/reference'
import type { ScanVarieties } from '../../project/varieties'
import { fixed } from '../numbers'

export interface MineralCount {
  readonly mineral: string
  readonly group: string
  /** Scans in which it has the largest share. */
  readonly main: number
  /** Scans in which it was found at all. */
  readonly scans: number
  /** Over the scans in which it was found. */
  readonly meanShare: number
  /** The main index of its varieties over these scans; null where none speaks of it. */
  readonly variety: VarietySpread | null
}

/** A variety index over the scans in which it can be read. */
export interface VarietySpread {
  readonly preset: IndexPreset
  readonly median: number
  /** Quartiles. */
  readonly low: number
  readonly high: number
  readonly scans: number
}

interface Row {
  readonly group: string
  main: number
  scans: number
  sum: number
  readonly values: number[]
}

/**
 * A row a mineral, the most frequent main mineral first.
 *
 * @param varieties of each scan; empty where they are not known
 */
export function mineralTable(
  found: readonly (Identification | null)[],
  varieties: readonly ScanVarieties[] = [],
): MineralCount[] {
  const rows = new Map<string, Row>()
  found.forEach((identification, scan) => {
    identification?.minerals.forEach(({ mineral, group, share }, rank) => {
      const row = rows.get(mineral) ?? { group, main: 0, scans: 0, sum: 0, values: [] }
      row.scans++
      row.sum += share
      if (rank === 0) row.main++
      const value = varieties[scan]?.get(varietiesOf(group)[0]?.preset.id)?.value ?? null
      if (value !== null) row.values.push(value)
      rows.set(mineral, row)
    })
  })
  return [...rows]
    .map(([mineral, { group, main, scans, sum, values }]) => ({
      mineral,
      group,
      main,
      scans,
      meanShare: sum / scans,
      variety: spreadOf(group, values),
    }))
    .sort((a, b) => b.main - a.main || b.scans - a.scans || (a.mineral < b.mineral ? -1 : 1))
}

/** Scans by what is said of them, the most frequent first: one sentence often serves many. */
export function scansByDoubt(
  found: readonly (Identification | null)[],
): [doubt: string, scans: number[]][] {
  const said = new Map<string, number[]>()
  found.forEach((identification, scan) => {
    const doubt = identification?.doubt
    if (doubt) said.set(doubt, [...(said.get(doubt) ?? []), scan])
  })
  return [...said].sort(([, a], [, b]) => b.length - a.length)
}

function spreadOf(group: string, list: readonly number[]): VarietySpread | null {
  const preset = varietiesOf(group)[0]?.preset
  if (!preset || list.length === 0) return null
  const ascending = Float64Array.from(list).sort()
  return {
    preset,
    median: quantile(ascending, 0.5),
    low: quantile(ascending, 0.25),
    high: quantile(ascending, 0.75),
    scans: list.length,
  }
}

/** A quantile, straight between the two nearest values (type 7 of Hyndman and Fan 1996). */
function quantile(ascending: Float64Array, part: number): number {
  const at = part * (ascending.length - 1)
  const below = Math.floor(at)
  const above = Math.min(below + 1, ascending.length - 1)
  return ascending[below] + (at - below) * (ascending[above] - ascending[below])
}

/** A variety's median, its middle half in brackets, and the scans behind them. */
export function spreadWords({ preset, median, low, high, scans }: VarietySpread): string {
  const decimals = preset.unit === 'nm' ? 1 : 2
  const middle = `${preset.name} ${fixed(median, decimals)}`
  const unit = preset.unit ? `\u202f${preset.unit}` : ''
  if (scans === 1) return `${middle}${unit}, 1 scan`
  return `${middle} (${fixed(low, decimals)}–${fixed(high, decimals)})${unit}, ${scans} scans`
}
