/**
 * Which stations a place is estimated from where more than distance decides: those that no fault
 * cuts off, and at most so many a sector around it.
 *
 * Places are chosen for block by block: what can be chosen for any of them is found once, and each
 * place looks at no other station.
 */
import { ChoiceCandidates } from './choice-candidates'
import { BlockSets, halves, nodeBlock, type NodeBlock, type NodeSets } from './node-sets'
import { sectorOf, type SectorCount } from './sectors'
import { Sight } from './sight'

export interface Choice {
  /** Straight pieces as x1, y1, x2, y2 …, working units; null for none. */
  readonly barriers: Float64Array | null
  /** Sectors around a place, counted from east, and the most stations of each; null for no limit. */
  readonly sectors: { readonly count: 4 | 8; readonly most: number } | null
  /** How many stations at most; null for all. */
  readonly neighbours: number | null
}

/** Stations of a field: places in working units, and in the plane where distances are measured. */
interface Places {
  readonly x: Float64Array
  readonly y: Float64Array
  readonly u: Float64Array
  readonly v: Float64Array
}

/** A block whose nodes have their places in working units too. */
export interface PlacedBlock extends NodeBlock {
  readonly x: Float64Array
  readonly y: Float64Array
}

/** An empty block for at most `capacity` nodes. */
export function placedBlock(capacity: number): PlacedBlock {
  const [x, y] = [new Float64Array(capacity), new Float64Array(capacity)]
  return { ...nodeBlock(capacity), x, y }
}

/** What a place must have to be estimated. */
export interface ChoiceNeeds {
  /** Stations at least. */
  readonly least: number
  /** One of its stations must be as near as this, working units. */
  readonly reach: number
  /** Whether a station may be used at all; all where absent. */
  readonly allowed?: (station: number) => boolean
  /** Whether time is up, and who is told of the nodes that are then passed over; absent for never. */
  readonly limit?: { isOver(): boolean; passOver(block: NodeBlock): void }
}

/** Past this many candidates for each station wanted a block is worth splitting. */
const CROWDED = 5

/** Chooses stations for block after block in the same workspace. */
export class NeighbourChooser extends BlockSets {
  /** Most stations that a place can have. */
  readonly most: number
  private readonly sight: Sight | null
  private readonly sectors: SectorCount
  private readonly mostOfSector: number
  private readonly found: ChoiceCandidates
  /** The nearest of each sector and how far they are, `mostOfSector` places a sector. */
  private readonly best: Int32Array
  private readonly bestSquared: Float64Array
  private readonly taken: Int32Array
  private readonly heads: Int32Array
  /** Chosen stations of each node of a block, `most` places a node, and how many; −1 for none. */
  private chosen = new Int32Array(0)
  private counts = new Int32Array(0)
  /** Where a station stands among the block's candidates, plus one. */
  private readonly position: Int32Array

  constructor(
    private readonly places: Places,
    choice: Choice,
  ) {
    super()
    const total = places.x.length
    const { sectors, neighbours, barriers } = choice
    const room = sectors ? sectors.count * sectors.most : total
    this.most = Math.min(total, neighbours ?? total, room)
    this.sectors = sectors?.count ?? 1
    this.mostOfSector = Math.min(sectors?.most ?? this.most, this.most)
    this.sight = barriers ? new Sight(places.x, places.y, barriers) : null
    const { u, v } = places
    this.found = new ChoiceCandidates(u, v, this.sectors, this.mostOfSector, this.sight)
    this.best = new Int32Array(this.sectors * this.mostOfSector)
    this.bestSquared = new Float64Array(this.best.length)
    this.taken = new Int32Array(this.sectors)
    this.heads = new Int32Array(this.sectors)
    this.position = new Int32Array(total)
  }

  /**
   * Chooses for a block's nodes, the nearest first, ties to the higher index, and has their sets
   * visited; a block with many candidates is split and visited in parts. Nodes that lack what they
   * need are in no set. Once time is up what is left of the block is passed over.
   */
  visit(
    block: PlacedBlock,
    needs: ChoiceNeeds,
    visitor: (sets: NodeSets, block: NodeBlock) => void,
    among: Int32Array | null = null,
  ): void {
    if (block.count === 0) return
    if (needs.limit?.isOver()) return needs.limit.passOver(block)
    this.sight?.face(boxOf(block.x, block.y, block.count))
    // Across a barrier no station is seen by all of the block, so that nothing would bound it.
    if (block.count > 1 && this.sight?.isStraddled()) {
      for (const part of halves(block)) this.visit(placed(part, block), needs, visitor, among)
      return
    }
    this.found.find(boxOf(block.u, block.v, block.count), among, needs.allowed)
    const enough = this.found.count <= CROWDED * this.most
    if (!enough && this.found.count > 64 && block.count > 1) {
      const candidates = this.found.stations.slice(0, this.found.count)
      for (const part of halves(block)) this.visit(placed(part, block), needs, visitor, candidates)
      return
    }
    this.chooseAll(block, needs)
    this.tellSets(block.count)
    visitor(this, block)
  }

