/**
 * The explanation of a scan as curves that can be laid over it.
 *
 * Absorption is −ln(reflectance / continuum), in which minerals add up. In the stretch that is
 * shown, the references of the minerals that were found are taken in the amounts that come
 * nearest to the scan's absorption (non-negative least squares, Lawson and Hanson 1974). The
 * amounts serve the drawing; the shares stand as they were identified. Where a mineral's references
 * end before the scan does, all end there: a mixture without one of its minerals explains nothing.
 */
import type { References } from '../../jobs/references'
import { mineralOfRecord } from '../../minerals/catalogue'
import { modelReflectance } from '../../minerals/model'
import { nonNegativeLeastSquares } from '../../minerals/nnls'
import { removeContinuum, type ContinuumRemoved } from '../../spectra/hull'
import type { Spectrum } from '../../spectra/spectrum'

/** Channels that take part in the fit; all are drawn. */
const FITTED = 400

export interface MineralPart {
  readonly mineral: string
  /** Its absorption at each channel, no unit. */
  readonly absorption: Float64Array
}

/** A scan's stretch explained; all curves share its wavelengths. */
export interface Explanation {
  /** nm */
  readonly wavelengths: Float64Array
  /** The explanation as continuum-removed reflectance. */
  readonly removed: Float64Array
  /** The same on the scan's own continuum, so that it can be compared with its reflectance. */
  readonly reflectance: Float64Array
  /** The scan's absorption, which the parts and the residual add up to. */
  readonly absorption: Float64Array
  readonly parts: readonly MineralPart[]
  readonly residual: Float64Array
}

/**
 * Explains a stretch of a scan by minerals.
 *
 * @param own the stretch over its continuum
 * @returns null where no mineral has a reference that covers the stretch
 */
export function explain(
  own: ContinuumRemoved,
  minerals: readonly string[],
  references: References,
): Explanation | null {
  const stretch = sharedStretch(own, minerals, references)
  if (!stretch) return null
  const { wavelengths, removed, hull } = stretch
  const first = own.wavelengths.indexOf(wavelengths[0])
  const columns = minerals.flatMap((mineral) =>
    absorptionsOf(mineral, wavelengths, references).map((absorption) => ({ mineral, absorption })),
  )
  const absorption = absorptionOf(removed)
  const stride = Math.max(1, Math.floor(wavelengths.length / FITTED))
  const thin = (values: Float64Array) => values.filter((_, i) => i % stride === 0)
  const { x } = nonNegativeLeastSquares(
    columns.map((column) => thin(column.absorption)),
    thin(absorption),
  )
  const parts = minerals.map((mineral) => {
    const sum = new Float64Array(wavelengths.length)
    columns.forEach((column, c) => {
      if (column.mineral !== mineral || x[c] === 0) return
      for (let i = 0; i < sum.length; i++) sum[i] += x[c] * column.absorption[i]
    })
    return { mineral, absorption: sum }
  })
  const whole = new Float64Array(wavelengths.length)
  for (const part of parts) for (let i = 0; i < whole.length; i++) whole[i] += part.absorption[i]
  const reflectance = whole.map((value, i) => Math.exp(-value) * hull[i])
  return {
    wavelengths,
    removed: reflectance.map((value, i) => value / own.hull[first + i]),
    reflectance,
    absorption,
    parts,
    residual: absorption.map((value, i) => value - whole[i]),
  }
}

/** The part of the stretch that a reference of each mineral covers, over its own continuum. */
function sharedStretch(
  own: ContinuumRemoved,
  minerals: readonly string[],
  references: References,
): ContinuumRemoved | null {
  let from = own.wavelengths[0]
  let to = own.wavelengths[own.wavelengths.length - 1]
  for (const mineral of minerals) {
    const ranges = rangesOf(mineral, references).map(
      ([low, high]) => [Math.max(low, from), Math.min(high, to)] as const,
    )
    const widest = ranges.sort((a, b) => b[1] - b[0] - (a[1] - a[0]))[0]
    if (!widest || widest[1] <= widest[0]) return null
    ;[from, to] = widest
  }
  return removeContinuum(own, from, to)
}

/** What each reference of a mineral covers, nm. */
function rangesOf(
  mineral: string,
  references: References,
): (readonly [from: number, to: number])[] {
  const { modelled, records } = referencesOf(mineral, references)
  return [
    ...modelled.map(({ range }) => range),
    ...records.map(
      ({ wavelengths }) => [wavelengths[0], wavelengths[wavelengths.length - 1]] as const,
    ),
  ]
}

/** The references of a mineral that are not switched off. */
function referencesOf(mineral: string, { sets, measured, off }: References) {
  return {
    modelled: sets
      .flatMap((set) => set.references)
      .filter((entry) => entry.mineral === mineral && !off.includes(entry.record)),
    records: measured.filter(
      ({ name }) => !off.includes(name) && mineralOfRecord(name).mineral === mineral,
    ),
  }
}

/** Absorption from continuum-removed reflectance; darkness itself is held at e⁻⁷. */
function absorptionOf(removed: Float64Array): Float64Array {
  return removed.map((value) => -Math.log(Math.max(value, 1e-3)))
}

/** The absorption of every reference of a mineral that covers the stretch. */
function absorptionsOf(
  mineral: string,
  wavelengths: Float64Array,
  references: References,
): Float64Array[] {
  const [from, to] = [wavelengths[0], wavelengths[wavelengths.length - 1]]
  const own = referencesOf(mineral, references)
  const modelled = own.modelled
    .filter(({ range }) => range[0] <= from + 1 && range[1] >= to - 1)
    .map((entry) => modelReflectance(entry, wavelengths))
  const records = own.records.flatMap((record) => {
    const values = resampled(record, wavelengths)
    return values ? [values] : []
  })
  return [...modelled, ...records].flatMap((reflectance) => {
    const over = removeContinuum({ wavelengths, reflectance })
    return over ? [absorptionOf(over.removed)] : []
  })
}

/** A measured record at other wavelengths, linearly; null where it does not cover them. */
function resampled(record: Spectrum, wavelengths: Float64Array): Float64Array | null {
  const values = new Float64Array(wavelengths.length)
  let k = 0
  for (let i = 0; i < wavelengths.length; i++) {
    while (k + 2 < record.wavelengths.length && record.wavelengths[k + 1] < wavelengths[i]) k++
    const [a, b] = [record.wavelengths[k], record.wavelengths[k + 1]]
    const t = (wavelengths[i] - a) / (b - a)
    values[i] = (1 - t) * record.reflectance[k] + t * record.reflectance[k + 1]
    if (t < -1 || t > 2 || Number.isNaN(values[i])) return null
  }
  return values
}
