/** Order statistics without sorting. */

/**
 * Rearranges `values[from … to - 1]` so that the one of rank `rank` stands in its sorted place,
 * none before it larger and none after it smaller, and gives it (Hoare 1961, Commun. ACM 4, 321;
 * the pivot is the median of three).
 *
 * @param values no NaN among those
 * @param rank from `from` to `to - 1`
 */
export function selectRank(values: Float64Array, rank: number, from: number, to: number): number {
  let low = from
  let high = to - 1
  while (low < high) {
    const pivot = medianOf(values[low], values[(low + high) >>> 1], values[high])
    let i = low
    let j = high
    while (i <= j) {
      while (values[i] < pivot) i++
      while (values[j] > pivot) j--
      if (i > j) break
      const swapped = values[i]
      values[i++] = values[j]
      values[j--] = swapped
    }
    if (rank <= j) high = j
    else if (rank >= i) low = i
    else break
  }
  return values[rank]
}

function medianOf(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c))
}
