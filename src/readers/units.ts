/** What numbers mean: wavelengths to nanometres, reflectance to fractions. */
import type { Layout } from './input'
import { remembering } from './remembering'

export type WavelengthUnit = Layout['wavelengthUnit']
export type ReflectanceUnit = Layout['reflectanceUnit']

/** Fewer channels make no spectrum in which an absorption could be told. */
export const FEWEST_CHANNELS = 10

/** Reflectance a unit: what a white panel reads. */
export const FULL_SCALE: Readonly<Record<ReflectanceUnit, number>> = {
  fraction: 1,
  percent: 100,
  'per 10000': 10000,
}

/** The wavelength unit that a heading or a header line names, or null. */
export const namedWavelengthUnit = remembering((text: string): WavelengthUnit | null => {
  if (/cm\s*(?:\^?\s*-\s*1|⁻¹|-1)|1\/cm|wave\s*-?number/iu.test(text)) return 'cm⁻¹'
  if (/[µμ]m|\bum\b|\(um|_um\b|micron|micromet/iu.test(text)) return 'µm'
  if (/nm\b|nanom/iu.test(text)) return 'nm'
  return null
})

/** A decision with the sentence that explains it. */
export interface Decision<Unit> {
  readonly unit: Unit
  readonly reason: string
}

/**
 * The unit of an axis that rises or falls throughout: the one named, unless its numbers cannot be in that unit; else by size.
 * Below 100 they are micrometres, from 3000 up alone wavenumbers, else nanometres.
 */
export function decideWavelengthUnit(
  axis: Float64Array,
  named: WavelengthUnit | null,
): Decision<WavelengthUnit> {
  const ends = [axis[0], axis[axis.length - 1]]
  const low = Math.min(...ends)
  const high = Math.max(...ends)
  const sized = unitBySize(axis, low, high)
  const range = `${short(low)} to ${short(high)}`
  if (named === null) return { unit: sized, reason: `wavelengths of ${range} are in ${sized}` }
  const fits = named === 'µm' ? high <= 100 : low >= 100
  return fits
    ? { unit: named, reason: `the header says ${named}` }
    : { unit: sized, reason: `the header says ${named}, but ${range} can only be ${sized}` }
}

function unitBySize(axis: Float64Array, low: number, high: number): WavelengthUnit {
  if (high <= 100) return 'µm'
  const descending = axis.length > 1 && axis[0] > axis[axis.length - 1]
  return low >= 3000 || (descending && high > 3300) ? 'cm⁻¹' : 'nm'
}

function extremes(values: Float64Array): [low: number, high: number] {
  let low = Infinity
  let high = -Infinity
  for (let i = 0; i < values.length; i++) {
    const value = values[i]
    if (value < low) low = value
    if (value > high) high = value
  }
  return [low, high]
}

/** A wavelength in nm, to a millionth of a nm where it has to be computed. */
export function toNanometres(value: number, unit: WavelengthUnit): number {
  if (unit === 'nm') return value
  return Math.round((unit === 'µm' ? value * 1000 : 1e7 / value) * 1e6) / 1e6
}

/** The unit of reflectance that a heading or header line names, or null. */
export const namedReflectanceUnit = remembering((text: string): ReflectanceUnit | null => {
  if (/10[ ,.]?000|1e4/iu.test(text)) return 'per 10000'
  if (/%|percent|per cent|\bpct\b/iu.test(text)) return 'percent'
  if (/fraction|\b0\s*-\s*1\b/iu.test(text)) return 'fraction'
  return null
})

/**
 * The unit of reflectance from the 95th percentile of all values of a file, which neither a
 * noisy channel nor a dark rock moves far: up to 2 is a fraction, up to 250 percent, up to
 * 20,000 ten-thousandths. A named unit counts unless the values cannot be in it: no rock is
 * as dark as 1 % throughout.
 *
 * @returns null where the values are too large for any reflectance
 */
export function decideReflectanceUnit(
  sample: Float64Array,
  named: ReflectanceUnit | null,
): Decision<ReflectanceUnit> | null {
  const high = quantile(sample, 0.95)
  const figure = `95 % of the values are at most ${short(high)}`
  if (named === 'percent' && high > 1 && high <= 400)
    return { unit: 'percent', reason: 'the header says percent' }
  if (named === 'per 10000' && high > 20 && high <= 40000)
    return { unit: 'per 10000', reason: 'the header says 10000 is white' }
  if (named === 'fraction' && high <= 10)
    return { unit: 'fraction', reason: 'the header says fraction' }
  if (high <= 2) return { unit: 'fraction', reason: `${figure}: fractions` }
  if (high <= 250) return { unit: 'percent', reason: `${figure}: percent` }
  if (high <= 20000) return { unit: 'per 10000', reason: `${figure}: ten-thousandths` }
  return null
}

/** A quantile of the numbers that are not NaN, the lower of two neighbours; NaN of none. */
export function quantile(values: Float64Array, part: number): number {
  const work = new Float64Array(values.length)
  let count = 0
  for (let i = 0; i < values.length; i++) {
    if (!Number.isNaN(values[i])) work[count++] = values[i]
  }
  return count === 0 ? NaN : ranked(work.subarray(0, count), Math.floor(part * (count - 1)))
}

/** The value of a rank, 0 the least, by selection (Hoare 1961, Commun. ACM 4, 321); reorders. */
function ranked(values: Float64Array, rank: number): number {
  let low = 0
  let high = values.length - 1
  while (low < high) {
    const pivot = values[(low + high) >> 1]
    let i = low
    let j = high
    while (i <= j) {
      while (values[i] < pivot) i++
      while (values[j] > pivot) j--
      if (i <= j) {
        const swapped = values[i]
        values[i++] = values[j]
        values[j--] = swapped
      }
    }
    if (rank <= j) high = j
    else if (rank >= i) low = i
    else return values[rank]
  }
  return values[rank]
}

/** A number for a sentence: at most six significant digits. */
export function short(value: number): string {
  return String(Number(value.toPrecision(6)))
}

/** Whether wavelengths are above 0 and rise or fall throughout. */
function isOrdered(axis: Float64Array): boolean {
  const last = axis.length - 1
  const sign = axis[last] > axis[0] ? 1 : -1
  if (!(axis[0] > 0 && axis[last] > 0)) return false
  for (let i = 1; i <= last; i++) if (!((axis[i] - axis[i - 1]) * sign > 0)) return false
  return true
}

/** How the words of a fault begin that detectors which overlap may explain. */
export const RUN_BACK = 'wavelengths run back from'

/** And of those that a wavelength of two detectors may. */
export const TWICE = 'stands twice'

/** What is wrong with an axis, and the row at which it is. */
export interface AxisFault {
  readonly problem: string
  readonly channel: number
}

/**
 * What is wrong with an axis in the file's own unit, as a sentence, or null when it rises or
 * falls throughout. `lineOf` names the place of a channel.
 */
export function axisFault(
  axis: Float64Array,
  lineOf: (channel: number) => string,
): AxisFault | null {
  if (axis.length < FEWEST_CHANNELS) {
    const count = axis.length === 1 ? 'only one wavelength' : `only ${axis.length} wavelengths`
    return { problem: `${count}; a scan needs at least ${FEWEST_CHANNELS}`, channel: 0 }
  }
  if (isOrdered(axis)) return null
  const [low, high] = extremes(axis)
  if (low === high)
    return { problem: `every row has the same wavelength, ${short(low)}`, channel: 1 }
  if (low <= 0) {
    return { problem: `a wavelength of ${short(low)}`, channel: axis.indexOf(low) }
  }
  const sign = axis[axis.length - 1] > axis[0] ? 1 : -1
  for (let i = 1; i < axis.length; i++) {
    const step = (axis[i] - axis[i - 1]) * sign
    if (step > 0) continue
    const at = short(axis[i])
    return step === 0
      ? {
          problem: `the wavelength ${at} ${TWICE} (${lineOf(i - 1)} and ${lineOf(i)})`,
          channel: i,
        }
      : {
          problem: `${RUN_BACK} ${short(axis[i - 1])} to ${at} at ${lineOf(i)}`,
          channel: i,
        }
  }
  return null
}
