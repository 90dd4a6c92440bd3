/**
 * Delaunay's triangulation of places: points from west to east are joined to the hull that they
 * see, and edges flipped until no triangle's circle holds a fourth point (Lawson 1977).
 *
 * Places are shifted and scaled by a power of two, which is exact, so that points of a lattice
 * keep their right angles. A turn or a circle is told apart from none by a hair, so that rounding
 * can neither flip for ever nor make triangles without area.
 */

/** Below this a turn or a circle's power is none; places have the size of about one. */
const HAIR = 1e-13

/** Triangles as half-edges: 3t, 3t + 1 and 3t + 2 go round triangle t against the clock. */
export interface Triangulation {
  /** Places about the origin, in units of `unit`. */
  readonly x: Float64Array
  readonly y: Float64Array
  readonly originX: number
  readonly originY: number
  readonly unit: number
  /** The point that each half-edge starts from. */
  readonly from: Int32Array
  /** The half-edge along its other side; −1 on the hull. */
  readonly twin: Int32Array
}

/** The half-edge after one in its triangle. */
export function after(edge: number): number {
  return edge % 3 === 2 ? edge - 2 : edge + 1
}

/** Triangulates places without duplicates; null where they lie on a line. */
export function triangulate(east: Float64Array, north: Float64Array): Triangulation | null {
  return new Builder(east, north).build()
}

/** Twice the area of a triangle, above 0 where it goes against the clock. */
export function turn(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
): number {
  return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
}

/** Above 0 where (px, py) lies in the circle through a, b and c, which go against the clock. */
export function inCircle(
  { x, y }: Pick<Triangulation, 'x' | 'y'>,
  a: number,
  b: number,
  c: number,
  px: number,
  py: number,
): number {
  const ax = x[a] - px
  const ay = y[a] - py
  const bx = x[b] - px
  const by = y[b] - py
  const cx = x[c] - px
  const cy = y[c] - py
  const aa = ax * ax + ay * ay
  const bb = bx * bx + by * by
  const cc = cx * cx + cy * cy
  const power = aa * (bx * cy - by * cx) - bb * (ax * cy - ay * cx) + cc * (ax * by - ay * bx)
  const size = Math.max(aa, bb, cc)
  return Math.abs(power) <= HAIR * size * size ? 0 : power
}

class Builder {
  readonly x: Float64Array
  readonly y: Float64Array
  private readonly originX: number
  private readonly originY: number
  private readonly unit: number
  private readonly from: Int32Array
  private readonly twin: Int32Array
  private edges = 0
  /** Hull against the clock: the point after and before each, and the half-edge to the one after. */
  private readonly next: Int32Array
  private readonly before: Int32Array
  private readonly hullEdge: Int32Array
  private readonly stack: number[] = []

  constructor(east: Float64Array, north: Float64Array) {
    const count = east.length
    const [west, right] = limits(east)
    const [south, top] = limits(north)
    this.originX = (west + right) / 2
    this.originY = (south + top) / 2
    this.unit = 2 ** Math.ceil(Math.log2(Math.max(right - west, top - south, Number.MIN_VALUE)))
    this.x = east.map((value) => (value - this.originX) / this.unit)
    this.y = north.map((value) => (value - this.originY) / this.unit)
    this.from = new Int32Array(6 * count)
    this.twin = new Int32Array(6 * count).fill(-1)
    this.next = new Int32Array(count)
    this.before = new Int32Array(count)
    this.hullEdge = new Int32Array(count)
  }

  build(): Triangulation | null {
    const { x, y } = this
    const order = Array.from(x, (_, i) => i).sort((a, b) => x[a] - x[b] || y[a] - y[b])
    // The first points may stand on one line: all of them are joined to the first that does not.
    let first = 2
    while (first < order.length && !this.bends(order[0], order[first - 1], order[first])) first++
    if (first >= order.length) return null
    this.begin(order.slice(0, first), order[first])
    for (const point of order.slice(first + 1)) this.join(point)
    const { originX, originY, unit } = this
    const [from, twin] = [this.from.slice(0, this.edges), this.twin.slice(0, this.edges)]
    return { x, y, originX, originY, unit, from, twin }
  }

  private turnOf(a: number, b: number, c: number): number {
    const { x, y } = this
    return turn(x[a], y[a], x[b], y[b], x[c], y[c])
  }

  /** Whether three points bend by more than rounding, measured by their longest side. */
  private bends(a: number, b: number, c: number): boolean {
    const { x, y } = this
    const long = Math.max(
      (x[a] - x[b]) ** 2 + (y[a] - y[b]) ** 2,
      (x[c] - x[b]) ** 2 + (y[c] - y[b]) ** 2,
      (x[a] - x[c]) ** 2 + (y[a] - y[c]) ** 2,
    )
    return Math.abs(this.turnOf(a, b, c)) > HAIR * long
  }

