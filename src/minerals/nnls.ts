/**
 * Non-negative least squares (Lawson and Hanson 1974, Solving Least Squares Problems,
 * chapter 23), on the normal equations or on the matrix itself.
 */

/** A solution of min ‖A x − b‖ with x ≥ 0. */
export interface NonNegativeSolution {
  readonly x: Float64Array
  /** ‖A x − b‖. */
  readonly residual: number
}

/**
 * Solves min ‖A x − b‖ for x ≥ 0.
 *
 * @param columns the columns of A, each as long as `b`
 * @throws when it does not settle within 10 passes a column (never met on finite numbers)
 */
export function nonNegativeLeastSquares(
  columns: readonly Float64Array[],
  b: Float64Array,
): NonNegativeSolution {
  const n = columns.length
  const gram = new Float64Array(n * n)
  const right = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    right[i] = dot(columns[i], b)
    for (let j = 0; j <= i; j++) {
      gram[i * n + j] = dot(columns[i], columns[j])
      gram[j * n + i] = gram[i * n + j]
    }
  }
  const x = nonNegativeFromGram(gram, right)
  polish(columns, b, gram, x)
  const left = Float64Array.from(b)
  for (let j = 0; j < n; j++) {
    if (x[j] === 0) continue
    for (let i = 0; i < left.length; i++) left[i] -= columns[j][i] * x[j]
  }
  return { x, residual: Math.sqrt(dot(left, left)) }
}

/**
 * The same from AᵀA (row-major) and Aᵀb, for many small problems over one set of columns.
 *
 * @throws when it does not settle within 10 passes a column
 */
export function nonNegativeFromGram(gram: Float64Array, right: Float64Array): Float64Array {
  const n = right.length
  const x = new Float64Array(n)
  const passive: number[] = []
  let largest = 1e-300
  for (let j = 0; j < n; j++) largest = Math.max(largest, Math.abs(right[j]))
  const tolerance = 1e-13 * largest
  for (let pass = 0; pass <= 10 * n + 10; pass++) {
    const entering = steepest(gram, right, x, passive, tolerance)
    if (entering < 0) return x
    passive.push(entering)
    let trial = solvePassive(gram, right, n, passive)
    if (!trial || trial[passive.length - 1] <= 0) {
      // Rounding alone made this gradient positive, or the column repeats others: leave it out.
      passive.pop()
      return x
    }
    while (trial && trial.some((value) => value <= 0)) {
      stepToBoundary(x, passive, trial)
      trial = solvePassive(gram, right, n, passive)
    }
    if (!trial) return x
    passive.forEach((column, k) => (x[column] = trial[k]))
  }
  throw new Error('Non-negative least squares did not settle.')
}

/** The column outside the passive set with the largest positive gradient, or −1. */
function steepest(
  gram: Float64Array,
  right: Float64Array,
  x: Float64Array,
  passive: readonly number[],
  tolerance: number,
): number {
  let best = -1
  let most = tolerance
  for (let j = 0; j < right.length; j++) {
    if (passive.includes(j)) continue
    let gradient = right[j]
    for (const k of passive) gradient -= gram[j * right.length + k] * x[k]
    if (gradient > most) {
      most = gradient
      best = j
    }
  }
  return best
}

/** Moves x toward the trial as far as no entry turns negative and frees those that reach zero. */
function stepToBoundary(x: Float64Array, passive: number[], trial: Float64Array): void {
  let alpha = 1
  passive.forEach((column, k) => {
    if (trial[k] <= 0) alpha = Math.min(alpha, x[column] / (x[column] - trial[k]))
  })
  passive.forEach((column, k) => {
    x[column] += alpha * (trial[k] - x[column])
    if (trial[k] <= 0 && x[column] <= 1e-14 * Math.abs(trial[k])) x[column] = 0
  })
  for (let k = passive.length - 1; k >= 0; k--) {
    if (x[passive[k]] > 0) continue
    x[passive[k]] = 0
    passive.splice(k, 1)
  }
}

/** Unconstrained least squares over the passive columns (Cholesky); null where they repeat. */
function solvePassive(
  gram: Float64Array,
  right: Float64Array,
  n: number,
  passive: readonly number[],
): Float64Array | null {
  const m = passive.length
  const l = new Float64Array(m * m)
  const z = new Float64Array(m)
  for (let i = 0; i < m; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = gram[passive[i] * n + passive[j]]
      for (let k = 0; k < j; k++) sum -= l[i * m + k] * l[j * m + k]
      if (i > j) l[i * m + j] = sum / l[j * m + j]
      else if (!(sum > 1e-14 * gram[passive[i] * n + passive[i]])) return null
      else l[i * m + i] = Math.sqrt(sum)
    }
    let sum = right[passive[i]]
    for (let k = 0; k < i; k++) sum -= l[i * m + k] * z[k]
    z[i] = sum / l[i * m + i]
  }
  for (let i = m - 1; i >= 0; i--) {
    for (let k = i + 1; k < m; k++) z[i] -= l[k * m + i] * z[k]
    z[i] /= l[i * m + i]
  }
  return z
}

/** One step of iterative refinement on the columns themselves, against the squared condition. */
function polish(
  columns: readonly Float64Array[],
  b: Float64Array,
  gram: Float64Array,
  x: Float64Array,
): void {
  const passive = [...x.keys()].filter((j) => x[j] > 0)
  for (let round = 0; round < 2; round++) {
    const left = Float64Array.from(b)
    for (const j of passive) for (let i = 0; i < left.length; i++) left[i] -= columns[j][i] * x[j]
    const right = Float64Array.from(columns, (column) => dot(column, left))
    const step = solvePassive(gram, right, columns.length, passive)
    if (!step) return
    passive.forEach((column, k) => (x[column] = Math.max(0, x[column] + step[k])))
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i]
  return sum
}
