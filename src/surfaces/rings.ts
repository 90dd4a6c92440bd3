/** Rings out of directed edges that have what they enclose to their left. */

/** A ring in working coordinates, its first point not repeated. */
export interface Ring {
  readonly x: Float64Array
  readonly y: Float64Array
}

/** Directed edges between numbered vertices. */
export interface Edges {
  readonly from: number[]
  readonly to: number[]
}

/**
 * Rings of vertex numbers. As many edges must leave a vertex as arrive at it. Where several do, a
 * ring turns as far left as it can, so that what touches in a point alone is not joined there; a
 * ring that comes to a vertex twice all the same is cut, so that none touches itself.
 *
 * @param place of a vertex
 */
export function linkRings(
  { from, to }: Edges,
  place: (vertex: number) => readonly [x: number, y: number],
): number[][] {
  const first = new Map<number, number>()
  const next = new Int32Array(from.length).fill(-1)
  for (let edge = from.length - 1; edge >= 0; edge--) {
    next[edge] = first.get(from[edge]) ?? -1
    first.set(from[edge], edge)
  }
  const after = (edge: number): number => {
    let best = first.get(to[edge]) ?? -1
    if (best < 0 || next[best] < 0) return best
    let most = -Infinity
    const [px, py] = place(from[edge])
    const [x, y] = place(to[edge])
    for (let out = best; out >= 0; out = next[out]) {
      const [nx, ny] = place(to[out])
      const [ax, ay, bx, by] = [x - px, y - py, nx - x, ny - y]
      const turn = Math.atan2(ax * by - ay * bx, ax * bx + ay * by)
      if (turn > most) [best, most] = [out, turn]
    }
    return best
  }
  const used = new Uint8Array(from.length)
  const rings: number[][] = []
  for (let start = 0; start < from.length; start++) {
    const vertices: number[] = []
    for (let edge = start; edge >= 0 && !used[edge]; edge = after(edge)) {
      used[edge] = 1
      vertices.push(from[edge])
    }
    if (vertices.length > 2) rings.push(...simpleParts(vertices, (vertex) => vertex))
  }
  return rings
}

/**
 * A ring cut where it comes to a place again, as rounding may make it do; parts of fewer than three
 * places are left out.
 *
 * @param keyOf alike for places that are
 */
export function simpleParts<T>(ring: readonly T[], keyOf: (place: T) => string | number): T[][] {
  const parts: T[][] = []
  const path: T[] = []
  const known = new Map<string | number, number>()
  const close = (from: number) => {
    const part = path.splice(from)
    for (const each of part) known.delete(keyOf(each))
    if (part.length > 2) parts.push(part)
  }
  for (const place of ring) {
    const key = keyOf(place)
    const met = known.get(key)
    if (met !== undefined) close(met)
    known.set(key, path.length)
    path.push(place)
  }
  close(0)
  return parts
}

/** Area of a ring, squared units: above 0 counterclockwise, below 0 clockwise. */
export function ringArea({ x, y }: Ring): number {
  let twice = 0
  for (let i = 0, j = x.length - 1; i < x.length; j = i++) {
    // From the first point, so that large coordinates cost no digits.
    twice += (x[j] - x[0]) * (y[i] - y[0]) - (x[i] - x[0]) * (y[j] - y[0])
  }
  return twice / 2
}
