/**
 * Which stations a place is estimated from where more than distance decides: those that no fault
 * cuts off, and at most so many a sector around it.
 */
import { Sight, type Box } from './boundaries'
import { NeighbourIndex } from './neighbours'

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

/** Chooses stations for place after place in the same workspace. */
export class NeighbourChooser {
  private readonly index: NeighbourIndex
  private readonly sight: Sight | null
  private readonly found: Int32Array
  private readonly squared: Float64Array
  /** The nearest of each sector and how far they are, `most` places a sector. */
  private readonly best: Int32Array
  private readonly bestSquared: Float64Array
  private readonly taken: Int32Array
  /** The chosen, ascending by index, in the first places. */
  readonly members: Int32Array
  private readonly wanted: number
  private readonly mostOfSector: number

  constructor(
    private readonly places: Places,
    private readonly choice: Choice,
  ) {
    const count = places.x.length
    const { sectors, neighbours, barriers } = choice
    const all = sectors ? sectors.count * sectors.most : count
    this.wanted = Math.min(count, neighbours ?? count, all)
    this.index = new NeighbourIndex(places.u, places.v)
    this.sight = barriers ? new Sight(places.x, places.y, barriers) : null
    this.mostOfSector = sectors?.most ?? this.wanted
    const held = (sectors?.count ?? 1) * this.mostOfSector
    this.found = new Int32Array(Math.max(16, 2 * this.wanted, held))
    this.squared = new Float64Array(this.found.length)
    this.best = new Int32Array(held)
    this.bestSquared = new Float64Array(held)
    this.taken = new Int32Array(sectors?.count ?? 1)
    this.members = new Int32Array(this.wanted)
  }

  /** Most stations that a place can have. */
  get most(): number {
    return this.wanted
  }

  /** Turns to the places of a rectangle; has to come before `choose`. */
  face(box: Box): void {
    this.sight?.face(box)
  }

  /**
   * Chooses for the place (x, y), which is (u, v) in the plane: the nearest first, ties to the
   * higher index.
   *
   * @param allowed which stations may be used; all where absent
   * @returns how many `members` there are, and the nearest one's number; −1 for none
   */
  choose(
    x: number,
    y: number,
    u: number,
    v: number,
    allowed?: (station: number) => boolean,
  ): { readonly count: number; readonly nearest: number } {
    const total = this.places.x.length
    const room = Math.min(total, Math.max(2 * this.wanted, 16))
    const size = this.index.nearest(u, v, room, this.found, this.squared)
    let chosen = this.pick(size, x, y, u, v, allowed)
    // Cut off or in an empty sector: now every station is looked at.
    if (chosen.count < this.wanted && room < total) {
      const kept = this.scan(x, y, u, v, allowed)
      chosen = this.pick(kept, x, y, u, v)
    }
    this.members.subarray(0, chosen.count).sort()
    return chosen
  }

  /** Finds the nearest of each sector that may be used, in order of distance. */
  private scan(
    x: number,
    y: number,
    u: number,
    v: number,
    allowed?: (station: number) => boolean,
  ): number {
    const { places, sight, taken, best, bestSquared, mostOfSector: most } = this
    const { sectors } = this.choice
    taken.fill(0)
    for (let station = 0; station < places.u.length; station++) {
      const du = places.u[station] - u
      const dv = places.v[station] - v
      const squared = du * du + dv * dv
      const sector = sectors ? sectorOf(du, dv, sectors.count) : 0
      const start = sector * most
      let at = start + taken[sector]
      // On equal distances the later one goes first, as everywhere.
      if (taken[sector] === most && squared > bestSquared[at - 1]) continue
      if (allowed && !allowed(station)) continue
      if (sight && !sight.sees(x, y, station)) continue
      if (taken[sector] === most) at--
      else taken[sector]++
      for (; at > start && squared <= bestSquared[at - 1]; at--) {
        best[at] = best[at - 1]
        bestSquared[at] = bestSquared[at - 1]
      }
      best[at] = station
      bestSquared[at] = squared
    }
    const order: number[] = []
    taken.forEach((count, sector) => {
      for (let i = 0; i < count; i++) order.push(sector * most + i)
    })
    order.sort((a, b) => bestSquared[a] - bestSquared[b] || best[b] - best[a])
    order.forEach((at, i) => (this.found[i] = best[at]))
    return order.length
  }

  private pick(
    size: number,
    x: number,
    y: number,
    u: number,
    v: number,
    allowed?: (station: number) => boolean,
  ): { count: number; nearest: number } {
    const { found, taken, members } = this
    const { sectors } = this.choice
    taken.fill(0)
    let count = 0
    let nearest = -1
    for (let i = 0; i < size && count < this.wanted; i++) {
      const station = found[i]
      if (allowed && !allowed(station)) continue
      const sector = sectors
        ? sectorOf(this.places.u[station] - u, this.places.v[station] - v, sectors.count)
        : 0
      if (sectors && taken[sector] === sectors.most) continue
      if (this.sight && !this.sight.sees(x, y, station)) continue
      taken[sector]++
      if (nearest < 0) nearest = station
      members[count++] = station
    }
    return { count, nearest }
  }
}

/** Sectors of equal width counted from east against the clock. */
function sectorOf(du: number, dv: number, count: 4 | 8): number {
  const upper = dv > 0 || (dv === 0 && du >= 0)
  const a = upper ? du : -du
  const b = upper ? dv : -dv
  const octant = (a > 0 ? (b < a ? 0 : 1) : b > -a ? 2 : 3) + (upper ? 0 : 4)
  return count === 8 ? octant : octant >> 1
}
