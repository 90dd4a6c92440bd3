/**
 * Ordinary kriging, and kriging with a trend of the coordinates, with its variance
 * (Matheron 1963; Isaaks and Srivastava 1989, chapter 12).
 *
 * The variance at a node counts the nugget as part of the value there, as gstat does; on a
 * station without a stated error the estimate is its value and the variance 0. A station's
 * stated error is a nugget of its own that is filtered out (Cressie 1993, §3.2).
 */
import type { Grid, Points, Variogram } from './model'
import { prepareField, toPlaneU, toPlaneV, type KrigingField } from './kriging-field'
import { KrigingSystem, LANES } from './kriging-system'
import { NeighbourIndex } from './neighbours'
import { nodeBlock, visitNodeSets, type NodeBlock } from './node-sets'

export interface KrigingOptions {
  /** How many of the nearest points each node uses; absent or null for all of them. */
  readonly neighbours?: number | null
  /** Degree of the trend in the coordinates: 0 (absent) for ordinary kriging, 1 or 2. */
  readonly trend?: 0 | 1 | 2
  /** For `krigeRows`: 1 for nodes that are wanted, row-major from the first row; the rest are NaN. */
  readonly wanted?: Uint8Array
}

/** Estimates and kriging variances, one a target or row-major from the first row asked for. */
export interface Kriged {
  readonly estimate: Float64Array
  readonly variance: Float64Array
}

/** Most points that one system may have; beyond it a node must use its nearest only. */
export const MOST_NEIGHBOURS = 2000

/**
 * Kriging at targets of any kind.
 *
 * @param targets coordinates in working units
 * @throws Error in words where points, variogram or options cannot be used
 */