  private chooseAll(block: PlacedBlock, needs: ChoiceNeeds): void {
    const { count } = block
    if (this.counts.length < count) {
      this.counts = new Int32Array(count)
      this.chosen = new Int32Array(count * this.most)
    }
    for (let node = 0; node < count; node++) {
      const [x, y] = [block.x[node], block.y[node]]
      this.rank(x, y, block.u[node], block.v[node])
      const size = this.take(node * this.most)
      const fits = size >= needs.least && this.reaches(x, y, node * this.most, size, needs.reach)
      this.counts[node] = fits ? size : -1
    }
  }

  /** Ranks the nearest visible stations of each sector around a place. */
  private rank(x: number, y: number, u: number, v: number): void {
    const { places, sight, taken, best, bestSquared, sectors, mostOfSector: most } = this
    const { stations, count } = this.found
    taken.fill(0)
    for (let k = 0; k < count; k++) {
      const station = stations[k]
      const du = places.u[station] - u
      const dv = places.v[station] - v
      const squared = du * du + dv * dv
      const sector = sectorOf(du, dv, sectors)
      const start = sector * most
      let at = start + taken[sector]
      const full = taken[sector] === most
      if (full && !isBefore(squared, station, bestSquared[at - 1], best[at - 1])) continue
      if (sight && !sight.sees(x, y, station)) continue
      if (full) at--
      else taken[sector]++
      for (; at > start && isBefore(squared, station, bestSquared[at - 1], best[at - 1]); at--) {
        best[at] = best[at - 1]
        bestSquared[at] = bestSquared[at - 1]
      }
      best[at] = station
      bestSquared[at] = squared
    }
  }

  /** Writes the nearest of all sectors to `chosen`, at most `most`; gives how many. */
  private take(to: number): number {
    const { taken, best, bestSquared, heads, chosen, sectors, mostOfSector } = this
    let total = 0
    for (const count of taken) total += count
    if (total <= this.most) {
      // All of them, in whatever order: only which they are counts.
      for (let s = 0, size = 0; s < sectors; s++)
        for (let k = 0; k < taken[s]; k++) chosen[to + size++] = best[s * mostOfSector + k]
      return total
    }
    heads.fill(0)
    for (let size = 0; ; size++) {
      if (size === this.most) return size
      let next = -1
      let nextAt = -1
      for (let s = 0; s < sectors; s++) {
        if (heads[s] === taken[s]) continue
        const at = s * mostOfSector + heads[s]
        if (next < 0 || isBefore(bestSquared[at], best[at], bestSquared[nextAt], best[nextAt])) {
          next = s
          nextAt = at
        }
      }
      if (next < 0) return size
      heads[next]++
      chosen[to + size] = best[nextAt]
    }
  }

  /** Whether one of the chosen is within reach; anisotropy bends which is nearest, so any will do. */
  private reaches(x: number, y: number, from: number, size: number, reach: number): boolean {
    if (reach === Infinity) return true
    const { places, chosen } = this
    for (let k = from; k < from + size; k++) {
      const station = chosen[k]
      if (Math.hypot(places.x[station] - x, places.y[station] - y) <= reach) return true
    }
    return false
  }

  /** Numbers what was chosen as candidates and lists the nodes by their sets. */
  private tellSets(count: number): void {
    const { sets, position, counts, chosen, most } = this
    let size = 0
    for (let node = 0; node < count; node++)
      for (let k = node * most; k < node * most + counts[node]; k++) {
        if (position[chosen[k]] > 0) continue
        position[chosen[k]] = 1
        if (size === this.candidates.length) this.candidates = grown(this.candidates)
        this.candidates[size++] = chosen[k]
      }
    this.candidateCount = size
    this.candidates.subarray(0, size).sort()
    for (let c = 0; c < size; c++) position[this.candidates[c]] = c + 1
    sets.begin(count, size)
    for (let node = 0; node < count; node++) {
      if (counts[node] < 0) {
        sets.assign(node, -1)
        continue
      }
      sets.words.fill(0)
      for (let k = node * most; k < node * most + counts[node]; k++)
        sets.toggle(position[chosen[k]] - 1)
      sets.assign(node, sets.currentSet())
    }
    sets.listNodes(count)
    for (let c = 0; c < size; c++) position[this.candidates[c]] = 0
  }
}

function isBefore(squared: number, i: number, otherSquared: number, other: number): boolean {
  return squared < otherSquared || (squared === otherSquared && i > other)
}

function grown(array: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
  const longer = new Int32Array(2 * array.length)
  longer.set(array)
  return longer
}

/** A part of a block with the places of its nodes. */
function placed(
  part: NodeBlock & { readonly order: readonly number[] },
  block: PlacedBlock,
): PlacedBlock {
  return {
    ...part,
    x: Float64Array.from(part.order, (i) => block.x[i]),
    y: Float64Array.from(part.order, (i) => block.y[i]),
  }
}

function boxOf(east: Float64Array, north: Float64Array, count: number) {
  const box = { west: Infinity, east: -Infinity, south: Infinity, north: -Infinity }
  for (let i = 0; i < count; i++) {
    box.west = Math.min(box.west, east[i])
    box.east = Math.max(box.east, east[i])
    box.south = Math.min(box.south, north[i])
    box.north = Math.max(box.north, north[i])
  }
  return box
}
