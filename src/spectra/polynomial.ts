/** Least-squares polynomials in one variable, for short windows of channels. */

/**
 * The weights `w` with which `Σ w·y` gives `functional · c`, `c` being the coefficients
 * (constant first) of the least-squares polynomial through the points `(x, y)`.
 *
 * Value, slope or curvature anywhere are such functionals, so one routine serves fits,
 * smoothing filters and the propagation of noise through either.
 *
 * @param x about -1 to 1, so that the normal equations stay well conditioned
 * @param functional as long as the polynomial has coefficients, at most `x.length`
 * @returns null where the points do not determine the polynomial
 */
export function leastSquaresWeights(
  x: Float64Array,
  functional: readonly number[],
): Float64Array | null {
  const factor = choleskyOfNormal(x, functional.length)
  if (factor === null) return null
  const solution = solveCholesky(factor, functional)
  return x.map((value) => horner(solution, value))
}

/**
 * The coefficients, constant first, of the least-squares polynomial through `(x, y)`; null where
 * the points do not determine it.
 */
export function fitPolynomial(x: Float64Array, y: Float64Array, degree: number): number[] | null {
  const size = degree + 1
  const right = new Array<number>(size).fill(0)
  for (let i = 0; i < x.length; i++) {
    let power = y[i]
    for (let k = 0; k < size; k++, power *= x[i]) right[k] += power
  }
  const factor = choleskyOfNormal(x, size)
  return factor === null ? null : solveCholesky(factor, right)
}

/**
 * Polynomials of degree 0, 1, … that are orthonormal over the points `x`, each at every point;
 * null where the points do not determine so many. Fits over the same points are then no more
 * than products.
 *
 * @param x about -1 to 1
 */
export function orthonormalPolynomials(x: Float64Array, degree: number): Float64Array[] | null {
  const basis: Float64Array[] = []
  for (let k = 0; k <= degree; k++) {
    const next = x.map((value) => value ** k)
    // Twice: once leaves rounding errors of the size that the first pass took away.
    for (let pass = 0; pass < 2; pass++) for (const known of basis) takeOff(next, known)
    const square = next.reduce((sum, value) => sum + value * value, 0)
    if (!(square > 1e-12 * x.length)) return null
    const norm = Math.sqrt(square)
    basis.push(next.map((value) => value / norm))
  }
  return basis
}

/** Takes a unit vector's part off the first values of another, in place. */
export function takeOff(values: Float64Array, unit: Float64Array): void {
  let part = 0
  for (let i = 0; i < unit.length; i++) part += unit[i] * values[i]
  for (let i = 0; i < unit.length; i++) values[i] -= part * unit[i]
}

/** The polynomial's value; coefficients stand constant first. */
export function horner(coefficients: readonly number[], x: number): number {
  let sum = 0
  for (let k = coefficients.length - 1; k >= 0; k--) sum = sum * x + coefficients[k]
  return sum
}

/** Lower Cholesky factor of the Gram matrix of 1, x, x², …; rows one after the other; null where singular. */
function choleskyOfNormal(x: Float64Array, size: number): Float64Array | null {
  const moments = new Float64Array(2 * size - 1)
  for (const value of x) {
    let power = 1
    for (let k = 0; k < moments.length; k++, power *= value) moments[k] += power
  }
  const factor = new Float64Array(size * size)
  for (let row = 0; row < size; row++) {
    for (let column = 0; column <= row; column++) {
      let sum = moments[row + column]
      for (let k = 0; k < column; k++) sum -= factor[row * size + k] * factor[column * size + k]
      if (row !== column) factor[row * size + column] = sum / factor[column * size + column]
      else if (sum > 1e-12 * moments[0]) factor[row * size + row] = Math.sqrt(sum)
      else return null
    }
  }
  return factor
}

function solveCholesky(factor: Float64Array, right: readonly number[]): number[] {
  const size = right.length
  const solution = [...right]
  for (let row = 0; row < size; row++) {
    for (let k = 0; k < row; k++) solution[row] -= factor[row * size + k] * solution[k]
    solution[row] /= factor[row * size + row]
  }
  for (let row = size - 1; row >= 0; row--) {
    for (let k = row + 1; k < size; k++) solution[row] -= factor[k * size + row] * solution[k]
    solution[row] /= factor[row * size + row]
  }
  return solution
}