export function krigeAt(
  points: Points,
  variogram: Variogram,
  targets: { readonly x: Float64Array; readonly y: Float64Array },
  options: KrigingOptions = {},
): Kriged {
  const kriger = new Kriger(prepareField(points, variogram), options)
  const block = nodeBlock(targets.x.length)
  for (let i = 0; i < targets.x.length; i++) kriger.addNode(block, targets.x[i], targets.y[i], i)
  const kriged = nothingYet(targets.x.length)
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

function nothingYet(count: number): Kriged {
  return {
    estimate: new Float64Array(count).fill(NaN),
    variance: new Float64Array(count).fill(NaN),
  }
}

/** A field with its index and workspace, to krige many rows without preparing it anew. */
export class Kriger {
  private readonly neighbours: number
  private readonly index: NeighbourIndex
  private readonly system: KrigingSystem
  private readonly degree: number
  private readonly u: Float64Array
  private readonly v: Float64Array
  private readonly noise: Float64Array
  private readonly covariances: Float64Array
  private readonly distances: Float64Array
  private readonly nodeDrift: Float64Array
  private readonly estimate = new Float64Array(LANES)
  private readonly variance = new Float64Array(LANES)
  /** Scales coordinates for the trend, so that its equations are well conditioned. */
  private readonly scale: number
  /** Whether the system already holds all points. */
  private holdsAll = false

  constructor(
    readonly field: KrigingField,
    options: Pick<KrigingOptions, 'neighbours' | 'trend'>,
  ) {
    const count = field.u.length
    this.degree = options.trend ?? 0
    this.neighbours = neighbourCount(count, options)
    this.index = new NeighbourIndex(field.u, field.v)
    const trends = [1, 3, 6][this.degree]
    this.system = new KrigingSystem(this.neighbours, trends)
    this.u = new Float64Array(this.neighbours)
    this.v = new Float64Array(this.neighbours)
    this.noise = new Float64Array(this.neighbours)
    this.covariances = new Float64Array(this.neighbours * LANES)
    this.distances = new Float64Array(this.neighbours * LANES)
    this.nodeDrift = new Float64Array(trends * LANES).fill(1, 0, LANES)
    this.scale = 1 / Math.max(spanOf(field.u), spanOf(field.v), Number.MIN_VALUE * 1e10)
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
    const kriged = nothingYet((to - from) * grid.columns)
    const side = this.blockSide(grid)
    const block = nodeBlock(side * side)
    for (let top = from; top < to; top += side) {
      for (let left = 0; left < grid.columns; left += side) {
        const bottom = Math.min(to, top + side)
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

  /** Nodes along a block's side: wide enough to share factors, small beside the neighbourhood. */
  private blockSide(grid: Grid): number {
    const { u, v } = this.field
    const { uu, uv, vu, vv } = this.field.plane
    const step = grid.cell * Math.max(Math.hypot(uu, vu), Math.hypot(uv, vv))
    const area = spanOf(u) * spanOf(v)
    const neighbourhood = Math.sqrt((this.neighbours * area) / (Math.PI * u.length))
    return Math.min(32, Math.max(4, Math.round((0.3 * neighbourhood) / step)))
  }

  /** Kriges the nodes of a block. */
  krigeBlock(block: NodeBlock, out: Kriged): void {
    if (block.count === 0) return
    if (this.neighbours < this.field.u.length) {
      visitNodeSets(this.index, block, this.neighbours, (members, nodes, order) => {
        this.load(members)
        this.krigeNodes(nodes, order, out)
      })
      return
    }
    if (!this.holdsAll) this.load(Int32Array.from(this.field.u, (_, i) => i))
    this.holdsAll = true
    this.krigeNodes(block, null, out)
  }

  /** Makes the system that of a set of points. */
  private load(members: Int32Array): void {
    const { field, system } = this
    const count = members.length
    for (let i = 0; i < count; i++) {
      const member = members[i]
      this.u[i] = field.u[member]
      this.v[i] = field.v[member]
      this.noise[i] = field.noise[member]
      system.values[i] = field.points.value[member]
    }
    system.factor(count, this.u, this.v, this.noise, field.kernel)
    for (let i = 0; i < count; i++) this.driftAt(this.u[i], this.v[i], system.drift, i, count)
    system.solve()
  }

  /** Writes the drift functions at a place of the plane. */
  private driftAt(u: number, v: number, out: Float64Array, at: number, stride: number): void {
    out[at] = 1
    if (this.degree === 0) return
    const a = u * this.scale
    const b = v * this.scale
    out[at + stride] = a
    out[at + 2 * stride] = b
    if (this.degree === 1) return
    out[at + 3 * stride] = a * a
    out[at + 4 * stride] = a * b
    out[at + 5 * stride] = b * b
  }

  /** Kriges the nodes of a block in the order given (all of them for null) with the loaded set. */
  private krigeNodes(block: NodeBlock, order: readonly number[] | null, out: Kriged): void {
    const { system, distances, covariances } = this
    const { kernel } = this.field
    const count = system.count
    const nodes = order ? order.length : block.count
    for (let start = 0; start < nodes; start += LANES) {
      const lanes = Math.min(LANES, nodes - start)
      for (let lane = 0; lane < LANES; lane++) {
        const at = start + Math.min(lane, lanes - 1)
        const node = order ? order[at] : at
        const u = block.u[node]
        const v = block.v[node]
        for (let i = 0, d = lane; i < count; i++, d += LANES) {
          const du = this.u[i] - u
          const dv = this.v[i] - v
          distances[d] = du * du + dv * dv
        }
        if (this.degree > 0) this.driftAt(u, v, this.nodeDrift, lane, LANES)
      }
      kernel.fill(distances, covariances, count * LANES)
      system.estimate(covariances, this.nodeDrift, kernel.sill, this.estimate, this.variance)
      for (let lane = 0; lane < lanes; lane++) {
        const target = block.target[order ? order[start + lane] : start + lane]
        out.estimate[target] = this.estimate[lane]
        out.variance[target] = this.variance[lane]
      }
    }
  }
}

/** How many points each node uses, checked. */
function neighbourCount(
  count: number,
  options: Pick<KrigingOptions, 'neighbours' | 'trend'>,
): number {
  const least = [1, 3, 6][options.trend ?? 0]
  const asked = options.neighbours ?? count
  if (!Number.isInteger(asked) || asked < least)
    throw new Error(`Kriging needs a whole number of neighbours, at least ${least}: ${asked}.`)
  const used = Math.min(asked, count)
  if (used > MOST_NEIGHBOURS)
    throw new Error(
      `Kriging with ${used} points at once would take too long; use at most ${MOST_NEIGHBOURS} neighbours.`,
    )
  return used
}

function spanOf(values: Float64Array): number {
  let low = Infinity
  let high = -Infinity
  for (const value of values) {
    low = Math.min(low, value)
    high = Math.max(high, value)
  }
  return high - low
}
