/** A station's values: means over its sound scans of the recipe's targets. */
import type { Verdict } from '../check/verdict'
import type { Cell, Target } from '../places/station'
import { cellNamed } from './cells'
import { scanValues, type ScanValues, type ValueContext } from './context'
import { evaluateIndices, type IndexSet } from './index-set'
import { robustMean } from './robust-mean'
import type { Measured, Missing } from './rule'

/** How scans are averaged: plainly, or so that an odd one of three or more pulls little. */
export const AVERAGES = ['mean', 'robust'] as const
export type Average = (typeof AVERAGES)[number]

/** A mean over scans. */
export interface StationValue extends Measured {
  /** How many scans had a value. */
  readonly n: number
}

/** Whether a scan counts towards its station: sound, and of one of the recipe's targets. */
export function countsForStation(
  verdict: Pick<Verdict, 'check'>,
  target: Target,
  targets: readonly Target[],
): boolean {
  return verdict.check === 'sound' && targets.includes(target)
}

/**
 * The mean of the scans that have a value, and its standard error.
 *
 * Let s² be the variance between the scans and e² the mean of their own squared errors.
 * Scatter between scans already holds the scans' own errors, so the two are not added: the
 * standard error is √(max(s², e²) / n), the larger of the external and the internal error
 * (Birge 1932, Phys. Rev. 40, 207; written from memory). The scatter of two or three scans is
 * small by luck now and then, and e² keeps the error from vanishing with it. One scan has its
 * own error.
 *
 * Averaged robustly the value is Huber's mean, and the error the same: an odd scan that pulls
 * little still tells that the station is not of one kind.
 *
 * Without a value it gives the most frequent reason, the first of equals.
 */
export function stationMean(values: readonly Measured[], average: Average = 'mean'): StationValue {
  const known: number[] = []
  let errors = 0
  let ownSquares = 0
  for (const { value, error } of values) {
    if (value === null) continue
    known.push(value)
    if (error === null) continue
    errors++
    ownSquares += error * error
  }
  const n = known.length
  if (n === 0) return { value: null, error: null, missing: usualReason(values), n }
  const own = errors > 0 ? ownSquares / errors : null
  if (n === 1) return { value: known[0], error: own === null ? null : Math.sqrt(own), n }
  const mean = averageOf(known, 'mean')
  const squares = known.reduce((sum, value) => sum + (value - mean) ** 2, 0)
  const error = Math.sqrt(Math.max(squares / (n - 1), own ?? 0) / n)
  return { value: averageOf(known, average, Math.sqrt(own ?? 0)), error, n }
}

/**
 * The average of numbers that all have a value, one at least.
 *
 * @param error of a single one; a robust mean takes nothing within it for odd
 */
export function averageOf(values: readonly number[], average: Average, error = 0): number {
  return average === 'robust'
    ? robustMean(values, error)
    : values.reduce((sum, value) => sum + value, 0) / values.length
}

function usualReason(values: readonly Measured[]): Missing {
  const counts = new Map<Missing, number>()
  for (const { missing } of values) {
    if (missing) counts.set(missing, (counts.get(missing) ?? 0) + 1)
  }
  let usual: Missing = 'no scan'
  let most = 0
  for (const [reason, count] of counts) {
    if (count > most) [usual, most] = [reason, count]
  }
  return usual
}

/**
 * A station's indices: for one that needs a scan, the mean over the scans; for one of table
 * columns alone, its value on the station's own row, whether or not a scan was taken.
 *
 * @param scans each counted scan's indices by name, as {@link evaluateIndices} gave them
 */
export function stationIndices(
  set: IndexSet,
  scans: readonly Pick<ReadonlyMap<string, Measured>, 'get'>[],
  columns: Readonly<Record<string, Cell>>,
  average: Average = 'mean',
): Map<string, StationValue> {
  const row = set.indices.some((index) => !index.needsScan)
    ? evaluateIndices(set, scanValues(new Map(), null, columns))
    : null
  const result = new Map<string, StationValue>()
  for (const { name, needsScan } of set.indices) {
    const own = needsScan ? undefined : row?.get(name)
    if (own) result.set(name, { ...own, n: scans.length })
    else {
      const values = scans.flatMap((scan) => scan.get(name) ?? [])
      result.set(name, stationMean(values, average))
    }
  }
  return result
}

/**
 * A station as a formula sees it: leaves, shares and fits are means over the counted scans
 * (0 where absent from a scan), indices are the station's, columns its row. Each mean is
 * worked out once, when first asked for; keep the context to move thresholds quickly.
 *
 * @param indices the station's indices, as {@link stationIndices} gave them
 */
export function stationContext(
  scans: readonly ScanValues[],
  indices: ReadonlyMap<string, Measured>,
  columns: Readonly<Record<string, Cell>>,
  average: Average = 'mean',
): ValueContext {
  const mean = (read: (scan: ScanValues, name: string) => Measured) =>
    remembered((name) =>
      stationMean(
        scans.map((scan) => read(scan, name)),
        average,
      ),
    )
  return {
    leaf: mean((scan, key) => scan.leaf(key)),
    share: mean((scan, mineral) => scan.share(mineral)),
    group: mean((scan, name) => scan.group(name)),
    fit: mean((scan, mineral) => scan.fit(mineral)),
    index: (name) => indices.get(name) ?? NO_SCAN,
    column: (name) => cellNamed(columns, name),
  }
}

const NO_SCAN: Measured = { value: null, error: null, missing: 'no scan' }

/** A function that works each answer out once. */
function remembered(work: (name: string) => Measured): (name: string) => Measured {
  const answers = new Map<string, Measured>()
  return (name) => {
    let answer = answers.get(name)
    if (!answer) {
      answer = work(name)
      answers.set(name, answer)
    }
    return answer
  }
}
