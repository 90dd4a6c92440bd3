/**
 * The stations that can be chosen for any place of a block, where sectors and barriers count
 * (see `chosen-neighbours.ts`).
 *
 * A sector's bound comes from stations that lie in it and are seen from the whole block: once
 * there are as many as the sector takes, one that is farther from the block's centre than the
 * last of them by twice the block's half diagonal is nobody's choice.
 */
import { NeighbourIndex } from './neighbours'
import { boundsOf } from './points'
import { sectorsOf, type SectorCount } from './sectors'
import type { Sight } from './sight'

/** A block of places: their bounds in the plane where distances are measured. */
export interface PlaneBox {
  readonly west: number
  readonly east: number
  readonly south: number
  readonly north: number
}

/** Finds candidates for block after block in the same workspace. */
export class ChoiceCandidates {
  /** Stations by their distance from the block's centre. */
  readonly stations: Int32Array
  count = 0
  private readonly distances: Float64Array
  private readonly masks: Uint8Array
  private readonly found: Int32Array
  private readonly around: Int32Array
  private readonly index: NeighbourIndex
  private readonly bounds: PlaneBox
  /** Distances of the nearest that bound each sector, ascending, `most` places a sector. */
  private readonly bounding: Float64Array
  private readonly filled: Int32Array
  private readonly limits: Float64Array
  /** A radius that holds about as many stations as are wanted, where they lie evenly. */
  private readonly firstRadius: number

  /**
   * @param u east and @param v north of each station in the plane
   * @param most stations that a sector takes
   */
  constructor(
    private readonly u: Float64Array,
    private readonly v: Float64Array,
    private readonly sectors: SectorCount,
    private readonly most: number,
    private readonly sight: Sight | null,
  ) {
    const total = u.length
    this.stations = new Int32Array(total)
    this.distances = new Float64Array(total)
    this.masks = new Uint8Array(total)
    this.found = new Int32Array(total)
    this.bounding = new Float64Array(sectors * most)
    this.filled = new Int32Array(sectors)
    this.limits = new Float64Array(sectors)
    this.around = new Int32Array(total)
    this.index = new NeighbourIndex(u, v)
    const [west, south, east, north] = boundsOf({ x: u, y: v })
    this.bounds = { west, south, east, north }
    const area = (east - west) * (north - south)
    this.firstRadius =
      Math.sqrt((1.5 * sectors * most * area) / (Math.PI * Math.max(1, total))) || 1
  }

  /**
   * Finds the candidates of a block; `sight`, where there is one, must face it.
   *
   * @param among stations to choose from: the candidates of a block around this one; null for all
   * @param allowed which stations may be used; all where absent
   */
  find(box: PlaneBox, among: Int32Array | null, allowed?: (station: number) => boolean): void {
    const { u, v, distances, masks, found, around, sectors, limits, sight } = this
    const slack = Math.hypot(box.east - box.west, box.north - box.south) * (1 + 1e-9)
    const cu = (box.west + box.east) / 2
    const cv = (box.south + box.north) / 2
    this.filled.fill(0)
    limits.fill(Infinity)
    let size = 0
    let inner = -1
    let outer = this.firstRadius + slack
    for (;;) {
      const last = !(outer < this.farthest(cu, cv))
      if (last) outer = Infinity
      const near = among ?? around
      const count = among ? among.length : this.index.around(cu, cv, outer, around)
      for (let k = 0; k < count; k++) {
        const i = near[k]
        const du = u[i] - cu
        const dv = v[i] - cv
        const d = Math.sqrt(du * du + dv * dv)
        if (d <= inner || d > outer) continue
        const [left, right] = [u[i] - box.east, u[i] - box.west]
        const mask = sectorsOf(left, right, v[i] - box.north, v[i] - box.south, sectors)
        if (!this.within(mask, d) || (allowed && !allowed(i))) continue
        if (sight?.isHidden(i)) continue
        if (!sight || sight.isClear(i)) this.bound(mask, d, slack)
        distances[i] = d
        masks[i] = mask
        found[size++] = i
      }
      if (last || this.isBounded(outer)) break
      inner = outer
      outer *= 2
    }
    this.keepWithin(size)
  }

  /** No station is farther than this from a place. */
  private farthest(cu: number, cv: number): number {
    const { west, east, south, north } = this.bounds
    return Math.hypot(
      Math.max(Math.abs(cu - west), Math.abs(cu - east)),
      Math.max(Math.abs(cv - south), Math.abs(cv - north)),
    )
  }

  /** Whether a station so far off can be wanted in any of its sectors. */
  private within(mask: number, distance: number): boolean {
    const { limits, sectors } = this
    for (let s = 0; s < sectors; s++) if (mask & (1 << s) && distance <= limits[s]) return true
    return false
  }

  /** Takes a station that all of the block sees in one sector alone as that sector's bound. */
  private bound(mask: number, distance: number, slack: number): void {
    if ((mask & (mask - 1)) !== 0) return
    const { most, bounding, filled, limits } = this
    const sector = 31 - Math.clz32(mask)
    const start = sector * most
    let at = start + filled[sector]
    if (filled[sector] < most) filled[sector]++
    else if (distance >= bounding[--at]) return
    for (; at > start && distance < bounding[at - 1]; at--) bounding[at] = bounding[at - 1]
    bounding[at] = distance
    if (filled[sector] === most) limits[sector] = bounding[start + most - 1] + slack
  }

  private isBounded(radius: number): boolean {
    for (const limit of this.limits) if (limit > radius) return false
    return true
  }

  /** Drops those that a bound found later puts out of reach, and sorts the others. */
  private keepWithin(size: number): void {
    const { found, masks, distances, stations } = this
    let kept = 0
    for (let k = 0; k < size; k++) {
      const i = found[k]
      if (this.within(masks[i], distances[i])) stations[kept++] = i
    }
    this.count = kept
    stations.subarray(0, kept).sort((a, b) => distances[a] - distances[b] || a - b)
  }
}
