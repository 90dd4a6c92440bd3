/** Files in which each detector's channels stand whole, so that wavelengths run back at the joins. */
import type { RawScans } from './assemble'
import {
  FEWEST_CHANNELS,
  quantile,
  RUN_BACK,
  short,
  toNanometres,
  TWICE,
  type WavelengthUnit,
} from './units'

/** Where one detector ends and the next has begun already, in the file's unit. */
export interface Overlap {
  /** Where the next detector begins, and where the one before ends. */
  readonly from: number
  readonly to: number
  /** Channels of each that lie there, by their rows: from first up to, and without, end. */
  readonly before: readonly [first: number, end: number]
  readonly next: readonly [first: number, end: number]
}

/** The rows that are kept, in order, and what overlapped. */
export interface Splice {
  readonly kept: Int32Array
  readonly overlaps: readonly Overlap[]
}

/** Where wavelengths run back, and why that is no overlap of detectors: words for after the place. */
export interface NoSplice {
  readonly problem: string
  readonly channel: number
  readonly why: string
}

/** Field instruments have three detectors; one more may be. */
const MOST_DETECTORS = 4
/** Fewer rows of a detector in an overlap may be one damaged row. */
const FEWEST_SHARED = 2
/** More than this part of a detector's channels in an overlap is no overlap but a second scan. */
const MOST_SHARED = 1 / 3
/** Next to the turn spacing may be this many times the detector's usual one; more is a damaged row. */
const WIDEST_SPACING = 1.6
/** Detectors whose spacing differs by more are not one row written twice. */
const OTHER_SPACING = 1.15

/**
 * The rows to keep of an axis that runs back where one detector ends and the next has begun: each
 * detector's up to the middle of the overlap. No value is changed or computed.
 *
 * @returns null where wavelengths do not run back at all
 */
export function spliceOf(axis: Float64Array): Splice | NoSplice | null {
  const sign = direction(axis)
  const turns: number[] = []
  for (let i = 1; i < axis.length; i++) if ((axis[i] - axis[i - 1]) * sign <= 0) turns.push(i)
  if (turns.length === 0) return null
  const back = (turn: number, why: string): NoSplice => {
    const isTwice = axis[turn] === axis[turn - 1]
    const problem = isTwice
      ? `the wavelength ${short(axis[turn])} ${TWICE}, again`
      : `${RUN_BACK} ${short(axis[turn - 1])} to ${short(axis[turn])}`
    return { problem, channel: turn, why }
  }
  if (turns.length >= MOST_DETECTORS) return back(turns[0], `, and ${turns.length - 1} times more`)
  const bounds = [0, ...turns, axis.length]
  const overlaps: Overlap[] = []
  for (const [i, turn] of turns.entries()) {
    const found = overlapAt(axis, sign, bounds[i], turn, bounds[i + 2])
    if (typeof found === 'string') return back(turn, found)
    overlaps.push(found)
  }
  const single = overlaps.findIndex(({ from, to }) => from === to)
  if (single >= 0 && !areJoins(axis, overlaps, bounds)) return back(turns[single], '')
  const kept: number[] = []
  for (let i = 0; i + 1 < bounds.length; i++) {
    const low = i === 0 ? -Infinity : middleOf(overlaps[i - 1]) * sign
    const high = i === overlaps.length ? Infinity : middleOf(overlaps[i]) * sign
    for (let row = bounds[i]; row < bounds[i + 1]; row++) {
      const at = axis[row] * sign
      if (at > low && at <= high) kept.push(row)
    }
  }
  return { kept: Int32Array.from(kept), overlaps }
}

/**
 * Whether wavelengths that stand twice are joins of detectors: the spacing is another on either side.
 * Else they may be rows that were written twice and damaged.
 */
function areJoins(
  axis: Float64Array,
  overlaps: readonly Overlap[],
  bounds: readonly number[],
): boolean {
  return overlaps.every(({ from, to }, i) => {
    if (from !== to) return true
    const [before, next] = [0, 1].map((part) =>
      spacingOf(axis, bounds[i + part], bounds[i + part + 1]),
    )
    return Math.max(before, next) > OTHER_SPACING * Math.min(before, next)
  })
}

/** 1 where most wavelengths rise, −1 where most fall. */
function direction(axis: Float64Array): number {
  let rises = 0
  for (let i = 1; i < axis.length; i++) rises += Math.sign(axis[i] - axis[i - 1])
  return rises < 0 ? -1 : 1
}

function middleOf({ from, to }: Overlap): number {
  return (from + to) / 2
}

/** The overlap of the rows before a turn with those after it, or why it is none. */
function overlapAt(
  axis: Float64Array,
  sign: number,
  start: number,
  turn: number,
  end: number,
): Overlap | string {
  const [from, to] = [axis[turn], axis[turn - 1]]
  if (turn - start < FEWEST_CHANNELS || end - turn < FEWEST_CHANNELS) return ''
  if ((from - axis[start]) * sign <= 0) return ', where the rows before began: two scans in one'
  if ((axis[end - 1] - to) * sign <= 0) {
    return ` and end at ${short(axis[end - 1])}, within the rows before`
  }
  if (!isEven(axis, start, turn, turn - 1) || !isEven(axis, turn, end, turn + 1)) return ''
  let first = turn - 1
  while (first > start && (axis[first - 1] - from) * sign >= 0) first--
  let last = turn + 1
  while (last < end && (axis[last] - to) * sign <= 0) last++
  // One wavelength of both is enough where the spacing on either side says that no row is damaged.
  const fewest = from === to ? 1 : FEWEST_SHARED
  if (Math.min(turn - first, last - turn) < fewest) return ''
  const shared = Math.max((turn - first) / (turn - start), (last - turn) / (end - turn))
  if (shared > MOST_SHARED) return ', too far for detectors that overlap'
  return { from, to, before: [first, turn], next: [turn, last] }
}

