/**
 * Ordinary kriging, and kriging with a trend of the coordinates, with its variance
 * (Matheron 1963; Isaaks and Srivastava 1989, chapter 12).
 *
 * The variance at a node counts the nugget as part of the value there, as gstat does; on a
 * station without a stated error the estimate is its value and the variance 0. A station's
 * stated error is a nugget of its own that is filtered out (Cressie 1993, §3.2).
 */
import type { Grid, Points, Variogram } from './model'
import { blockSide, prepareField, toPlaneU, toPlaneV, type KrigingField } from './kriging-field'
import { LANES, packedLength } from './cholesky'
import { KrigingSystem } from './kriging-system'
import { trendCount, writeTrend, type TrendDegree } from './trend'
import { NeighbourIndex } from './neighbours'
import { nodeBlock, SetFinder, type NodeBlock, type NodeSets } from './node-sets'

export interface KrigingOptions {
  /** How many of the nearest points each node uses; absent or null for all of them. */
  readonly neighbours?: number | null
  /** Degree of the trend in the coordinates: 0 (absent) for ordinary kriging, 1 or 2. */
  readonly trend?: TrendDegree
  /** Whether Lagrange's multipliers are wanted too. */
  readonly lagrange?: boolean
  /** For `krigeRows`: 1 for nodes that are wanted, row-major from the first row; the rest are NaN. */
  readonly wanted?: Uint8Array
}

/** Estimates and kriging variances, one a target or row-major from the first row asked for. */
export interface Kriged {
  readonly estimate: Float64Array
  readonly variance: Float64Array
  /** f·ν, with ν Lagrange's multipliers of C λ + F ν = c, where it is asked for. */
  readonly lagrange?: Float64Array
}

/** Up to this many points the values are whitened beside the first nodes, in the same lanes. */
const LITTLE = 64

/** Most points that one system may have; beyond it a node must use its nearest only. */
export const MOST_NEIGHBOURS = 500

/** Places, in working units, with the external drift there where the points have one. */
export type Targets = Pick<Points, 'x' | 'y' | 'drift'>

/**
 * Kriging at targets of any kind.
 *
 * @param targets coordinates in working units
 * @throws Error in words where points, variogram or options cannot be used
 */
export function krigeAt(
  points: Points,
  variogram: Variogram,
  targets: Targets,
  options: KrigingOptions = {},
): Kriged {
  const kriger = new Kriger(prepareField(points, variogram), options)
  kriger.driftAtTargets = targets.drift ?? null
  const block = nodeBlock(targets.x.length)
  for (let i = 0; i < targets.x.length; i++) kriger.addNode(block, targets.x[i], targets.y[i], i)
  const kriged = nothingYet(targets.x.length, options.lagrange)
  kriger.krigeBlock(block, kriged)
  return kriged
}

/**
 * Kriging at the nodes of some rows of a grid. A node's numbers do not depend on the rows asked for.
 *
 * @param rows from the first, up to but without the second
 * @throws Error in words where points, variogram or options cannot be used
 */
export function krigeRows(
  points: Points,
  variogram: Variogram,
  grid: Grid,
  rows: readonly [from: number, to: number],
  options: KrigingOptions = {},
): Kriged {
  return new Kriger(prepareField(points, variogram), options).krigeRows(grid, rows, options.wanted)
}

function nothingYet(count: number, lagrange = false): Kriged {
  const gaps = () => new Float64Array(count).fill(NaN)
  return { estimate: gaps(), variance: gaps(), ...(lagrange ? { lagrange: gaps() } : {}) }
}

/** A field with its index and workspace, to krige many rows without preparing it anew. */
export class Kriger {
  private readonly neighbours: number
  private readonly finder: SetFinder
  private readonly system: KrigingSystem
  private readonly degree: TrendDegree
  /** The loaded set in the plane, with its values and drift functions. */
  private readonly u: Float64Array
  private readonly v: Float64Array
  private readonly values: Float64Array
  private readonly drift: Float64Array
  private readonly members: Int32Array
  private readonly lanes: Float64Array
  private readonly squared: Float64Array
  private readonly covariances: Float64Array
  private readonly nodeDrift: Float64Array
  private readonly lagrange: boolean
  private readonly result = new Float64Array(3)
  /** Covariances among a block's candidates, packed. */
  private shared = new Float64Array(0)
  private sharedSquared = new Float64Array(0)
  /** The external drift of the loaded set. */
  private readonly external: Float64Array
  /** The external drift at the targets of blocks, by their numbers; wanted where points have one. */
  driftAtTargets: Float64Array | null = null
  /** Whether the system already holds all points. */
  private holdsAll = false

