/**
 * Cholesky's factor of a symmetric positive matrix, and solving with it.
 *
 * Matrices are packed by rows: entry (i, j ≤ i) stands at i(i + 1)/2 + j. Sums run in ascending
 * order whatever is computed beside them, so a result does not depend on company.
 */

/**
 * A row whose pivot has fallen under this part of its own diagonal adds nothing that rounding
 * does not drown: it gets no weight. The stated rule for near-singular systems, such as a
 * gaussian model without nugget on close stations.
 */
export const REDUNDANT = 1e-10

/** Right-hand sides solved together, so that a processor can overlap their sums. */
export const LANES = 4

/** Length of a packed matrix. */
export function packedLength(n: number): number {
  return (n * (n + 1)) / 2
}

/**
 * Factors a packed matrix in place. A redundant row (see `REDUNDANT`) gets a column of zeros and
 * an inverse of 0, which takes it out of every solution.
 *
 * @param inverse takes one over the factor's diagonal
 */
export function factorPacked(a: Float64Array, inverse: Float64Array, n: number): void {
  let i = 0
  for (; i + 1 < n; i += 2) factorTwoRows(a, inverse, i)
  if (i < n) factorRow(a, inverse, i)
}

/** Rows i and i + 1 (i even) against two columns at a time: four sums that do not wait for another. */
function factorTwoRows(a: Float64Array, inverse: Float64Array, i: number): void {
  const upper = (i * (i + 1)) / 2
  const lower = upper + i + 1
  for (let j = 0; j < i; j += 2) {
    const left = (j * (j + 1)) / 2
    const right = left + j + 1
    let ul = a[upper + j]
    let ur = a[upper + j + 1]
    let ll = a[lower + j]
    let lr = a[lower + j + 1]
    for (let k = 0; k < j; k++) {
      const u = a[upper + k]
      const l = a[lower + k]
      const x = a[left + k]
      const y = a[right + k]
      ul -= u * x
      ur -= u * y
      ll -= l * x
      lr -= l * y
    }
    ul *= inverse[j]
    ll *= inverse[j]
    const between = a[right + j]
    a[upper + j] = ul
    a[lower + j] = ll
    a[upper + j + 1] = (ur - ul * between) * inverse[j + 1]
    a[lower + j + 1] = (lr - ll * between) * inverse[j + 1]
  }
  let first = a[upper + i]
  let middle = a[lower + i]
  let second = a[lower + i + 1]
  const firstOwn = first
  const secondOwn = second
  for (let k = 0; k < i; k++) {
    const u = a[upper + k]
    const l = a[lower + k]
    first -= u * u
    middle -= l * u
    second -= l * l
  }
  const firstRoot = first > REDUNDANT * firstOwn ? Math.sqrt(first) : 0
  inverse[i] = firstRoot > 0 ? 1 / firstRoot : 0
  middle *= inverse[i]
  second -= middle * middle
  const secondRoot = second > REDUNDANT * secondOwn ? Math.sqrt(second) : 0
  inverse[i + 1] = secondRoot > 0 ? 1 / secondRoot : 0
  a[upper + i] = firstRoot
  a[lower + i] = middle
  a[lower + i + 1] = secondRoot
}

function factorRow(a: Float64Array, inverse: Float64Array, i: number): void {
  const row = (i * (i + 1)) / 2
  let pivot = a[row + i]
  const own = pivot
  for (let j = 0, other = 0; j < i; j++, other += j) {
    let sum = a[row + j]
    for (let k = 0; k < j; k++) sum -= a[row + k] * a[other + k]
    sum *= inverse[j]
    a[row + j] = sum
    pivot -= sum * sum
  }
  const root = pivot > REDUNDANT * own ? Math.sqrt(pivot) : 0
  a[row + i] = root
  inverse[i] = root > 0 ? 1 / root : 0
}

/** b = L⁻¹ b, in place. */
export function forward(a: Float64Array, inverse: Float64Array, n: number, b: Float64Array): void {
  for (let i = 0, row = 0; i < n; i++, row += i) {
    let sum = b[i]
    for (let j = 0; j < i; j++) sum -= a[row + j] * b[j]
    b[i] = sum * inverse[i]
  }
}

/** b = L⁻ᵀ b, in place. */
export function backward(a: Float64Array, inverse: Float64Array, n: number, b: Float64Array): void {
  for (let i = n - 1; i >= 0; i--) {
    const value = b[i] * inverse[i]
    const row = (i * (i + 1)) / 2
    b[i] = value
    for (let j = 0; j < i; j++) b[j] -= a[row + j] * value
  }
}

/** `LANES` right-hand sides at once, in place: entry i of side k stands at `b[i * LANES + k]`. */
export function forwardLanes(
  a: Float64Array,
  inverse: Float64Array,
  n: number,
  b: Float64Array,
): void {
  for (let i = 0, at = 0, row = 0; i < n; i++, at += LANES, row += i) {
    let s0 = b[at]
    let s1 = b[at + 1]
    let s2 = b[at + 2]
    let s3 = b[at + 3]
    for (let j = 0, lane = 0; j < i; j++, lane += LANES) {
      const factor = a[row + j]
      s0 -= factor * b[lane]
      s1 -= factor * b[lane + 1]
      s2 -= factor * b[lane + 2]
      s3 -= factor * b[lane + 3]
    }
    const scale = inverse[i]
    b[at] = s0 * scale
    b[at + 1] = s1 * scale
    b[at + 2] = s2 * scale
    b[at + 3] = s3 * scale
  }
}