  /** Joins a chain of points on a line to the first point off it. */
  private begin(chain: readonly number[], apex: number): void {
    const left = this.turnOf(chain[0], chain[chain.length - 1], apex) > 0
    const line = left ? chain : [...chain].reverse()
    let side = -1
    for (let i = 0; i + 1 < line.length; i++) {
      const edge = this.addTriangle(line[i], line[i + 1], apex)
      this.hullEdge[line[i]] = edge
      if (side >= 0) this.pair(edge + 2, side)
      else this.hullEdge[apex] = edge + 2
      side = edge + 1
    }
    this.hullEdge[line[line.length - 1]] = side
    const round = [...line, apex]
    round.forEach((point, i) => this.link(point, round[(i + 1) % round.length]))
    this.last = apex
    for (let edge = 0; edge < this.edges; edge++) this.stack.push(edge)
    this.legalise()
  }

  private last = 0

  /** Joins a point that lies outside the hull, beside the point joined last. */
  private join(point: number): void {
    let right = this.last
    while (this.sees(point, this.before[right], right)) right = this.before[right]
    let left = this.last
    while (this.sees(point, left, this.next[left])) left = this.next[left]
    if (left === right) {
      // Rounding hides the hull from it: it is joined to the edge that it all but lies on.
      ;[right, left] = this.nearestEdge(point)
    }
    let side = -1
    for (let at = right; at !== left;) {
      const to = this.next[at]
      const edge = this.addTriangle(at, point, to)
      this.pair(edge + 2, this.hullEdge[at])
      this.stack.push(edge + 2)
      if (side >= 0) this.pair(edge, side)
      else this.hullEdge[at] = edge
      side = edge + 1
      at = to
    }
    this.hullEdge[point] = side
    this.link(right, point)
    this.link(point, left)
    this.last = point
    this.legalise()
  }

  private sees(point: number, a: number, b: number): boolean {
    return this.turnOf(a, b, point) < 0 && this.bends(a, b, point)
  }

  /** The hull's edge that a point lies farthest out from. */
  private nearestEdge(point: number): [number, number] {
    let best: [number, number] = [this.last, this.next[this.last]]
    let least = Infinity
    for (let at = this.last, steps = 0; steps <= this.x.length; steps++, at = this.next[at]) {
      const value = this.turnOf(at, this.next[at], point)
      if (value < least) {
        least = value
        best = [at, this.next[at]]
      }
      if (this.next[at] === this.last) break
    }
    return best
  }

  private link(a: number, b: number): void {
    this.next[a] = b
    this.before[b] = a
  }

  private pair(a: number, b: number): void {
    this.twin[a] = b
    if (b >= 0) this.twin[b] = a
  }

  private addTriangle(a: number, b: number, c: number): number {
    const edge = this.edges
    this.from[edge] = a
    this.from[edge + 1] = b
    this.from[edge + 2] = c
    this.edges += 3
    return edge
  }

  /** Flips edges until every one on the stack, and those that a flip disturbs, are Delaunay's. */
  private legalise(): void {
    const { from, twin, stack, hullEdge } = this
    while (stack.length > 0) {
      const a = stack.pop() ?? 0
      const b = twin[a]
      if (b < 0) continue
      const [an, bn] = [after(a), after(b)]
      const [ap, bp] = [after(an), after(bn)]
      const [p, q] = [from[a], from[b]]
      const [left, right] = [from[ap], from[bp]]
      if (!(inCircle(this, p, q, left, this.x[right], this.y[right]) > 0)) continue
      // The edge p–q becomes right–left: triangles (right, left, p) on a's, (left, right, q) on b's.
      const [leftOut, rightOut] = [twin[ap], twin[bp]]
      from[a] = right
      from[b] = left
      this.replace(a, rightOut, bp, hullEdge)
      this.replace(b, leftOut, ap, hullEdge)
      this.pair(ap, bp)
      stack.push(a, b, an, bn)
    }
  }

  /** Lets a half-edge take the outer side that another had. */
  private replace(edge: number, outer: number, old: number, hullEdge: Int32Array): void {
    this.twin[edge] = -1
    this.pair(edge, outer)
    if (outer >= 0) return
    const start = this.from[edge]
    if (hullEdge[start] === old) hullEdge[start] = edge
  }
}

function limits(values: Float64Array): [least: number, most: number] {
  let least = Infinity
  let most = -Infinity
  for (const value of values) {
    least = Math.min(least, value)
    most = Math.max(most, value)
  }
  return [least, most]
}