  constructor(
    readonly field: KrigingField,
    options: Pick<KrigingOptions, 'neighbours' | 'trend' | 'lagrange'>,
  ) {
    const count = field.u.length
    this.degree = options.trend ?? 0
    this.lagrange = options.lagrange ?? false
    const trends = trendCount(this.degree) + (field.drift ? 1 : 0)
    this.neighbours = neighbourCount(count, trends, options.neighbours)
    this.finder = new SetFinder(new NeighbourIndex(field.u, field.v), this.neighbours)
    this.system = new KrigingSystem(this.neighbours, trends)
    this.u = new Float64Array(this.neighbours)
    this.v = new Float64Array(this.neighbours)
    this.values = new Float64Array(this.neighbours)
    this.external = new Float64Array(field.drift ? this.neighbours : 0)
    this.drift = new Float64Array(this.neighbours * trends)
    this.members = new Int32Array(this.neighbours)
    this.lanes = new Float64Array(this.neighbours * LANES)
    this.squared = new Float64Array(this.neighbours)
    this.covariances = new Float64Array(this.neighbours)
    this.nodeDrift = new Float64Array(trends)
  }

  /** Adds a place in working units to a block; its result goes to `target`. */
  addNode(block: NodeBlock, x: number, y: number, target: number): void {
    block.u[block.count] = toPlaneU(this.field, x, y)
    block.v[block.count] = toPlaneV(this.field, x, y)
    block.target[block.count++] = target
  }

  /** See the function `krigeRows`. */
  krigeRows(grid: Grid, rows: readonly [number, number], wanted?: Uint8Array): Kriged {
    const [from, to] = rows
    const kriged = nothingYet((to - from) * grid.columns, this.lagrange)
    const side = blockSide(this.field, this.neighbours, grid.cell)
    // Blocks of even height, so that no sliver of one or two rows is left.
    const height = Math.ceil((to - from) / Math.ceil((to - from) / side))
    const block = nodeBlock(side * height)
    for (let top = from; top < to; top += height) {
      for (let left = 0; left < grid.columns; left += side) {
        const bottom = Math.min(to, top + height)
        const right = Math.min(grid.columns, left + side)
        this.gather(block, grid, [top, bottom], [left, right], from, wanted)
        this.krigeBlock(block, kriged)
      }
    }
    return kriged
  }

  /** Fills a block with the wanted nodes of a rectangle, every other row backwards. */
  private gather(
    block: NodeBlock,
    grid: Grid,
    [top, bottom]: [number, number],
    [left, right]: [number, number],
    from: number,
    wanted?: Uint8Array,
  ): void {
    block.count = 0
    for (let row = top; row < bottom; row++) {
      const y = grid.north - (row + 0.5) * grid.cell
      for (let step = left; step < right; step++) {
        const column = (row - top) & 1 ? right - 1 - (step - left) : step
        const target = (row - from) * grid.columns + column
        if (wanted && wanted[target] === 0) continue
        this.addNode(block, grid.west + (column + 0.5) * grid.cell, y, target)
      }
    }
  }

  /** Kriges the nodes of a block. */
  krigeBlock(block: NodeBlock, out: Kriged): void {
    if (block.count === 0) return
    if (this.neighbours < this.field.u.length) {
      this.finder.visit(block, (sets, nodes) => this.krigeSets(sets, nodes, out))
      return
    }
    if (!this.holdsAll) this.loadAll()
    this.holdsAll = true
    const everyone = Int32Array.from({ length: block.count }, (_, i) => i)
    this.krigeNodes(block, everyone, 0, block.count, out)
  }

  /** Kriges a block set by set, with the covariances among its candidates worked out once. */
  krigeSets(sets: NodeSets, block: NodeBlock, out: Kriged): void {
    const { candidates, candidateCount, starts, nodes } = sets
    this.holdsAll = false
    this.shareCovariances(candidates, candidateCount)
    for (let set = 0; set < sets.setCount; set++) {
      const count = sets.membersOf(set, this.members)
      this.loadSet(candidates, count)
      this.krigeNodes(block, nodes, starts[set], starts[set + 1], out)
    }
  }

  private shareCovariances(candidates: Int32Array, count: number): void {
    const { u, v, noise, kernel } = this.field
    const length = packedLength(count)
    if (this.shared.length < length) {
      this.shared = new Float64Array(2 * length)
      this.sharedSquared = new Float64Array(2 * length)
    }
    const { shared, sharedSquared } = this
    for (let i = 0, entry = 0; i < count; i++) {
      const ui = u[candidates[i]]
      const vi = v[candidates[i]]
      for (let j = 0; j <= i; j++) {
        const du = ui - u[candidates[j]]
        const dv = vi - v[candidates[j]]
        sharedSquared[entry++] = du * du + dv * dv
      }
    }
    kernel.fill(sharedSquared, shared, length)
    for (let i = 0; i < count; i++) shared[packedLength(i) + i] += noise[candidates[i]]
  }

