/** Fewer places on a line that looks the same (Douglas and Peucker 1973, Cartographica 10, 112). */

/**
 * Indices of the places to keep, ascending, first and last among them: no place left out lies
 * farther than the tolerance from the line between those kept beside it.
 *
 * @param tolerance in the unit of x and y
 */
export function thinLine(x: Float64Array, y: Float64Array, tolerance: number): Int32Array {
  const count = x.length
  if (count < 3) return Int32Array.from({ length: count }, (_, i) => i)
  const kept = new Uint8Array(count)
  kept[0] = kept[count - 1] = 1
  const open: [from: number, to: number][] = [[0, count - 1]]
  for (let stretch = open.pop(); stretch; stretch = open.pop()) {
    const [from, to] = stretch
    const [far, distance] = farthest(x, y, from, to)
    if (!(distance > tolerance)) continue
    kept[far] = 1
    open.push([from, far], [far, to])
  }
  const indices: number[] = []
  kept.forEach((keep, i) => {
    if (keep) indices.push(i)
  })
  return Int32Array.from(indices)
}

/** The place between two farthest from the straight stretch between them, and how far. */
function farthest(
  x: Float64Array,
  y: Float64Array,
  from: number,
  to: number,
): [index: number, distance: number] {
  const dx = x[to] - x[from]
  const dy = y[to] - y[from]
  const squared = dx * dx + dy * dy
  let [index, most] = [from, -1]
  for (let i = from + 1; i < to; i++) {
    const px = x[i] - x[from]
    const py = y[i] - y[from]
    const along = squared > 0 ? Math.min(1, Math.max(0, (px * dx + py * dy) / squared)) : 0
    const distance = Math.hypot(px - along * dx, py - along * dy)
    if (distance > most) [index, most] = [i, distance]
  }
  return [index, most]
}
