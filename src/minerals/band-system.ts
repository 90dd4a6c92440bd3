/**
 * The least-squares system of a band model: residuals, analytic derivatives and the
 * Levenberg–Marquardt step (Levenberg 1944; Marquardt 1963).
 *
 * Parameters stand in one vector: the continuum's knot values, then for each band its
 * position (nm), ln width and ln strength, so that widths and strengths stay positive.
 */
import { FOUR_LN_2 } from './model'

/** What is fitted: measured reflectance, its weights, and the continuum's spline columns. */
export interface BandData {
  /** nm, ascending. */
  readonly wavelengths: Float64Array
  /** Fractions, positive. */
  readonly reflectance: Float64Array
  /** Multiplies each residual (model − measured). */
  readonly weights: Float64Array
  /** The continuum's value for each knot set to 1. */
  readonly basis: readonly Float64Array[]
  /** Narrowest and widest full width at half depth that a band may take, nm. */
  readonly narrowest: Float64Array
  readonly widest: number
  /** Linear functions of the modelled reflectance that are to take a value; none unless told. */
  readonly targets?: readonly Target[]
}

/** Its residual is `weight · (Σ gradient[i] · model[start + i] − value)`. */
export interface Target {
  readonly start: number
  readonly gradient: Float64Array
  readonly value: number
  readonly weight: number
}

/** Strongest band kept: e^−5 of the continuum is below what a field instrument sees. */
const STRONGEST = 5
/** Beyond this many widths from its centre a band is nothing (e^−17). */
const REACH = 2.5

/** Modelled reflectance for a parameter vector. */
export function evaluate(data: BandData, parameters: Float64Array): Float64Array {
  const { wavelengths, basis } = data
  const values = new Float64Array(wavelengths.length)
  basis.forEach((column, k) => {
    for (let i = 0; i < values.length; i++) values[i] += parameters[k] * column[i]
  })
  for (let b = basis.length; b < parameters.length; b += 3) {
    const width = Math.exp(parameters[b + 1])
    const strength = Math.exp(parameters[b + 2])
    const [start, end] = support(wavelengths, parameters[b], width)
    for (let i = start; i < end; i++) {
      const t = (wavelengths[i] - parameters[b]) / width
      values[i] -= strength * Math.exp(-FOUR_LN_2 * t * t)
    }
  }
  for (let i = 0; i < values.length; i++) values[i] = Math.exp(values[i])
  return values
}

/** Unweighted root-mean-square error, reflectance. */
export function rootMeanSquare({ reflectance }: BandData, model: Float64Array): number {
  let sum = 0
  for (let i = 0; i < model.length; i++) sum += (model[i] - reflectance[i]) ** 2
  return Math.sqrt(sum / model.length)
}

/** Sum of squared weighted residuals. */
export function cost(data: BandData, model: Float64Array): number {
  let sum = 0
  for (let i = 0; i < model.length; i++) {
    const r = (model[i] - data.reflectance[i]) * data.weights[i]
    sum += r * r
  }
  for (const target of data.targets ?? []) sum += missBy(target, model) ** 2
  return sum
}

function missBy({ start, gradient, value, weight }: Target, model: Float64Array): number {
  let sum = -value
  for (let i = 0; i < gradient.length; i++) sum += gradient[i] * model[start + i]
  return weight * sum
}

/**
 * Improves the parameters by at most `iterations` Levenberg–Marquardt steps.
 *
 * @returns the better parameters (the same vector where none was found)
 */
export function improve(
  data: BandData,
  start: Float64Array,
  iterations: number,
  tolerance = 1e-5,
): Float64Array {
  let parameters: Float64Array = start
  let model = evaluate(data, parameters)
  let current = cost(data, model)
  let damping = 1e-3
  for (let iteration = 0; iteration < iterations; iteration++) {
    const system = normalEquations(data, parameters, model)
    let better = false
    for (let attempt = 0; attempt < 8; attempt++) {
      const step = solveDamped(system, damping)
      const trial = step && confined(data, parameters, step)
      const trialModel = trial && evaluate(data, trial)
      const trialCost = trialModel ? cost(data, trialModel) : Infinity
      if (trial && trialModel && trialCost < current) {
        better = current - trialCost > tolerance * current
        parameters = trial
        model = trialModel
        current = trialCost
        damping = Math.max(damping / 5, 1e-9)
        break
      }
      damping *= 6
    }
    if (!better) break
  }
  return parameters
}

interface System {
  readonly size: number
  /** Jᵀ J, row-major, lower half filled. */
  readonly matrix: Float64Array
  /** −Jᵀ r. */
  readonly right: Float64Array
}

interface Column {
  readonly start: number
  readonly values: Float64Array
}

/** Jᵀ J and −Jᵀ r; a band's columns reach only as far as the band. */
function normalEquations(data: BandData, parameters: Float64Array, model: Float64Array): System {
  const columns = derivatives(data, parameters, model)
  const size = parameters.length
  const matrix = new Float64Array(size * size)
  const right = new Float64Array(size)
  for (let r = 0; r < size; r++) {
    const a = columns[r]
    const aEnd = a.start + a.values.length
    let sum = 0
    for (let i = a.start; i < aEnd; i++)
      sum -= a.values[i - a.start] * (model[i] - data.reflectance[i]) * data.weights[i]
    right[r] = sum
    for (let c = 0; c <= r; c++) {
      const b = columns[c]
      const from = Math.max(a.start, b.start)
      const to = Math.min(aEnd, b.start + b.values.length)
      let dot = 0
      for (let i = from; i < to; i++) dot += a.values[i - a.start] * b.values[i - b.start]
      matrix[r * size + c] = dot
    }
  }
  for (const target of data.targets ?? []) addTarget(target, data, model, columns, matrix, right)
  return { size, matrix, right }
}