  /** Makes the system that of a set, whose covariances are picked out of the shared ones. */
  private loadSet(candidates: Int32Array, count: number): void {
    const { field, system, members, shared } = this
    const { matrix } = system
    for (let i = 0, entry = 0; i < count; i++) {
      const row = packedLength(members[i])
      for (let j = 0; j <= i; j++) matrix[entry++] = shared[row + members[j]]
    }
    for (let i = 0; i < count; i++) {
      const member = candidates[members[i]]
      this.u[i] = field.u[member]
      this.v[i] = field.v[member]
      this.values[i] = field.points.value[member]
      if (field.drift) this.external[i] = field.drift.values[member]
    }
    this.finishSet(count)
  }

  /** Makes the system that of all points. */
  private loadAll(): void {
    const { u, v, points } = this.field
    const count = u.length
    const everyone = Int32Array.from(u, (_, i) => i)
    this.shareCovariances(everyone, count)
    this.system.matrix.set(this.shared.subarray(0, packedLength(count)))
    this.shared = new Float64Array(0)
    this.sharedSquared = new Float64Array(0)
    this.u.set(u)
    this.v.set(v)
    this.values.set(points.value)
    if (this.field.drift) this.external.set(this.field.drift.values)
    this.finishSet(count)
  }

  private finishSet(count: number): void {
    this.system.factor(count)
    for (let i = 0; i < count; i++) {
      this.driftAt(this.u[i], this.v[i], this.drift, i, count)
      if (this.field.drift) this.drift[(this.system.trends - 1) * count + i] = this.external[i]
    }
    if (this.system.trends > 1 || count > LITTLE) this.system.solve(this.values, this.drift)
  }

  /** Writes the trend's functions at a place of the plane. */
  private driftAt(u: number, v: number, out: Float64Array, at: number, stride: number): void {
    const { trendScale } = this.field
    writeTrend(this.degree, u * trendScale, v * trendScale, out, at, stride)
  }

  /** Kriges the nodes `order[start … end)` of a block with the loaded set. */
  private krigeNodes(
    block: NodeBlock,
    order: Int32Array,
    start: number,
    end: number,
    out: Kriged,
  ): void {
    const { system, lanes } = this
    // The values and the ones of a small set are whitened beside its first two nodes.
    const together = system.trends === 1 && system.count <= LITTLE
    for (let next = start; next < end;) {
      const first = together && next === start ? 2 : 0
      const last = Math.min(LANES, first + end - next)
      this.fillLanes(block, order, next - first, first, last)
      system.whiten(lanes)
      if (first > 0) system.solveMean(lanes)
      for (let lane = first; lane < last; lane++) this.finishNode(block, order[next++], lane, out)
    }
  }

  /**
   * Covariances with the nodes of lanes [first, last); values and ones in the lanes before, where
   * there are any. Lanes past the last keep what they held, which nobody reads.
   */
  private fillLanes(
    block: NodeBlock,
    order: Int32Array,
    offset: number,
    first: number,
    last: number,
  ): void {
    const { squared, covariances, lanes } = this
    const count = this.system.count
    for (let lane = first; lane < last; lane++) {
      const node = order[offset + lane]
      const u = block.u[node]
      const v = block.v[node]
      for (let i = 0; i < count; i++) {
        const du = this.u[i] - u
        const dv = this.v[i] - v
        squared[i] = du * du + dv * dv
      }
      this.field.kernel.fill(squared, covariances, count)
      for (let i = 0, at = lane; i < count; i++, at += LANES) lanes[at] = covariances[i]
    }
    if (first === 0) return
    for (let i = 0, at = 0; i < count; i++, at += LANES) {
      lanes[at] = this.values[i]
      lanes[at + 1] = 1
    }
  }

  private finishNode(block: NodeBlock, node: number, lane: number, out: Kriged): void {
    const { system, lanes, nodeDrift, result } = this
    this.driftAt(block.u[node], block.v[node], nodeDrift, 0, 1)
    const { drift } = this.field
    if (drift) {
      const there = this.driftAtTargets?.[block.target[node]] ?? NaN
      nodeDrift[system.trends - 1] = (there - drift.scale.mean) / drift.scale.unit
    }
    system.estimate(lanes, lane, nodeDrift, this.field.kernel.sill, result)
    out.estimate[block.target[node]] = result[0]
    out.variance[block.target[node]] = result[1]
    if (out.lagrange) out.lagrange[block.target[node]] = result[2]
  }
}

/** How many points each node uses, checked: at least as many as the mean has functions. */
function neighbourCount(count: number, least: number, neighbours: number | null = null): number {
  const asked = neighbours ?? count
  if (!Number.isInteger(asked) || asked < least)
    throw new Error(`Kriging needs a whole number of neighbours, at least ${least}: ${asked}.`)
  const used = Math.min(asked, count)
  if (used > MOST_NEIGHBOURS)
    throw new Error(
      `Kriging with ${used} points at once would take too long; use at most ${MOST_NEIGHBOURS} neighbours.`,
    )
  return used
}
