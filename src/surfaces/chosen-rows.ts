/** Surfaces and their testing where each place's stations are chosen (see `chosen-neighbours.ts`). */
import {
  NeighbourChooser,
  placedBlock,
  type Choice,
  type ChoiceNeeds,
  type PlacedBlock,
} from './chosen-neighbours'
import { meanFunctions } from './external-drift'
import { nodeX, nodeY } from './grid'
import { Kriger, type Targets } from './kriging'
import { blockSide, prepareField, toPlaneU, toPlaneV, type KrigingField } from './kriging-field'
import type { Grid, Points, Variogram } from './model'
import type { NodeBlock, NodeSets } from './node-sets'
import type { TrendDegree } from './trend'

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
  /** f·ν, with ν Lagrange's multipliers; of kriging. */
  readonly lagrange?: Float64Array
}

/** What `wanted` is of a node that there was no time for. */
export const PASSED_OVER = 2

/** Any model serves where there is none: only distances are wanted of it. */
const ISOTROPIC: Variogram = { nugget: 1, structures: [] }

/** Stations prepared for many places. */
export class ChosenEstimator {
  private readonly field: KrigingField
  private readonly chooser: NeighbourChooser
  private readonly kriger: Kriger | null
  private readonly least: number
  private readonly power: number
  private readonly members: Int32Array
  /** Blocks, and parts of them, that the last rows have computed. */
  private visited = 0

  /** @throws Error in words where points, model or choice cannot be used */
  constructor(input: Points, method: ChosenMethod, choice: Choice) {
    const kriging = method.method === 'kriging'
    this.field = prepareField(input, kriging ? method.variogram : ISOTROPIC)
    const { x, y } = this.field.points
    this.chooser = new NeighbourChooser({ x, y, u: this.field.u, v: this.field.v }, choice)
    const trend = kriging ? (method.trend ?? 0) : 0
    this.least = kriging ? meanFunctions(this.field.points, trend) : 1
    this.kriger = kriging
      ? new Kriger(this.field, { neighbours: Math.max(this.chooser.most, this.least), trend })
      : null
    this.power = kriging ? 0 : (method.power ?? 2)
    this.members = new Int32Array(this.chooser.most)
  }

  /**
   * The nodes of some rows. A node's numbers do not depend on the rows asked for.
   *
   * @param wanted 1 for nodes that are wanted, row-major from the first row
   * @param reach a node farther than this from every station that it may use is NaN
   * @param drift the external drift at the nodes of the rows, where stations have one
   * @param isOver whether time is up; asked once something is computed. Nodes that are then passed
   *   over are no longer `wanted`, but 2
   */
  rows(
    grid: Grid,
    [from, to]: readonly [from: number, to: number],
    wanted: Uint8Array,
    reach: number,
    drift: Float64Array | null = null,
    isOver: () => boolean = () => false,
  ): ChosenValues {
    if (this.kriger) this.kriger.driftAtTargets = drift
    const values = this.nothingYet((to - from) * grid.columns)
    this.visited = 0
    const limit = {
      isOver: () => this.visited > 0 && isOver(),
      passOver: ({ target, count }: NodeBlock) => {
        for (let node = 0; node < count; node++) wanted[target[node]] = PASSED_OVER
      },
    }
    const side = blockSide(this.field, this.chooser.most, grid.cell)
    const block = placedBlock(side * side)
    for (let top = from; top < to; top += side) {
      for (let left = 0; left < grid.columns; left += side) {
        block.count = 0
        for (let row = top; row < Math.min(to, top + side); row++)
          for (let column = left; column < Math.min(grid.columns, left + side); column++) {
            const target = (row - from) * grid.columns + column
            if (wanted[target] === 1) this.add(block, nodeX(grid, column), nodeY(grid, row), target)
          }
        this.estimate(block, { least: this.least, reach, limit }, values)
      }
    }
    return values
  }

  /**
   * Places in working units.
   *
   * @param allowed whether the place of a number may use the station of a number; all where absent
   */
  at(targets: Targets, allowed?: (target: number, station: number) => boolean): ChosenValues {
    const { x, y } = targets
    if (this.kriger) this.kriger.driftAtTargets = targets.drift ?? null
    const values = this.nothingYet(x.length)
    const block = placedBlock(1)
    for (let i = 0; i < x.length; i++) {
      block.count = 0
      this.add(block, x[i], y[i], i)
      const needs = { least: this.least, reach: Infinity }
      this.estimate(block, allowed ? { ...needs, allowed: (s) => allowed(i, s) } : needs, values)
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
    const gaps = () => new Float64Array(count).fill(NaN)
    if (!this.kriger) return { estimate: gaps(), variance: null }
    return { estimate: gaps(), variance: gaps(), lagrange: gaps() }
  }

  private add(block: PlacedBlock, x: number, y: number, target: number): void {
    block.x[block.count] = x
    block.y[block.count] = y
    block.u[block.count] = toPlaneU(this.field, x, y)
    block.v[block.count] = toPlaneV(this.field, x, y)
    block.target[block.count++] = target
  }

  private estimate(block: PlacedBlock, needs: ChoiceNeeds, out: ChosenValues): void {
    const { kriger, chooser } = this
    const { estimate, variance, lagrange } = out
    chooser.visit(block, needs, (sets, nodes) => {
      this.visited++
      if (kriger && variance) kriger.krigeSets(sets, nodes, { estimate, variance, lagrange })
      else this.weighSets(sets, nodes, estimate)
    })
  }

  private weighSets(sets: NodeSets, block: NodeBlock, out: Float64Array): void {
    for (let set = 0; set < sets.setCount; set++) {
      const count = sets.membersOf(set, this.members)
      for (let i = 0; i < count; i++) this.members[i] = sets.candidates[this.members[i]]
      const members = this.members.subarray(0, count)
      for (let n = sets.starts[set]; n < sets.starts[set + 1]; n++) {
        const node = sets.nodes[n]
        out[block.target[node]] = this.weigh(members, block.u[node], block.v[node])
      }
    }
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
