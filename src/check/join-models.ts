/** Smooth courses that a rock may take through a detector join: worked out once an axis. */
import { NOISE_LENGTH } from '../spectra/feature'
import { onceAnAxis } from '../spectra/once-an-axis'
import { channelRange } from '../spectra/spectrum'

/** The stretch that tells a step, half its length in nm. */
const REACH = 40
/** Waves fit in a box of this half-length, nm, wider than the stretch so that its ends are free. */
const BOX = 60
/** Number of waves: the shortest is 5 nm from crest to trough. */
const WAVES = 24
/** How quickly the rock's curve may bend, nm: length scales of a squared-exponential kernel. */
const LENGTHS = [6, 10, 16, 25, 40, 80] as const
/** Its variance over that of the noise. */
const RATIOS = [0.1, 1, 10, 100, 1e3, 1e4, 1e5] as const
/** A wave with less variance than this part of the noise is left out of a model. */
const LEAST_PART = 1e-9
/** Channels on a side, fewer of which tell nothing. */
const LEAST_SIDE = 5

/** One way of being smooth. Coefficients: level, slope, step, then the waves. */
export interface JoinModel {
  /** Inverse of the normal matrix with the waves' prior in it, row by row. */
  readonly inverse: Float64Array
  /** Log determinants of the normal matrix and of the prior: what the model's evidence lacks. */
  readonly logDeterminant: number
}

/** All that the wavelengths tell of a step after a channel. */
export interface JoinModels {
  /** The first channel; as many as `columns[0]` has. */
  readonly start: number
  /** Level, slope, a step of 1 from -1/2 to 1/2, then the waves; one value a channel. */
  readonly columns: readonly Float64Array[]
  readonly models: readonly JoinModel[]
  /** Channels that measure as much as one does where neighbours share noise. */
  readonly sharing: number
  /** Values of the columns at the join itself, the step's being 0. */
  readonly atJoin: Float64Array
}

/**
 * Models of the curve about the step after a channel; null where fewer than five channels lie on
 * either side within 40 nm.
 *
 * A Gaussian process in the form of waves in a box, each with the variance that the kernel's
 * spectral density gives it (Solin and Särkkä 2020, Statistics and Computing 30, 419), beside a
 * level, a slope and the step, which are free.
 */
export const joinModels = onceAnAxis((wavelengths, channel: number): JoinModels | null => {
  const position = (wavelengths[channel] + wavelengths[channel + 1]) / 2
  if (!(position > 0)) return null
  const [start, end] = channelRange(wavelengths, position - REACH, position + REACH)
  if (channel + 1 - start < LEAST_SIDE || end - channel - 1 < LEAST_SIDE) return null
  const x = wavelengths.slice(start, end).map((nm) => nm - position)
  const columns = columnsAt(x)
  const gram = gramOf(columns)
  const spacing = (x[x.length - 1] - x[0]) / (x.length - 1)
  return {
    start,
    columns,
    models: LENGTHS.flatMap((length) =>
      RATIOS.flatMap((ratio) => modelOf(gram, columns.length, length, ratio) ?? []),
    ),
    sharing: Math.max(1, NOISE_LENGTH / spacing),
    atJoin: Float64Array.from(columnsAt(Float64Array.of(0)), ([value]) => value),
  }
})

function columnsAt(x: Float64Array): Float64Array[] {
  return [
    x.map(() => 1),
    x.map((value) => value / REACH),
    x.map((value) => Math.sign(value) / 2),
    ...Array.from({ length: WAVES }, (_, wave) =>
      x.map((value) => Math.sin(frequencyOf(wave) * (value + BOX)) / Math.sqrt(BOX)),
    ),
  ]
}

/** Radians a nm. */
function frequencyOf(wave: number): number {
  return (Math.PI * (wave + 1)) / (2 * BOX)
}

function gramOf(columns: readonly Float64Array[]): Float64Array {
  const size = columns.length
  const gram = new Float64Array(size * size)
  for (let row = 0; row < size; row++) {
    for (let column = 0; column <= row; column++) {
      const product = columns[row].reduce((sum, value, i) => sum + value * columns[column][i], 0)
      gram[row * size + column] = gram[column * size + row] = product
    }
  }
  return gram
}

function modelOf(
  gram: Float64Array,
  size: number,
  length: number,
  ratio: number,
): JoinModel | null {
  const normal = Float64Array.from(gram)
  let logPrior = 0
  for (let wave = 0; wave < WAVES; wave++) {
    const density =
      Math.sqrt(2 * Math.PI) * length * Math.exp(-((length * frequencyOf(wave)) ** 2) / 2)
    const variance = Math.max(LEAST_PART, ratio * density)
    const at = wave + size - WAVES
    normal[at * size + at] += 1 / variance
    logPrior += Math.log(variance)
  }
  const inverted = invert(normal, size)
  return inverted === null
    ? null
    : { inverse: inverted.inverse, logDeterminant: inverted.logDeterminant + logPrior }
}

/** Inverse and log determinant of a symmetric positive matrix; null where it is not. */
function invert(
  matrix: Float64Array,
  size: number,
): { readonly inverse: Float64Array; readonly logDeterminant: number } | null {
  const rows = Float64Array.from(matrix)
  const inverse = new Float64Array(size * size)
  for (let i = 0; i < size; i++) inverse[i * size + i] = 1
  let logDeterminant = 0
  for (let pivot = 0; pivot < size; pivot++) {
    const value = rows[pivot * size + pivot]
    if (!(value > 0)) return null
    logDeterminant += Math.log(value)
    for (let k = 0; k < size; k++) {
      rows[pivot * size + k] /= value
      inverse[pivot * size + k] /= value
    }
    for (let row = 0; row < size; row++) {
      const factor = rows[row * size + pivot]
      if (row === pivot || factor === 0) continue
      for (let k = 0; k < size; k++) {
        rows[row * size + k] -= factor * rows[pivot * size + k]
        inverse[row * size + k] -= factor * inverse[pivot * size + k]
      }
    }
  }
  return { inverse, logDeterminant }
}
