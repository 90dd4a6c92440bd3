/** Surfaces and their testing where each place's stations are chosen (see `chosen-neighbours.ts`). */
import { NeighbourChooser, type Choice } from './chosen-neighbours'
import { nodeX, nodeY } from './grid'
import { Kriger } from './kriging'
import { prepareField, toPlaneU, toPlaneV, type KrigingField } from './kriging-field'
import type { Grid, Points, Variogram } from './model'
import { nodeBlock, type NodeBlock } from './node-sets'
import { trendCount, type TrendDegree } from './trend'

/** How a place is estimated from its stations. */
export type ChosenMethod =
  | {
      readonly method: 'kriging'
      readonly variogram: Variogram
      readonly trend?: TrendDegree
    }
  | { readonly method: 'inverse-distance'; readonly power?: number }

/** Estimates with their variances, null for inverse distance; NaN where no station can be used. */
export interface ChosenValues {
  readonly estimate: Float64Array
  readonly variance: Float64Array | null
}

/** Side of the blocks of nodes that are worked together. */
const BLOCK = 16

/** Any model serves where there is none: only distances are wanted of it. */
const ISOTROPIC: Variogram = { nugget: 1, structures: [] }

/** Nodes of a block that share their stations. */
interface Shared {
  readonly members: Int32Array
  readonly nodes: number[]
}

/** Stations prepared for many places. */
export class ChosenEstimator {
  private readonly field: KrigingField
  private readonly chooser: NeighbourChooser
  private readonly kriger: Kriger | null
  private readonly least: number
  private readonly power: number

  /** @throws Error in words where points, model or choice cannot be used */
  constructor(input: Points, method: ChosenMethod, choice: Choice) {
    const kriging = method.method === 'kriging'
    this.field = prepareField(input, kriging ? method.variogram : ISOTROPIC)
    const { x, y } = this.field.points
    this.chooser = new NeighbourChooser({ x, y, u: this.field.u, v: this.field.v }, choice)
    const trend = kriging ? (method.trend ?? 0) : 0
    this.least = kriging ? trendCount(trend) : 1
    this.kriger = kriging
      ? new Kriger(this.field, { neighbours: Math.max(this.chooser.most, this.least), trend })
      : null
    this.power = kriging ? 0 : (method.power ?? 2)
  }

  /**
   * The nodes of some rows. A node's numbers do not depend on the rows asked for.
   *
   * @param wanted 1 for nodes that are wanted, row-major from the first row
   * @param reach a node farther than this from every station that it may use is NaN
   */
  rows(
    grid: Grid,
    [from, to]: readonly [from: number, to: number],
    wanted: Uint8Array,
    reach: number,
  ): ChosenValues {
    const values = this.nothingYet((to - from) * grid.columns)
    const block = nodeBlock(BLOCK * BLOCK)
    // Blocks stand on the grid, not on the rows asked for.
    for (let top = from - (from % BLOCK); top < to; top += BLOCK) {
      for (let left = 0; left < grid.columns; left += BLOCK) {
        const first = Math.max(from, top)
        const last = Math.min(to, top + BLOCK)
        const right = Math.min(grid.columns, left + BLOCK)
        this.chooser.face({
          west: nodeX(grid, left),
          east: nodeX(grid, right - 1),
          south: nodeY(grid, last - 1),
          north: nodeY(grid, first),
        })
        const sets = new Map<string, Shared>()
        block.count = 0
        for (let row = first; row < last; row++)
          for (let column = left; column < right; column++) {
            const target = (row - from) * grid.columns + column
            if (wanted[target] === 1)
              this.gather(sets, block, nodeX(grid, column), nodeY(grid, row), target, reach)
          }
        for (const set of sets.values()) this.estimate(set, block, values)
      }
    }
    return values
  }

  /**
   * Places in working units.
   *
   * @param allowed whether the place of a number may use the station of a number; all where absent
   */
  at(
    targets: { readonly x: Float64Array; readonly y: Float64Array },
    allowed?: (target: number, station: number) => boolean,
  ): ChosenValues {
    const { x, y } = targets
    const values = this.nothingYet(x.length)
    const block = nodeBlock(1)
    for (let i = 0; i < x.length; i++) {
      this.chooser.face({ west: x[i], east: x[i], south: y[i], north: y[i] })
      const sets = new Map<string, Shared>()
      block.count = 0
      this.gather(sets, block, x[i], y[i], i, Infinity, allowed && ((s) => allowed(i, s)))
      for (const set of sets.values()) this.estimate(set, block, values)
    }
    return values
  }

  /**
   * Each station from those of other groups that it may use.
   *
   * @param groups a group's number for each station; stations without duplicates
   */
  leftOut(groups: Int32Array): ChosenValues {
    const { points } = this.field
    const values = this.at(points, (target, station) => groups[station] !== groups[target])
    values.variance?.forEach((variance, i, all) => {
      const own = points.error?.[i] ?? 0
      if (own > 0) all[i] = variance + own * own
    })
    return values
  }

  private nothingYet(count: number): ChosenValues {
    return {
      estimate: new Float64Array(count).fill(NaN),
      variance: this.kriger ? new Float64Array(count).fill(NaN) : null,
    }
  }

  /** Adds a place to the block and to those that share its stations. */
  private gather(
    sets: Map<string, Shared>,
    block: NodeBlock,
    x: number,
    y: number,
    target: number,
    reach: number,
    allowed?: (station: number) => boolean,
  ): void {
    const { field, chooser } = this
    const u = toPlaneU(field, x, y)
    const v = toPlaneV(field, x, y)
    const { count, nearest } = chooser.choose(x, y, u, v, allowed)
    if (count < this.least) return
    // Nearest in the plane, which anisotropy bends: any chosen one within reach will do.
    if (reach < Infinity && !this.reaches(x, y, nearest, count, reach)) return
    const node = block.count++
    block.u[node] = u
    block.v[node] = v
    block.target[node] = target
    const members = chooser.members.subarray(0, count)
    const key = members.join()
    const set = sets.get(key)
    if (set) set.nodes.push(node)
    else sets.set(key, { members: members.slice(), nodes: [node] })
  }

  private reaches(x: number, y: number, nearest: number, count: number, reach: number): boolean {
    const { points } = this.field
    const near = (i: number) => Math.hypot(points.x[i] - x, points.y[i] - y) <= reach
    return near(nearest) || this.chooser.members.subarray(0, count).some(near)
  }

  private estimate({ members, nodes }: Shared, block: NodeBlock, out: ChosenValues): void {
    if (this.kriger && out.variance) {
      const kriged = { estimate: out.estimate, variance: out.variance }
      this.kriger.krigeFrom(members, block, Int32Array.from(nodes), kriged)
      return
    }
    for (const node of nodes)
      out.estimate[block.target[node]] = this.weigh(members, block.u[node], block.v[node])
  }

  /** The mean weighed by distance^−power; on a station its value. */
  private weigh(members: Int32Array, u: number, v: number): number {
    const { field, power } = this
    const { value } = field.points
    let least = Infinity
    for (const i of members) least = Math.min(least, (field.u[i] - u) ** 2 + (field.v[i] - v) ** 2)
    let sum = 0
    let weights = 0
    for (const i of members) {
      const squared = (field.u[i] - u) ** 2 + (field.v[i] - v) ** 2
      if (squared === 0) return value[i]
      // Relative to the nearest, so that a high power does not run out of exponents.
      const weight = (least / squared) ** (power / 2)
      sum += weight * value[i]
      weights += weight
    }
    return sum / weights
  }
}