/** Whether a row is not further from the one before it than its detector's rows are. */
function isEven(axis: Float64Array, start: number, end: number, row: number): boolean {
  return Math.abs(axis[row] - axis[row - 1]) <= WIDEST_SPACING * spacingOf(axis, start, end)
}

/** The usual spacing of a detector's channels. */
function spacingOf(axis: Float64Array, start: number, end: number): number {
  const spacings = new Float64Array(end - start - 1)
  for (let i = start + 1; i < end; i++) spacings[i - start - 1] = Math.abs(axis[i] - axis[i - 1])
  return quantile(spacings, 0.5)
}

/** The same scans on the kept rows alone, each with a line of metadata that says so. */
export function spliced(raw: RawScans, { kept }: Splice): RawScans {
  return {
    ...raw,
    axis: pick(raw.axis, kept),
    lineOf: (channel) => raw.lineOf(kept[channel]),
    lineNumber: (channel) => raw.lineNumber(kept[channel]),
    scans: raw.scans.map((scan) => ({ ...scan, values: pick(scan.values, kept) })),
  }
}

function pick(values: Float64Array, rows: Int32Array): Float64Array {
  return Float64Array.from(rows, (row) => values[row])
}

/** The key of the line of metadata that tells of a splice. */
const SPLICED = 'detectors spliced'
/** Two detectors that differ by more on one rock have not seen the same. */
const LARGEST_DIFFERENCE = 0.5
/** Darker than this part of the scan's bright end, differences say nothing. */
const DARK_PART = 0.05

/**
 * What a scan's detectors say of one another where they overlap: as a line of metadata, or why
 * they cannot be of one scan.
 */
export function overlapWords(
  values: Float64Array,
  { overlaps }: Splice,
  unit: WavelengthUnit,
): { readonly key: string; readonly value: string } | { readonly problem: string } {
  const bright = Math.abs(quantile(values, 0.95))
  const parts: string[] = []
  for (const overlap of overlaps) {
    const [before, next] = [meanOf(values, overlap.before), meanOf(values, overlap.next)]
    const range = rangeWords(overlap, unit)
    const level = Math.max(Math.abs(before), Math.abs(next))
    const difference = Math.abs(next - before) / level
    if (level > DARK_PART * bright && difference > LARGEST_DIFFERENCE) {
      const percent = (100 * difference).toFixed(0)
      return { problem: `its detectors differ by ${percent} % where they overlap (${range})` }
    }
    parts.push(
      `at ${spliceWords(overlap, unit)} (both read ${range}${stepWords(next / before - 1)})`,
    )
  }
  return { key: SPLICED, value: parts.join('; ') }
}

/** Where a file's detectors overlap, as a sentence for its layout. */
export function spliceReason({ overlaps }: Splice, unit: WavelengthUnit): string {
  const places = overlaps.map(
    (overlap) => `${rangeWords(overlap, unit)}, spliced at ${spliceWords(overlap, unit)}`,
  )
  return `detectors overlap from ${places.join(' and from ')}; each counts to the middle`
}

function rangeWords({ from, to }: Overlap, unit: WavelengthUnit): string {
  const [low, high] = [from, to].map((at) => toNanometres(at, unit)).sort((a, b) => a - b)
  return `${short(low)} to ${short(high)} nm`
}

function spliceWords(overlap: Overlap, unit: WavelengthUnit): string {
  return `${short(toNanometres(middleOf(overlap), unit))} nm`
}

function meanOf(values: Float64Array, [first, end]: readonly [number, number]): number {
  let [sum, count] = [0, 0]
  for (let i = first; i < end; i++) {
    if (Number.isNaN(values[i])) continue
    sum += values[i]
    count++
  }
  return count > 0 ? sum / count : NaN
}

/** By how much the next detector reads more or less; nothing where that cannot be told. */
function stepWords(step: number): string {
  if (!Number.isFinite(step)) return ''
  return `, where the next reads ${(100 * Math.abs(step)).toFixed(1)} % ${step < 0 ? 'less' : 'more'}`
}

/**
 * Whether half of an overlap's rows or more stand in both alike, to the last digit: a piece of the
 * file that was written twice, which two detectors never are.
 */
export function isRepeated({ axis, scans }: RawScans, { before, next }: Overlap): boolean {
  const columns = [axis, ...scans.map(({ values }) => values)]
  const rows = new Map<number, number>()
  for (let row = before[0]; row < before[1]; row++) rows.set(axis[row], row)
  let alike = 0
  for (let row = next[0]; row < next[1]; row++) {
    const twin = rows.get(axis[row])
    if (twin === undefined) continue
    if (columns.every((column) => Object.is(column[twin], column[row]))) alike++
  }
  return 2 * alike >= Math.min(before[1] - before[0], next[1] - next[0])
}
