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
  readonly sectors: { readonly count: number; readonly most: number } | null
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
  private found: Int32Array
  private squared: Float64Array
  private readonly taken: Int32Array
  /** The chosen, ascending by index, in the first places. */
  readonly members: Int32Array
  private readonly wanted: number

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
    this.found = new Int32Array(0)
    this.squared = new Float64Array(0)
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
    let room = Math.min(total, Math.max(2 * this.wanted, 16))
    for (;;) {
      this.makeRoom(room)
      const size = this.index.nearest(u, v, room, this.found, this.squared)
      const chosen = this.pick(size, x, y, u, v, allowed)
      if (chosen.count === this.wanted || room === total) {
        this.members.subarray(0, chosen.count).sort()
        return chosen
      }
      room = Math.min(total, 4 * room)
    }
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
      const sector = sectors ? this.sectorOf(u, v, station, sectors.count) : 0
      if (sectors && taken[sector] === sectors.most) continue
      if (this.sight && !this.sight.sees(x, y, station)) continue
      taken[sector]++
      if (nearest < 0) nearest = station
      members[count++] = station
    }
    return { count, nearest }
  }

  private sectorOf(u: number, v: number, station: number, count: number): number {
    const turn = Math.atan2(this.places.v[station] - v, this.places.u[station] - u) / (2 * Math.PI)
    return Math.floor((turn < 0 ? turn + 1 : turn) * count) % count
  }

  private makeRoom(room: number): void {
    if (this.found.length >= room) return
    this.found = new Int32Array(room)
    this.squared = new Float64Array(room)
  }
}
