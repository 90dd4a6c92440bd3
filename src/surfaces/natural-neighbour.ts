/**
 * Natural neighbour interpolation (Sibson 1981): a place's value is the mean of its natural
 * neighbours', each weighed by the area that the place's Voronoi cell would take from its cell.
 *
 * It honours stations, gives back any linear function exactly, and has no value outside the
 * stations' hull. The stolen areas come from the triangles whose circles hold the place (Watson
 * 1992): their circles' centres and those of the place with the rim's edges bound them.
 */
import { after, inCircle, triangulate, turn, type Triangulation } from './delaunay'
import { nodeX, nodeY } from './grid'
import type { Grid, Points } from './model'
import { checkPoints, mergeDuplicates } from './points'

const ON_A_LINE =
  'The stations lie on a line: natural neighbours need some to its side. Use another method.'

/** A place so near an edge, in parts of its length, lies on it. */
const ROUNDING = 1e-12
/** A stolen area below nothing by this part of all is no rounding. */
const SLIVER = 1e-9

/** Estimates at targets in working units; NaN outside the hull. Duplicates are averaged. */
export function naturalNeighbourAt(
  points: Points,
  targets: { readonly x: Float64Array; readonly y: Float64Array },
): Float64Array {
  const field = naturalNeighbours(points)
  return targets.x.map((x, i) => field.at(x, targets.y[i]))
}

/**
 * Each point's estimate from the others; NaN for those of the hull. Its natural neighbours among
 * the others are those that it has among all, so that these alone are triangulated.
 *
 * @param input points without duplicates
 */
export function naturalNeighbourLeftOut({ x, y, value }: Points): Float64Array {
  const mesh = triangulate(x, y)
  if (!mesh) throw new Error(ON_A_LINE)
  const around = neighboursOf(mesh, x.length)
  return x.map((east, i) => {
    const of = (column: Float64Array) => Float64Array.from(around[i], (k) => column[k])
    const [places, values] = [[of(x), of(y)] as const, of(value)]
    const few = triangulate(...places)
    return few ? new NaturalNeighbours(few, values).at(east, y[i]) : NaN
  })
}

/** The points that share an edge with each, ascending. */
function neighboursOf({ from }: Triangulation, count: number): number[][] {
  const sets = Array.from({ length: count }, () => new Set<number>())
  from.forEach((point, edge) => {
    const other = from[after(edge)]
    sets[point].add(other)
    sets[other].add(point)
  })
  return sets.map((set) => [...set].sort((a, b) => a - b))
}

/**
 * Points prepared for natural neighbour interpolation.
 *
 * @throws Error in words where they cannot be used or lie on a line
 */
export function naturalNeighbours(input: Points): NaturalNeighbours {
  checkPoints(input, 3)
  const points = mergeDuplicates(input)
  checkPoints(points, 3)
  const mesh = triangulate(points.x, points.y)
  if (!mesh) throw new Error(ON_A_LINE)
  return new NaturalNeighbours(mesh, points.value)
}

/** Points prepared for natural neighbour interpolation at many places. */
export class NaturalNeighbours {
  /** Where the last place was found. */
  private triangle = 0
  /** Triangles whose circles hold the place, and marks by triangle of the search's number. */
  private readonly cavity: number[] = []
  private readonly marks: Int32Array
  private search = 0
  /** Centres of the cavity's circles about the place, by triangle. */
  private readonly centreX: Float64Array
  private readonly centreY: Float64Array
  /** Twice the stolen area of each point, and the centres at its rim's edges in and out. */
  private readonly stolen: Float64Array
  private readonly rim: Float64Array
  private readonly met: number[] = []
  private readonly centre = { x: 0, y: 0 }

  constructor(
    private readonly mesh: Triangulation,
    private readonly value: Float64Array,
  ) {
    const triangles = mesh.from.length / 3
    this.marks = new Int32Array(triangles)
    this.centreX = new Float64Array(triangles)
    this.centreY = new Float64Array(triangles)
    this.stolen = new Float64Array(value.length)
    this.rim = new Float64Array(4 * value.length)
  }

