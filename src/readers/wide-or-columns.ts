/** Whether numbers side by side are wavelengths, or name scans whose wavelengths stand below each other. */
import { isPlaceHeading } from './headings'
import { BLANK, CellSplitter, isBlank, lineEnd, nextLine } from './lines'
import { COMMA, parseNumber, POINT } from './numbers'
import { decideWavelengthUnit, namedWavelengthUnit, toNanometres } from './units'
import type { WideHeading } from './wide'

/** An axis of fewer channels, or that reaches less far, does not speak against another. */
const FEWEST = 20
const REACH = 1.5
/** Neighbouring channels of a spectrum are not further apart than this part of their wavelength. */
const WIDEST_STEP = 0.25
/** This part of rows must begin with a number, and of numbers follow in order: others may be damaged. */
const MOST = 0.8
/** Looked through for a first column of numbers, bytes. */
const LOOKED_THROUGH = 20_000_000

/**
 * Whether a heading of numbers names scans: its words say no wavelength, and the first column is an
 * axis that reaches further than the heading's numbers would. Under a heading for places, such as
 * the depths of scans in a hole, those must besides reach less far than a spectrum does.
 *
 * @param start where the first row of numbers below the heading begins
 */
export function namesScans(
  bytes: Uint8Array,
  { cells, from, axis, affix }: WideHeading,
  start: number,
  delimiter: number,
): boolean {
  // A row of values of which some rise stands further right.
  const isBeside = from === 1 || (from > 1 && !Number.isNaN(Number(cells[0] || NaN)))
  if (!isBeside || saysWavelength(affix)) return false
  const across = reachOf(axis)
  const isSpectral = axis.length >= FEWEST && across >= REACH
  if (isSpectral && isPlaceHeading(cells[0])) return false
  const down = firstColumn(bytes, start, delimiter)
  // So few numbers so near each other are no spectrum, even over rows that break off.
  if (axis.length < FEWEST && across < REACH) return down.length > 0
  return isSpectrum(down) && (!isSpectral || reachOf(down) > across)
}

/** Whether what stands beside the numbers is a unit or a word for wavelengths or reflectance. */
function saysWavelength(affix: string): boolean {
  if (namedWavelengthUnit(affix) !== null) return true
  return /^(w|wl|wv|wvl|wave\w*|λ|lambda|refl\w*)\b|[@([]/iu.test(affix)
}

function reachOf(axis: Float64Array): number {
  const ends = [axis[0], axis[axis.length - 1]]
  return Math.max(...ends) / Math.min(...ends)
}

/** Whether numbers are wavelengths in order, but for a few that may be damaged. */
function isSpectrum(axis: Float64Array): boolean {
  if (axis.length < FEWEST || reachOf(axis) < REACH) return false
  const { unit } = decideWavelengthUnit(axis, null)
  const ends = [toNanometres(axis[0], unit), toNanometres(axis[axis.length - 1], unit)]
  if (Math.min(...ends) < 200 || Math.max(...ends) > 30_000) return false
  const sign = Math.sign(axis[axis.length - 1] - axis[0])
  const steps = axis.subarray(1).map((value, i) => sign * (value / axis[i] - 1))
  const regular = steps.filter((step) => step > 0 && step <= WIDEST_STEP)
  return regular.length >= MOST * steps.length
}

/** The numbers of the first column, where most rows begin with one; else none. */
function firstColumn(bytes: Uint8Array, start: number, delimiter: number): Float64Array {
  const cells = new CellSplitter()
  const values: number[] = []
  const end = Math.min(bytes.length, start + LOOKED_THROUGH)
  let rows = 0
  for (let at = start; at < end;) {
    const lineStop = lineEnd(bytes, at)
    if (!isBlank(bytes, at, lineStop)) {
      const cellStop = delimiter === BLANK ? lineStop : cellEnd(bytes, at, lineStop, delimiter)
      cells.split(bytes, at, cellStop, delimiter)
      const value = numberIn(bytes, cells.starts[0], cells.ends[0], delimiter)
      if (value > 0) values.push(value)
      rows++
      // Names of rows are seen soon to be no numbers.
      if (rows >= FEWEST && values.length < MOST * rows) break
    }
    at = nextLine(bytes, lineStop)
  }
  return Float64Array.from(values.length >= MOST * rows ? values : [])
}

function cellEnd(bytes: Uint8Array, start: number, end: number, delimiter: number): number {
  let i = start
  while (i < end && bytes[i] !== delimiter) i++
  return i
}

function numberIn(bytes: Uint8Array, start: number, end: number, delimiter: number): number {
  const value = parseNumber(bytes, start, end, POINT)
  const isComma = Number.isNaN(value) && delimiter !== COMMA
  return isComma ? parseNumber(bytes, start, end, COMMA) : value
}
