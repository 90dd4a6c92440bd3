/** Inverse distance weighting (Shepard 1968): weights distance^−power. */
import type { Grid, Points } from './model'
import { NeighbourIndex } from './neighbours'
import { nodeBlock, SetFinder, type NodeBlock } from './node-sets'
import { checkPoints, mergeDuplicates } from './points'

export interface InverseDistanceOptions {
  /** Above 0; 2 where absent. */
  readonly power?: number
  /** How many of the nearest points each node uses; absent or null for all. */
  readonly neighbours?: number | null
  /** For rows: 1 for nodes that are wanted; the rest are NaN. */
  readonly wanted?: Uint8Array
}

/** Side of the blocks in which rows are worked. */
const BLOCK = 16

/** Estimates at targets in working units; on a station its value. Duplicates are averaged. */
export function inverseDistanceAt(
  points: Points,
  targets: { readonly x: Float64Array; readonly y: Float64Array },
  options: InverseDistanceOptions = {},
): Float64Array {
  const weigher = new Weigher(points, options)
  const block = nodeBlock(targets.x.length)
  for (let i = 0; i < targets.x.length; i++) weigher.addNode(block, targets.x[i], targets.y[i], i)
  const out = new Float64Array(targets.x.length).fill(NaN)
  weigher.weighBlock(block, out)
  return out
}

/** Estimates at the nodes of some rows of a grid, row-major from the first row. */
export function inverseDistanceRows(
  points: Points,
  grid: Grid,
  rows: readonly [from: number, to: number],
  options: InverseDistanceOptions = {},
): Float64Array {
  const weigher = new Weigher(points, options)
  const [from, to] = rows
  const out = new Float64Array((to - from) * grid.columns).fill(NaN)
  const block = nodeBlock(BLOCK * BLOCK)
  for (let top = from; top < to; top += BLOCK) {
    for (let left = 0; left < grid.columns; left += BLOCK) {
      block.count = 0
      for (let row = top; row < Math.min(to, top + BLOCK); row++) {
        const y = grid.north - (row + 0.5) * grid.cell
        for (let column = left; column < Math.min(grid.columns, left + BLOCK); column++) {
          const target = (row - from) * grid.columns + column
          if (options.wanted && options.wanted[target] === 0) continue
          weigher.addNode(block, grid.west + (column + 0.5) * grid.cell, y, target)
        }
      }
      weigher.weighBlock(block, out)
    }
  }
  return out
}

/** Each point's estimate from its (nearest) others; points without duplicates. */
export function inverseDistanceLeftOut(
  points: Points,
  options: InverseDistanceOptions = {},
): Float64Array {
  const weigher = new Weigher(points, options)
  return points.x.map((_, i) => weigher.leftOut(i))
}

class Weigher {
  private readonly points: Points
  private readonly power: number
  private readonly neighbours: number
  private readonly index: NeighbourIndex
  private readonly finder: SetFinder
  private readonly members: Int32Array
  private readonly everyone: Int32Array

  constructor(points: Points, options: InverseDistanceOptions) {
    checkPoints(points, 1)
    this.points = mergeDuplicates(points)
    this.power = options.power ?? 2
    if (!(this.power > 0 && this.power <= 100))
      throw new Error(
        `The power of inverse distance must be above 0 and at most 100: ${this.power}.`,
      )
    const count = this.points.x.length
    const asked = options.neighbours ?? count
    if (!Number.isInteger(asked) || asked < 1)
      throw new Error(`Inverse distance needs a whole number of neighbours, at least 1: ${asked}.`)
    this.neighbours = Math.min(asked, count)
    this.index = new NeighbourIndex(this.points.x, this.points.y)
    this.finder = new SetFinder(this.index, this.neighbours)
    this.members = new Int32Array(this.neighbours)
    this.everyone = Int32Array.from(this.points.x, (_, i) => i)
  }

  addNode(block: NodeBlock, x: number, y: number, target: number): void {
    block.u[block.count] = x
    block.v[block.count] = y
    block.target[block.count++] = target
  }

  weighBlock(block: NodeBlock, out: Float64Array): void {
    if (this.neighbours < this.everyone.length) {
      this.finder.visit(block, (sets, nodes) => {
        for (let set = 0; set < sets.setCount; set++) {
          const count = sets.membersOf(set, this.members)
          for (let i = 0; i < count; i++) this.members[i] = sets.candidates[this.members[i]]
          for (let n = sets.starts[set]; n < sets.starts[set + 1]; n++)
            out[nodes.target[sets.nodes[n]]] = this.weigh(this.members, nodes, sets.nodes[n])
        }
      })
      return
    }
    for (let node = 0; node < block.count; node++)
      out[block.target[node]] = this.weigh(this.everyone, block, node)
  }

  /** The estimate at a point from its nearest others. */
  leftOut(point: number): number {
    const block = nodeBlock(1)
    this.addNode(block, this.points.x[point], this.points.y[point], 0)
    const others = this.everyone.length - 1
    if (this.neighbours >= others) {
      const kept = this.everyone.filter((i) => i !== point)
      return this.weigh(kept, block, 0)
    }
    const { x, y } = this.points
    const squared = new Float64Array(this.neighbours)
    this.index.nearest(x[point], y[point], this.neighbours, this.members, squared, point)
    return this.weigh(this.members.sort(), block, 0)
  }

  /** The weighted mean of the members at one node. */
  private weigh(members: Int32Array, block: NodeBlock, node: number): number {
    const { x, y, value } = this.points
    const half = this.power / 2
    let sum = 0
    let weights = 0
    // A high power over long distances would run out of exponents: weigh relative to the nearest.
    const unit = half > 4 ? this.nearestSquared(members, block, node) : 1
    for (let i = 0; i < members.length; i++) {
      const dx = x[members[i]] - block.u[node]
      const dy = y[members[i]] - block.v[node]
      const squared = dx * dx + dy * dy
      if (squared === 0) return value[members[i]]
      const weight = half === 1 ? 1 / squared : (unit / squared) ** half
      sum += weight * value[members[i]]
      weights += weight
    }
    return sum / weights
  }

  private nearestSquared(members: Int32Array, block: NodeBlock, node: number): number {
    let least = Infinity
    for (const i of members) {
      const dx = this.points.x[i] - block.u[node]
      const dy = this.points.y[i] - block.v[node]
      least = Math.min(least, dx * dx + dy * dy)
    }
    return least
  }
}