  /**
   * The nodes of some rows; row-major from the first row.
   *
   * @param wanted 1 for nodes that are wanted; the rest are NaN
   */
  rows(grid: Grid, [from, to]: readonly [number, number], wanted?: Uint8Array): Float64Array {
    const out = new Float64Array((to - from) * grid.columns).fill(NaN)
    for (let row = from; row < to; row++)
      for (let column = 0; column < grid.columns; column++) {
        const target = (row - from) * grid.columns + column
        if (wanted && wanted[target] === 0) continue
        out[target] = this.at(nodeX(grid, column), nodeY(grid, row))
      }
    return out
  }

  /** The estimate at a place in working units; NaN outside the hull. */
  at(east: number, north: number): number {
    const { originX, originY, unit } = this.mesh
    const px = (east - originX) / unit
    const py = (north - originY) / unit
    const triangle = this.locate(px, py)
    if (triangle < 0) return NaN
    this.triangle = triangle
    const straight = this.onEdge(triangle, px, py)
    if (!Number.isNaN(straight)) return straight
    this.findCavity(triangle, px, py)
    const found = this.weigh(px, py)
    return Number.isNaN(found) ? this.linear(triangle, px, py) : found
  }

  /** The triangle that holds a place, walking from the last one; −1 outside the hull. */
  private locate(px: number, py: number): number {
    const { x, y, from, twin } = this.mesh
    let triangle = this.triangle
    const triangles = from.length / 3
    for (let steps = 0; steps <= triangles; steps++) {
      let out = -1
      let outermost = 0
      for (let edge = 3 * triangle; edge < 3 * triangle + 3; edge++) {
        const [a, b] = [from[edge], from[after(edge)]]
        const side = turn(x[a], y[a], x[b], y[b], px, py)
        if (side < outermost) {
          outermost = side
          out = edge
        }
      }
      if (out < 0) return this.firstBeside(triangle, px, py)
      if (twin[out] < 0) return this.isBesideHull(out, px, py) ? triangle : -1
      triangle = Math.floor(twin[out] / 3)
    }
    return -1
  }

  /**
   * Of the triangles on whose common edge a place lies the first, so that it does not matter from
   * where it was reached.
   */
  private firstBeside(triangle: number, px: number, py: number): number {
    const { x, y, from, twin } = this.mesh
    let first = triangle
    for (let edge = 3 * triangle; edge < 3 * triangle + 3; edge++) {
      const [a, b] = [from[edge], from[after(edge)]]
      const long = (x[b] - x[a]) ** 2 + (y[b] - y[a]) ** 2
      if (twin[edge] < 0 || turn(x[a], y[a], x[b], y[b], px, py) > ROUNDING * long) continue
      first = Math.min(first, Math.floor(twin[edge] / 3))
    }
    return first
  }

  /** Whether a place outside an edge of the hull is so by rounding alone. */
  private isBesideHull(edge: number, px: number, py: number): boolean {
    const { x, y, from } = this.mesh
    const [a, b] = [from[edge], from[after(edge)]]
    const [dx, dy] = [x[b] - x[a], y[b] - y[a]]
    const along = (px - x[a]) * dx + (py - y[a]) * dy
    const long = dx * dx + dy * dy
    const off = Math.abs(turn(x[a], y[a], x[b], y[b], px, py))
    return off <= ROUNDING * long && along >= 0 && along <= long
  }

  /** The value of a station at the place, or between the two of a hull's edge; else NaN. */
  private onEdge(triangle: number, px: number, py: number): number {
    const { x, y, from, twin } = this.mesh
    for (let edge = 3 * triangle; edge < 3 * triangle + 3; edge++) {
      const [a, b] = [from[edge], from[after(edge)]]
      if (px === x[a] && py === y[a]) return this.value[a]
      if (twin[edge] >= 0) continue
      const [dx, dy] = [x[b] - x[a], y[b] - y[a]]
      const long = dx * dx + dy * dy
      const off = turn(x[a], y[a], x[b], y[b], px, py)
      if (off > ROUNDING * long) continue
      const part = Math.min(1, Math.max(0, ((px - x[a]) * dx + (py - y[a]) * dy) / long))
      return (1 - part) * this.value[a] + part * this.value[b]
    }
    return NaN
  }

