/**
 * Fitting variogram models to experimental variograms by weighted least squares.
 *
 * For a given range the nugget and the sills enter linearly, so they are solved for exactly and
 * not below 0, and only the range is searched: a grid of ranges, then golden section about the
 * best. This finds the least of the same sum that gstat's iteration finds, without start values.
 */
import type { Lag, Structure, Variogram } from './model'
import { correlation } from './variogram-models'

/** What is searched for one fit. */
export interface Shape {
  readonly model: Structure['model']
  readonly smoothness?: number
}

export interface FitOptions {
  /** `pairs/distance²` is N/h² (gstat's default); `pairs/gamma²` is N/γ² (Cressie 1985). */
  readonly weights?: 'pairs/distance²' | 'pairs/gamma²'
  /** Shapes to choose from; all of `SHAPES` where absent. */
  readonly shapes?: readonly Shape[]
  /** Fixes the nugget; where absent it is fitted, 0 or more. */
  readonly nugget?: number
}

export interface FittedVariogram {
  readonly variogram: Variogram
  /** The weighted sum of squares that was made least. */
  readonly misfit: number
}

/** The shapes that an automatic fit chooses among. */
export const SHAPES: readonly Shape[] = [
  { model: 'spherical' },
  { model: 'exponential' },
  { model: 'gaussian' },
  { model: 'matern', smoothness: 1.5 },
]

/**
 * The best nugget plus one structure. Among shapes the one with the least weighted sum of
 * squares wins; all have the same number of parameters.
 *
 * @throws Error where fewer than three lags are there, or they hold no variation
 */
export function fitVariogram(lags: readonly Lag[], options: FitOptions = {}): FittedVariogram {
  return fitShapes(lags, options)[0]
}

/** Fits of every shape, the best first. See `fitVariogram`. */
export function fitShapes(lags: readonly Lag[], options: FitOptions = {}): FittedVariogram[] {
  if (lags.length < 3)
    throw new Error(
      `A variogram needs at least 3 lags with pairs and has ${lags.length}; add stations or widen the lags.`,
    )
  if (!lags.some((lag) => lag.gamma > 0))
    throw new Error('The values do not vary with distance; a variogram cannot be fitted.')
  const fits = (options.shapes ?? SHAPES).map((shape) => fitShape(lags, shape, options))
  return fits.sort((a, b) => a.misfit - b.misfit)
}

function fitShape(lags: readonly Lag[], shape: Shape, options: FitOptions): FittedVariogram {
  const least = lags[0].distance / 2
  const most = 3 * lags[lags.length - 1].distance
  const fitAt = (logRange: number) =>
    fitSills(lags, [{ ...shape, sill: 1, range: Math.exp(logRange) }], options)
  const logRange = searchLeast(
    (candidate) => fitAt(candidate).misfit,
    Math.log(least),
    Math.log(most),
  )
  return fitAt(logRange)
}

/** Steps of the grid on which a least value is sought before it is narrowed down. */
const GRID_STEPS = 60

/** Where a function of one variable is least: on a grid, then by golden section about the best. */
export function searchLeast(f: (x: number) => number, from: number, to: number): number {
  const step = (to - from) / GRID_STEPS
  let best = from
  let least = Infinity
  for (let i = 0; i <= GRID_STEPS; i++) {
    const value = f(from + i * step)
    if (value < least) {
      least = value
      best = from + i * step
    }
  }
  const golden = (Math.sqrt(5) - 1) / 2
  let low = Math.max(from, best - step)
  let high = Math.min(to, best + step)
  for (let i = 0; i < 40; i++) {
    const a = high - golden * (high - low)
    const b = low + golden * (high - low)
    if (f(a) <= f(b)) high = b
    else low = a
  }
  return (low + high) / 2
}

/**
 * The nugget and sills that fit best for structures whose ranges are given, none below 0.
 * With N/γ² weights γ is the model's own, so they are iterated.
 */
