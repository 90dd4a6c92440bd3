/** How large the step at a join is, and how sure that is. */
import type { Spectrum } from '../spectra/spectrum'
import { joinModels, type JoinModels } from './join-models'

/** A step, and the level that it stands on. */
export interface JoinStep {
  /** Value above less value below the join. */
  readonly step: number
  /** One standard error, what the models differ by included. */
  readonly error: number
  /** Mean of the values just above and just below. */
  readonly level: number
}

/** Rank of the step among a model's coefficients; level and slope stand before it. */
const STEP = 2
const FREE = 3

/**
 * The step between a channel and the next, as a mean over many ways in which the rock's own curve
 * may be smooth, each weighed by its evidence (Bayesian model averaging: Hoeting et al. 1999,
 * Statistical Science 14, 382). A smooth rock is so told by 40 nm on either side, one that bends
 * beside the join by a few, and the error says which it was.
 *
 * @param of what is measured of a reflectance: its logarithm where a step multiplies, itself
 *   where it adds
 * @returns null where channels are too few or have no value
 */
export function stepAtJoin(
  { wavelengths, reflectance }: Spectrum,
  channel: number,
  of: (reflectance: number) => number,
): JoinStep | null {
  const models = channel < 0 ? null : joinModels(wavelengths, channel)
  if (models === null) return null
  const values = new Float64Array(models.columns[0].length)
  for (let i = 0; i < values.length; i++) values[i] = of(reflectance[models.start + i])
  return values.every(Number.isFinite) ? meanOver(models, values) : null
}

function meanOver(
  { columns, models, sharing, atJoin }: JoinModels,
  values: Float64Array,
): JoinStep {
  const count = values.length
  // Against the mean, so that the squares do not drown what is left of them.
  const mean = values.reduce((sum, value) => sum + value, 0) / count
  const y = values.map((value) => value - mean)
  const right = Float64Array.from(columns, (column) => dot(column, y))
  const squares = dot(y, y)
  const fits = models.map(({ inverse, logDeterminant }) => {
    const solution = times(inverse, right)
    const left = Math.max(squares - dot(right, solution), 1e-14 * count)
    const variance = (left / (count - FREE)) * sharing * inverse[STEP * right.length + STEP]
    const evidence = -((count - FREE) * Math.log(left) + logDeterminant) / 2
    return { evidence, step: solution[STEP], variance, level: dot(atJoin, solution) }
  })
  const most = Math.max(...fits.map(({ evidence }) => evidence))
  // Channels that share noise are fewer measurements than they look.
  const weights = fits.map(({ evidence }) => Math.exp((evidence - most) / sharing))
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  const over = (value: (fit: (typeof fits)[number]) => number) =>
    fits.reduce((sum, fit, i) => sum + weights[i] * value(fit), 0) / total
  const step = over((fit) => fit.step)
  const variance = over((fit) => fit.variance + (fit.step - step) ** 2)
  return { step, error: Math.sqrt(variance), level: mean + over(({ level }) => level) }
}

function times(matrix: Float64Array, vector: Float64Array): Float64Array {
  const size = vector.length
  return vector.map((_, row) => {
    let sum = 0
    for (let k = 0; k < size; k++) sum += matrix[row * size + k] * vector[k]
    return sum
  })
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i]
  return sum
}