  /** Collects the triangles whose circles hold the place, which hang together. */
  private findCavity(triangle: number, px: number, py: number): void {
    const { mesh, cavity, marks } = this
    const mark = ++this.search
    cavity.length = 0
    cavity.push(triangle)
    marks[triangle] = mark
    for (let next = 0; next < cavity.length; next++)
      for (let edge = 3 * cavity[next]; edge < 3 * cavity[next] + 3; edge++) {
        if (mesh.twin[edge] < 0) continue
        const other = Math.floor(mesh.twin[edge] / 3)
        if (marks[other] === mark) continue
        const [a, b, c] = [mesh.from[3 * other], mesh.from[3 * other + 1], mesh.from[3 * other + 2]]
        if (!(inCircle(mesh, a, b, c, px, py) > 0)) continue
        marks[other] = mark
        cavity.push(other)
      }
    // Sums run in an order that does not depend on where the search began.
    cavity.sort((a, b) => a - b)
  }

  /**
   * The mean weighed by stolen areas. The stolen part of a point's cell goes round from the centre
   * at the rim's edge that ends in it, over the centres of its triangles, to the one that starts.
   */
  private weigh(px: number, py: number): number {
    const { mesh, cavity, marks, centreX, centreY, stolen, rim, met, value } = this
    const { x, y, from, twin } = mesh
    met.length = 0
    for (const triangle of cavity) {
      const [a, b, c] = [from[3 * triangle], from[3 * triangle + 1], from[3 * triangle + 2]]
      this.circle(x[a] - px, y[a] - py, x[b] - px, y[b] - py, x[c] - px, y[c] - py)
      centreX[triangle] = this.centre.x
      centreY[triangle] = this.centre.y
    }
    for (const triangle of cavity)
      for (let edge = 3 * triangle; edge < 3 * triangle + 3; edge++) {
        const [a, b] = [from[edge], from[after(edge)]]
        const [cx, cy] = [centreX[triangle], centreY[triangle]]
        const other = twin[edge] < 0 ? -1 : Math.floor(twin[edge] / 3)
        if (other >= 0 && marks[other] === this.search) {
          // Round a against the clock its triangles come the other way about; b's is the twin's turn.
          stolen[a] -= cx * centreY[other] - cy * centreX[other]
          continue
        }
        this.circle(0, 0, x[a] - px, y[a] - py, x[b] - px, y[b] - py)
        const cross = cx * this.centre.y - cy * this.centre.x
        stolen[a] -= cross
        stolen[b] += cross
        rim[4 * a] = this.centre.x
        rim[4 * a + 1] = this.centre.y
        rim[4 * b + 2] = this.centre.x
        rim[4 * b + 3] = this.centre.y
        met.push(a)
      }
    let sum = 0
    let weights = 0
    let least = 0
    for (const a of met) {
      const weight = stolen[a] + rim[4 * a + 2] * rim[4 * a + 1] - rim[4 * a + 3] * rim[4 * a]
      stolen[a] = 0
      sum += weight * value[a]
      weights += weight
      least = Math.min(least, weight)
    }
    // No area is below nothing but by rounding, where points all but coincide.
    return least < -SLIVER * weights ? NaN : sum / weights
  }

  /** The value on the plane through a triangle's corners. */
  private linear(triangle: number, px: number, py: number): number {
    const { x, y, from } = this.mesh
    const [a, b, c] = [from[3 * triangle], from[3 * triangle + 1], from[3 * triangle + 2]]
    const ofA = turn(px, py, x[b], y[b], x[c], y[c])
    const ofB = turn(x[a], y[a], px, py, x[c], y[c])
    const ofC = turn(x[a], y[a], x[b], y[b], px, py)
    const { value } = this
    return (ofA * value[a] + ofB * value[b] + ofC * value[c]) / (ofA + ofB + ofC)
  }

  /** Writes the centre of the circle through three places to `centre`. */
  private circle(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): void {
    const [ux, uy, vx, vy] = [bx - ax, by - ay, cx - ax, cy - ay]
    const uu = ux * ux + uy * uy
    const vv = vx * vx + vy * vy
    const twice = 2 * (ux * vy - uy * vx)
    this.centre.x = ax + (vy * uu - uy * vv) / twice
    this.centre.y = ay + (ux * vv - vx * uu) / twice
  }
}