export function fitSills(
  lags: readonly Lag[],
  structures: readonly Structure[],
  options: FitOptions,
): FittedVariogram {
  const fixed = options.nugget
  const columns = [
    ...(fixed === undefined ? [lags.map(() => 1)] : []),
    ...structures.map((structure) => lags.map((lag) => 1 - correlation(structure, lag.distance))),
  ]
  const aim = lags.map((lag) => lag.gamma - (fixed ?? 0))
  const cressie = options.weights === 'pairs/gamma²'
  let weights = lags.map((lag) => lag.pairs / (cressie ? 1 : lag.distance ** 2))
  let sills = leastSquaresNotNegative(columns, aim, weights)
  for (let round = 0; cressie && round < 20; round++) {
    weights = lags.map((lag, i) => {
      const model = columns.reduce((sum, column, k) => sum + sills[k] * column[i], fixed ?? 0)
      return lag.pairs / Math.max(model, 1e-9 * Math.abs(lag.gamma) + Number.MIN_VALUE) ** 2
    })
    sills = leastSquaresNotNegative(columns, aim, weights)
  }
  let misfit = 0
  for (let i = 0; i < aim.length; i++) {
    const model = columns.reduce((sum, column, k) => sum + sills[k] * column[i], 0)
    misfit += weights[i] * (aim[i] - model) ** 2
  }
  const partial = fixed === undefined ? sills.slice(1) : sills
  return {
    variogram: {
      nugget: fixed ?? sills[0],
      structures: structures.map((structure, k) => ({ ...structure, sill: partial[k] })),
    },
    misfit,
  }
}

/**
 * Weighted least squares with coefficients not below 0, for a handful of columns: the best over
 * every choice of columns whose free solution is positive.
 */
function leastSquaresNotNegative(
  columns: readonly number[][],
  aim: readonly number[],
  weights: readonly number[],
): number[] {
  let best = columns.map(() => 0)
  let least = Infinity
  for (let choice = 0; choice < 1 << columns.length; choice++) {
    const chosen = columns.map((_, k) => k).filter((k) => choice & (1 << k))
    const solution = normalEquations(
      chosen.map((k) => columns[k]),
      aim,
      weights,
    )
    if (!solution || solution.some((s) => s < 0)) continue
    let sum = 0
    for (let i = 0; i < aim.length; i++) {
      let model = 0
      for (let c = 0; c < chosen.length; c++) model += solution[c] * columns[chosen[c]][i]
      sum += weights[i] * (aim[i] - model) ** 2
    }
    if (sum < least) {
      least = sum
      best = columns.map((_, k) => (chosen.includes(k) ? solution[chosen.indexOf(k)] : 0))
    }
  }
  return best
}

/** Solves (XᵀWX) b = XᵀWy by Gauss's elimination; null where the columns depend on each other. */
function normalEquations(
  columns: readonly (readonly number[])[],
  aim: readonly number[],
  weights: readonly number[],
): number[] | null {
  const n = columns.length
  const rows = columns.map((a) => [
    ...columns.map((b) => a.reduce((sum, value, i) => sum + weights[i] * value * b[i], 0)),
    a.reduce((sum, value, i) => sum + weights[i] * value * aim[i], 0),
  ])
  const size = rows.map((row, i) => row[i])
  for (let i = 0; i < n; i++) {
    if (!(rows[i][i] > 1e-12 * size[i])) return null
    for (let r = i + 1; r < n; r++) {
      const factor = rows[r][i] / rows[i][i]
      for (let c = i; c <= n; c++) rows[r][c] -= factor * rows[i][c]
    }
  }
  const solution = new Array<number>(n).fill(0)
  for (let i = n - 1; i >= 0; i--) {
    let sum = rows[i][n]
    for (let c = i + 1; c < n; c++) sum -= rows[i][c] * solution[c]
    solution[i] = sum / rows[i][i]
  }
  return solution
}
