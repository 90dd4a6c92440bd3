/**
 * Which nodes of a small block share the same nearest points.
 *
 * Neighbouring nodes mostly have the same neighbours, and one factored system serves them all.
 * The sets do not depend on how nodes are gathered into blocks.
 */
import type { NeighbourIndex } from './neighbours'

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

/** Gets a set of points, ascending by index, and the nodes [start, end) of `order` that it serves. */
export type SetVisitor = (members: Int32Array, block: NodeBlock, nodes: readonly number[]) => void

/**
 * Visits each distinct set of the `neighbours` nearest points of a block's nodes.
 * Ties in distance go to the higher index.
 */
export function visitNodeSets(
  index: NeighbourIndex,
  block: NodeBlock,
  neighbours: number,
  visit: SetVisitor,
): void {
  if (block.count === 0) return
  const candidates = candidatesOf(index, block, neighbours)
  if (candidates.length > CROWDED * neighbours && block.count > 4) {
    for (const part of halves(block)) visitNodeSets(index, part, neighbours, visit)
    return
  }
  new BlockSets(index, block, candidates, neighbours).visitAll(visit)
}

/** Every point that can be among the nearest of any node in the block, ascending. */
function candidatesOf(index: NeighbourIndex, block: NodeBlock, neighbours: number): number[] {
  let west = Infinity
  let east = -Infinity
  let south = Infinity
  let north = -Infinity
  for (let i = 0; i < block.count; i++) {
    west = Math.min(west, block.u[i])
    east = Math.max(east, block.u[i])
    south = Math.min(south, block.v[i])
    north = Math.max(north, block.v[i])
  }
  const u = (west + east) / 2
  const v = (south + north) / 2
  let away = 0
  for (let i = 0; i < block.count; i++)
    away = Math.max(away, Math.hypot(block.u[i] - u, block.v[i] - v))
  const found = new Int32Array(neighbours)
  const squared = new Float64Array(neighbours)
  const size = index.nearest(u, v, neighbours, found, squared)
  // The k-th nearest of a node is at most away + the centre's k-th distance from it.
  const radius = (Math.sqrt(squared[size - 1]) + 2 * away) * (1 + 1e-9)
  return index.within(u, v, radius)
}

/** The block's nodes in two blocks, cut across its longer side. */
function halves(block: NodeBlock): NodeBlock[] {
  const middle = block.count >> 1
  const byU = spread(block.u, block.count) >= spread(block.v, block.count)
  const key = byU ? block.u : block.v
  const order = Array.from({ length: block.count }, (_, i) => i).sort((a, b) => key[a] - key[b])
  return [order.slice(0, middle), order.slice(middle)].map((part) => ({
    count: part.length,
    u: Float64Array.from(part, (i) => block.u[i]),
    v: Float64Array.from(part, (i) => block.v[i]),
    target: Int32Array.from(part, (i) => block.target[i]),
  }))
}

function spread(values: Float64Array, count: number): number {
  let low = Infinity
  let high = -Infinity
  for (let i = 0; i < count; i++) {
    low = Math.min(low, values[i])
    high = Math.max(high, values[i])
  }
  return high - low
}

/** The sets of one block, found by carrying the set of one node on to the next. */
class BlockSets {
  private readonly u: Float64Array
  private readonly v: Float64Array
  private readonly squared: Float64Array
  /** Candidates now inside the set, then those outside. */
  private readonly order: Int32Array
  private readonly words: Int32Array
  private readonly known = new Map<number, { words: Int32Array; nodes: number[] }[]>()
  private readonly inFound: { words: Int32Array; nodes: number[] }[] = []

  constructor(
    index: NeighbourIndex,
    private readonly block: NodeBlock,
    private readonly candidates: number[],
    private readonly neighbours: number,
  ) {
    this.u = Float64Array.from(candidates, (i) => index.u[i])
    this.v = Float64Array.from(candidates, (i) => index.v[i])
    this.squared = new Float64Array(candidates.length)
    this.order = Int32Array.from(candidates, (_, i) => i)
    this.words = new Int32Array((candidates.length + 31) >> 5)
    for (let i = 0; i < this.inside(); i++) this.toggle(i)
  }

  private inside(): number {
    return Math.min(this.neighbours, this.candidates.length)
  }

  private toggle(candidate: number): void {
    this.words[candidate >> 5] ^= 1 << (candidate & 31)
  }

  visitAll(visit: SetVisitor): void {
    let last: { words: Int32Array; nodes: number[] } | null = null
    for (let node = 0; node < this.block.count; node++) {
      const moved = this.moveTo(this.block.u[node], this.block.v[node])
      if (last === null || moved) last = this.currentSet()
      last.nodes.push(node)
    }
    const members = new Int32Array(this.inside())
    for (const set of this.inFound) {
      let size = 0
      for (let i = 0; i < this.candidates.length; i++)
        if (set.words[i >> 5] & (1 << (i & 31))) members[size++] = this.candidates[i]
      visit(members, this.block, set.nodes)
    }
  }

  /** Makes the set that of the node at (u, v); says whether it changed. */
  private moveTo(u: number, v: number): boolean {
    const { squared, order } = this
    const inside = this.inside()
    for (let i = 0; i < squared.length; i++) {
      const du = this.u[i] - u
      const dv = this.v[i] - v
      squared[i] = du * du + dv * dv
    }
    let moved = false
    for (;;) {
      let farthest = 0
      for (let i = 1; i < inside; i++) if (this.isCloser(order[farthest], order[i])) farthest = i
      let nearest = inside
      for (let i = inside + 1; i < order.length; i++)
        if (this.isCloser(order[i], order[nearest])) nearest = i
      if (nearest >= order.length || !this.isCloser(order[nearest], order[farthest])) return moved
      const swap = order[farthest]
      order[farthest] = order[nearest]
      order[nearest] = swap
      this.toggle(order[farthest])
      this.toggle(swap)
      moved = true
    }
  }

  private isCloser(a: number, b: number): boolean {
    const { squared } = this
    return squared[a] < squared[b] || (squared[a] === squared[b] && a > b)
  }

  private currentSet(): { words: Int32Array; nodes: number[] } {
    let hash = 0
    for (const word of this.words) hash = (Math.imul(hash, 0x9e3779b1) ^ word) | 0
    const same = this.known.get(hash)
    const known = same?.find((set) => set.words.every((word, i) => word === this.words[i]))
    if (known) return known
    const set = { words: this.words.slice(), nodes: [] }
    if (same) same.push(set)
    else this.known.set(hash, [set])
    this.inFound.push(set)
    return set
  }
}