/** Adds a target's row to the normal equations. */
function addTarget(
  target: Target,
  { weights }: BandData,
  model: Float64Array,
  columns: readonly Column[],
  matrix: Float64Array,
  right: Float64Array,
): void {
  const { start, gradient, weight } = target
  const miss = missBy(target, model)
  const row = columns.map((column) => {
    const from = Math.max(start, column.start)
    const to = Math.min(start + gradient.length, column.start + column.values.length)
    let sum = 0
    for (let i = from; i < to; i++)
      sum += (gradient[i - start] * column.values[i - column.start]) / weights[i]
    return weight * sum
  })
  for (let r = 0; r < row.length; r++) {
    right[r] -= row[r] * miss
    for (let c = 0; c <= r; c++) matrix[r * row.length + c] += row[r] * row[c]
  }
}

/** Each parameter's derivative of the weighted residual. */
function derivatives(data: BandData, parameters: Float64Array, model: Float64Array): Column[] {
  const { wavelengths, weights, basis } = data
  const columns: Column[] = basis.map((column) => ({
    start: 0,
    values: Float64Array.from(column, (value, i) => value * model[i] * weights[i]),
  }))
  for (let b = basis.length; b < parameters.length; b += 3) {
    const position = parameters[b]
    const width = Math.exp(parameters[b + 1])
    const strength = Math.exp(parameters[b + 2])
    const [start, end] = support(wavelengths, position, width)
    const byPosition = new Float64Array(end - start)
    const byWidth = new Float64Array(end - start)
    const byStrength = new Float64Array(end - start)
    for (let i = start; i < end; i++) {
      const t = (wavelengths[i] - position) / width
      const absorbed = -strength * Math.exp(-FOUR_LN_2 * t * t) * model[i] * weights[i]
      byStrength[i - start] = absorbed
      byWidth[i - start] = absorbed * 2 * FOUR_LN_2 * t * t
      byPosition[i - start] = (absorbed * 2 * FOUR_LN_2 * t) / width
    }
    columns.push(
      { start, values: byPosition },
      { start, values: byWidth },
      { start, values: byStrength },
    )
  }
  return columns
}

/** Solves (JᵀJ + damping · diag) x = −Jᵀr by Cholesky; null where it is not positive. */
function solveDamped(system: System, damping: number): Float64Array | null {
  const { size, matrix, right } = system
  const l = Float64Array.from(matrix)
  for (let i = 0; i < size; i++) l[i * size + i] += damping * (matrix[i * size + i] + 1e-9) + 1e-12
  for (let j = 0; j < size; j++) {
    for (let i = j; i < size; i++) {
      let sum = l[i * size + j]
      for (let k = 0; k < j; k++) sum -= l[i * size + k] * l[j * size + k]
      if (i > j) l[i * size + j] = sum / l[j * size + j]
      else if (!(sum > 0)) return null
      else l[j * size + j] = Math.sqrt(sum)
    }
  }
  const x = Float64Array.from(right)
  for (let i = 0; i < size; i++) {
    for (let k = 0; k < i; k++) x[i] -= l[i * size + k] * x[k]
    x[i] /= l[i * size + i]
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let k = i + 1; k < size; k++) x[i] -= l[k * size + i] * x[k]
    x[i] /= l[i * size + i]
  }
  return x
}

/** The parameters after a step, kept where a band can be read: bounded moves, widths, strengths. */
function confined(data: BandData, from: Float64Array, step: Float64Array): Float64Array {
  const { wavelengths, narrowest, basis, widest } = data
  const to = Float64Array.from(from)
  for (let k = 0; k < basis.length; k++) to[k] += clamp(step[k], -1, 1)
  const low = wavelengths[0] - 150
  const high = wavelengths[wavelengths.length - 1] + 150
  for (let b = basis.length; b < from.length; b += 3) {
    const width = Math.exp(from[b + 1])
    to[b] = clamp(from[b] + clamp(step[b], -width, width), low, high)
    const least = narrowest[channelAt(wavelengths, to[b])]
    to[b + 1] = clamp(from[b + 1] + clamp(step[b + 1], -1, 1), Math.log(least), Math.log(widest))
    to[b + 2] = clamp(from[b + 2] + clamp(step[b + 2], -2, 2), -12, Math.log(STRONGEST))
  }
  return to
}

/** The channels that a band reaches, [start, end). */
function support(wavelengths: Float64Array, position: number, width: number): [number, number] {
  const start = channelAt(wavelengths, position - REACH * width)
  return [start, channelAt(wavelengths, position + REACH * width) + 1]
}

/** The first channel at or above `nm`, else the last. */
export function channelAt(wavelengths: Float64Array, nm: number): number {
  let low = 0
  let high = wavelengths.length - 1
  while (low < high) {
    const middle = (low + high) >>> 1
    if (wavelengths[middle] < nm) low = middle + 1
    else high = middle
  }
  return low
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), high)
}
