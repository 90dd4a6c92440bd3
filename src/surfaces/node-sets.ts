/**
 * Which nodes of a small block share the same nearest points.
 *
 * Neighbouring nodes mostly have the same neighbours, and one factored system serves them all.
 * The sets do not depend on how nodes are gathered into blocks.
 */
import type { NeighbourIndex } from './neighbours'
import { SetTable } from './set-table'

/** Past this many candidates for each neighbour wanted a block is worth splitting. */
const CROWDED = 4

/** Nodes of a block in the plane, and where each one's result goes. */
export interface NodeBlock {
  count: number
  readonly u: Float64Array
  readonly v: Float64Array
  /** Position in the caller's output. */
  readonly target: Int32Array
}

/** An empty block for at most `capacity` nodes. */
export function nodeBlock(capacity: number): NodeBlock {
  return {
    count: 0,
    u: new Float64Array(capacity),
    v: new Float64Array(capacity),
    target: new Int32Array(capacity),
  }
}

/** The sets that a block's nodes have, once found. */
export interface NodeSets {
  /** Points that can be a neighbour of any of the block's nodes, ascending by index. */
  readonly candidates: Int32Array
  readonly candidateCount: number
  readonly setCount: number
  /** Writes a set's members as positions among the candidates, ascending; gives their number. */
  membersOf(set: number, out: Int32Array): number
  /** Nodes of set s are `nodes[starts[s] … starts[s + 1])`. */
  readonly starts: Int32Array
  readonly nodes: Int32Array
}

/** The sets of one block after another, in the same workspace. */
export class BlockSets implements NodeSets {
  candidates = new Int32Array(256)
  candidateCount = 0
  protected readonly sets = new SetTable()

  get setCount(): number {
    return this.sets.setCount
  }

  get starts(): Int32Array {
    return this.sets.starts
  }

  get nodes(): Int32Array {
    return this.sets.nodes
  }

  membersOf(set: number, out: Int32Array): number {
    return this.sets.membersOf(set, out)
  }
}

/** Finds sets for block after block in the same workspace. */
export class SetFinder extends BlockSets {
  private u = new Float64Array(256)
  private v = new Float64Array(256)
  private squared = new Float64Array(256)
  /** Candidates in the current set, then those outside it. */
  private order = new Int32Array(256)
  private readonly found: Int32Array
  private readonly foundSquared: Float64Array

  constructor(
    private readonly index: NeighbourIndex,
    private readonly neighbours: number,
  ) {
    super()
    this.found = new Int32Array(neighbours)
    this.foundSquared = new Float64Array(neighbours)
  }

  /**
   * Finds the sets of the nearest points of a block's nodes and has them visited; a block whose
   * points crowd is split and visited in parts. Ties in distance go to the higher index.
   */
  visit(block: NodeBlock, visitor: (sets: NodeSets, block: NodeBlock) => void): void {
    if (block.count === 0) return
    this.findCandidates(block)
    if (this.candidateCount > CROWDED * this.neighbours && block.count > 4) {
      for (const part of halves(block)) this.visit(part, visitor)
      return
    }
    this.findSets(block)
    visitor(this, block)
  }

  /** Takes every point that can be among the nearest of any node in the block, ascending. */
  private findCandidates(block: NodeBlock): void {
    const [west, east] = limits(block.u, block.count)
    const [south, north] = limits(block.v, block.count)
    const u = (west + east) / 2
    const v = (south + north) / 2
    const away = Math.hypot(east - west, north - south) / 2
    const size = this.index.nearest(u, v, this.neighbours, this.found, this.foundSquared)
    // The k-th nearest of a node is at most away + the centre's k-th distance from it.
    const radius = (Math.sqrt(this.foundSquared[size - 1]) + 2 * away) * (1 + 1e-9)
    const room = this.index.countAround(u, v, radius)
    if (room > this.candidates.length) this.growCandidates(room * 2)
    this.candidateCount = this.index.within(u, v, radius, this.candidates)
    for (let i = 0; i < this.candidateCount; i++) {
      this.u[i] = this.index.u[this.candidates[i]]
      this.v[i] = this.index.v[this.candidates[i]]
    }
  }

  private growCandidates(room: number): void {
    this.candidates = new Int32Array(room)
    this.u = new Float64Array(room)
    this.v = new Float64Array(room)
    this.squared = new Float64Array(room)
    this.order = new Int32Array(room)
  }

  private findSets(block: NodeBlock): void {
    const { count } = block
    const { sets } = this
    sets.begin(count, this.candidateCount)
    const inside = Math.min(this.neighbours, this.candidateCount)
    for (let i = 0; i < this.candidateCount; i++) this.order[i] = i
    for (let i = 0; i < inside; i++) sets.toggle(i)
    let set = -1
    for (let node = 0; node < count; node++) {
      const moved = this.moveTo(block.u[node], block.v[node], inside)
      if (moved || node === 0) set = sets.currentSet()
      sets.assign(node, set)
    }
    sets.listNodes(count)
  }

  /** Makes the current set that of the node at (u, v); says whether it changed. */
  private moveTo(u: number, v: number, inside: number): boolean {
    const { squared, order, candidateCount } = this
    const us = this.u
    const vs = this.v
    for (let i = 0; i < candidateCount; i++) {
      const du = us[i] - u
      const dv = vs[i] - v
      squared[i] = du * du + dv * dv
    }
    if (inside === candidateCount) return false
    for (let moved = false; ; moved = true) {
      let far = 0
      let farAt = order[0]
      let farthest = squared[farAt]
      for (let i = 1; i < inside; i++) {
        const at = order[i]
        const d = squared[at]
        if (d > farthest || (d === farthest && at < farAt)) {
          farthest = d
          farAt = at
          far = i
        }
      }
      let near = inside
      let nearAt = order[inside]
      let nearest = squared[nearAt]
      for (let i = inside + 1; i < candidateCount; i++) {
        const at = order[i]
        const d = squared[at]
        if (d < nearest || (d === nearest && at > nearAt)) {
          nearest = d
          nearAt = at
          near = i
        }
      }
      if (nearest > farthest || (nearest === farthest && nearAt < farAt)) return moved
      order[far] = nearAt
      order[near] = farAt
      this.sets.toggle(nearAt)
      this.sets.toggle(farAt)
    }
  }
}

/** The block's nodes in two blocks, cut across its longer side, with their places in it. */
export function halves(block: NodeBlock): (NodeBlock & { readonly order: readonly number[] })[] {
  const middle = block.count >> 1
  const [west, east] = limits(block.u, block.count)
  const [south, north] = limits(block.v, block.count)
  const key = east - west >= north - south ? block.u : block.v
  const order = Array.from({ length: block.count }, (_, i) => i).sort((a, b) => key[a] - key[b])
  return [order.slice(0, middle), order.slice(middle)].map((part) => ({
    order: part,
    count: part.length,
    u: Float64Array.from(part, (i) => block.u[i]),
    v: Float64Array.from(part, (i) => block.v[i]),
    target: Int32Array.from(part, (i) => block.target[i]),
  }))
}

function limits(values: Float64Array, count: number): [least: number, most: number] {
  let least = Infinity
  let most = -Infinity
  for (let i = 0; i < count; i++) {
    if (values[i] < least) least = values[i]
    if (values[i] > most) most = values[i]
  }
  return [least, most]
}
