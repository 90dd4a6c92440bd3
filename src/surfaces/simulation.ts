/**
 * Sequential Gaussian simulation (Deutsch and Journel 1998, §V.2) on a multigrid path.
 *
 * All realisations walk the same path, so that a node's neighbours and weights are worked out
 * once and serve them all; each has its own stream of random numbers, so that a realisation is
 * the same whatever others are computed beside it.
 */
import { automaticVariogram } from './automatic-variogram'
import { backward, factorPacked, forward, packedLength } from './cholesky'
import { Crossing } from './crossing'
import { MOST_NODES_A_SIDE, nodeX, nodeY } from './grid'
import { prepareField, toPlaneU, toPlaneV, type KrigingField } from './kriging-field'
import type { Grid, Points, Variogram } from './model'
import { NeighbourIndex } from './neighbours'
import { normalScores } from './normal-scores'
import type { Box } from './piece-index'
import { mergeDuplicates } from './points'
import { normalStream, shuffle } from './random'
import { totalSill } from './variogram-models'

export interface SimulationOptions {
  /** Which realisations, from the first up to but without the second. */
  readonly realisations: readonly [from: number, to: number]
  /** A whole number; 1 where absent. */
  readonly seed?: number
  /** Most stations, and most earlier nodes, that a node is drawn from; 20 each where absent. */
  readonly neighbours?: number
  /** Straight pieces across which neither stations nor nodes are used; null or absent for none. */
  readonly barriers?: Float64Array | null
}

/** A level of the path. */
interface Level {
  /** Where on the path it ends. */
  readonly end: number
  /** Nodes from one of its to the next. */
  readonly step: number
  /** Steps to nodes that may stand before one. */
  readonly template: Int32Array
}

/** Most numbers that one call may hold. */
const MOST_NUMBERS = 100e6
/** Half the side of the square, in steps of the level, in which earlier nodes are sought. */
const SEARCH = 10

/**
 * Realisations of a standard normal field, conditioned on scores at stations.
 *
 * @param scores stations' normal scores; null for an unconditional field
 * @param variogram of the scores; its total sill should be 1
 * @returns one row-major array a realisation
 * @throws Error where more numbers are asked for than fit in memory
 */
export function simulateScores(
  scores: Points | null,
  variogram: Variogram,
  grid: Grid,
  options: SimulationOptions,
): Float32Array[] {
  const [from, to] = options.realisations
  const nodes = grid.columns * grid.rows
  if (!(nodes * (to - from) <= MOST_NUMBERS) || grid.columns > MOST_NODES_A_SIDE)
    throw new Error(
      `${to - from} realisations of ${nodes} nodes are too many to hold; choose a larger cell.`,
    )
  const walk = new SimulationWalk(scores, variogram, grid, options)
  const fields = Array.from({ length: to - from }, () => new Float32Array(nodes))
  walk.advance(fields, from, [0, nodes])
  return fields
}

/**
 * The path through a grid that every realisation takes, prepared once. It can be walked a stretch
 * at a time, so that a worker hears of Stop, and gives the same numbers however it is cut.
 */
export class SimulationWalk {
  private readonly field: KrigingField
  private readonly index: NeighbourIndex | null
  private readonly most: number
  private readonly crossing: Crossing | null
  private readonly seed: number
  /** The nodes in the order in which they are drawn, and each node's place in it. */
  private readonly path: Int32Array
  private readonly rank: Int32Array
  private readonly levels: Level[] = []
  /** The members of the current system in the plane; stations first, then nodes. */
  private readonly u: Float64Array
  private readonly v: Float64Array
  private readonly stations: Int32Array
  private readonly away: Float64Array
  private readonly nodes: Int32Array
  private stationCount = 0
  private nodeCount = 0
  private readonly squared: Float64Array
  private readonly matrix: Float64Array
  private readonly inverse: Float64Array
  private readonly weights: Float64Array
  private readonly whitened: Float64Array

  constructor(
    scores: Points | null,
    variogram: Variogram,
    private readonly grid: Grid,
    options: Omit<SimulationOptions, 'realisations'> = {},
  ) {
    const middle = {
      x: Float64Array.of(grid.west + (grid.columns * grid.cell) / 2),
      y: Float64Array.of(grid.north - (grid.rows * grid.cell) / 2),
      value: new Float64Array(1),
    }
    this.field = prepareField(scores ?? middle, variogram)
    this.index = scores ? new NeighbourIndex(this.field.u, this.field.v) : null
    this.most = options.neighbours ?? 20
    this.crossing = options.barriers ? new Crossing(options.barriers) : null
    this.seed = options.seed ?? 1
    this.path = new Int32Array(grid.columns * grid.rows)
    this.rank = new Int32Array(grid.columns * grid.rows).fill(-1)
    this.layPath()
    this.u = new Float64Array(2 * this.most)
    this.v = new Float64Array(2 * this.most)
    // Past those that a barrier hides others are sought.
    const sought = this.crossing ? Math.max(this.most, this.field.u.length) : this.most
    this.stations = new Int32Array(sought)
    this.away = new Float64Array(sought)
    this.nodes = new Int32Array(this.most)
    this.squared = new Float64Array(packedLength(2 * this.most))
    this.matrix = new Float64Array(packedLength(2 * this.most))
    this.inverse = new Float64Array(2 * this.most)
    this.weights = new Float64Array(2 * this.most)
    this.whitened = new Float64Array(2 * this.most)
  }

  /**
   * Draws a stretch of the path in some realisations.
   *
   * @param fields one row-major array a realisation, with the nodes before the stretch drawn
   * @param first number of the first of them
   * @param stretch places on the path, from the first up to but without the second
   */
  advance(
    fields: readonly Float32Array[],
    first: number,
    [from, to]: readonly [from: number, to: number],
  ): void {
    const draws = fields.map((_, r) => normalStream(this.seed, first + r, from))
    let level = this.levels.findIndex(({ end }) => end > from)
    for (let at = from; at < to; at++) {
      while (this.levels[level].end <= at) level++
      this.gather(this.path[at], at, this.levels[level])
      this.drawNode(this.path[at], fields, draws)
    }
  }

  /** Coarse levels first, each shuffled. */
  private layPath(): void {
    const { columns, rows } = this.grid
    let step = 1
    while (step * 8 < Math.max(columns, rows)) step *= 2
    let end = 0
    for (; step >= 1; step /= 2) {
      for (const node of this.levelPath(step)) {
        this.rank[node] = end
        this.path[end++] = node
      }
      this.levels.push({ end, step, template: this.templateOf(step) })
    }
  }

  /** The nodes of a level that no coarser level has, shuffled. */
  private levelPath(step: number): Int32Array {
    const { columns, rows } = this.grid
    const path: number[] = []
    for (let row = 0; row < rows; row += step)
      for (let column = 0; column < columns; column += step)
        if (this.rank[row * columns + column] < 0) path.push(row * columns + column)
    return shuffle(Int32Array.from(path), this.seed + step)
  }

  /** Steps to nodes of a level by distance in the plane: [rows, columns] a pair. */
  private templateOf(step: number): Int32Array {
    const { uu, uv, vu, vv } = this.field.plane
    const offsets: { row: number; column: number; distance: number }[] = []
    for (let row = -SEARCH; row <= SEARCH; row++) {
      for (let column = -SEARCH; column <= SEARCH; column++) {
        const distance = Math.hypot(uu * column - uv * row, vu * column - vv * row)
        if (row !== 0 || column !== 0) offsets.push({ row, column, distance })
      }
    }
    offsets.sort((a, b) => a.distance - b.distance || a.row - b.row || a.column - b.column)
    return Int32Array.from(offsets.flatMap(({ row, column }) => [row * step, column * step]))
  }

  /** Finds the stations and the earlier nodes that a node is drawn from. */
  private gather(node: number, at: number, { template, step }: Level): void {
    const { columns, rows } = this.grid
    const row = Math.floor(node / columns)
    const column = node % columns
    this.stationCount = 0
    this.nodeCount = 0
    const [u, v] = this.planeOf(row, column)
    if (this.index) {
      const { stations } = this
      this.stationCount = this.nearestSeen(this.index, node, u, v)
      for (let i = 0; i < this.stationCount; i++) {
        this.u[i] = this.field.u[stations[i]]
        this.v[i] = this.field.v[stations[i]]
      }
    }
    const [x, y] = [nodeX(this.grid, column), nodeY(this.grid, row)]
    const hides = this.facesAround(x, y, step)
    for (let t = 0; t < template.length && this.nodeCount < this.most; t += 2) {
      const r = row + template[t]
      const c = column + template[t + 1]
      if (r < 0 || c < 0 || r >= rows || c >= columns) continue
      const other = r * columns + c
      if (this.rank[other] >= at) continue
      if (hides?.crosses(x, y, nodeX(this.grid, c), nodeY(this.grid, r))) continue
      const place = this.stationCount + this.nodeCount
      const [nodeU, nodeV] = this.planeOf(r, c)
      this.u[place] = nodeU
      this.v[place] = nodeV
      this.nodes[this.nodeCount++] = other
    }
  }

  /** The nearest stations that no barrier hides from a node; gives their number. */
  private nearestSeen(index: NeighbourIndex, node: number, u: number, v: number): number {
    const { stations, away, most, crossing, grid } = this
    if (!crossing) return index.nearest(u, v, most, stations, away)
    const { x, y } = this.field.points
    const px = nodeX(grid, node % grid.columns)
    const py = nodeY(grid, Math.floor(node / grid.columns))
    for (let asked = most; ; asked *= 4) {
      const found = index.nearest(u, v, Math.min(asked, stations.length), stations, away)
      let seen = 0
      for (let i = 0; i < found && seen < most; i++) {
        const station = stations[i]
        const [sx, sy] = [x[station], y[station]]
        if (crossing.face(boxOf(px, py, sx, sy)) && crossing.crosses(px, py, sx, sy)) continue
        stations[seen++] = station
      }
      if (seen === most || found < asked) return seen
    }
  }

  /** The barriers among the earlier nodes of a place; null where there are none. */
  private facesAround(x: number, y: number, step: number): Crossing | null {
    if (!this.crossing) return null
    const wide = SEARCH * step * this.grid.cell
    return this.crossing.face(boxOf(x - wide, y - wide, x + wide, y + wide)) ? this.crossing : null
  }

  private planeOf(row: number, column: number): [u: number, v: number] {
    const x = nodeX(this.grid, column)
    const y = nodeY(this.grid, row)
    return [toPlaneU(this.field, x, y), toPlaneV(this.field, x, y)]
  }

  /** Draws a node in every realisation from simple kriging with mean 0. */
  private drawNode(
    node: number,
    fields: readonly Float32Array[],
    draws: readonly (() => number)[],
  ): void {
    const { weights, stations, nodes, stationCount, nodeCount } = this
    const spread = Math.sqrt(this.solve(node))
    const { value } = this.field.points
    let fixed = 0
    for (let i = 0; i < stationCount; i++) fixed += weights[i] * value[stations[i]]
    for (let r = 0; r < fields.length; r++) {
      const field = fields[r]
      let mean = fixed
      for (let i = 0; i < nodeCount; i++) mean += weights[stationCount + i] * field[nodes[i]]
      field[node] = mean + spread * draws[r]()
    }
  }

  /** Solves for the weights of the gathered members at a node; gives the simple kriging variance. */
  private solve(node: number): number {
    const { squared, matrix, inverse, weights, whitened, u, v } = this
    const { kernel, noise } = this.field
    const { columns } = this.grid
    const count = this.stationCount + this.nodeCount
    const [nodeU, nodeV] = this.planeOf(Math.floor(node / columns), node % columns)
    for (let i = 0, entry = 0; i < count; i++) {
      for (let j = 0; j <= i; j++) {
        const du = u[i] - u[j]
        const dv = v[i] - v[j]
        squared[entry++] = du * du + dv * dv
      }
    }
    kernel.fill(squared, matrix, packedLength(count))
    for (let i = 0; i < this.stationCount; i++)
      matrix[packedLength(i) + i] += noise[this.stations[i]]
    factorPacked(matrix, inverse, count)
    for (let i = 0; i < count; i++) squared[i] = (u[i] - nodeU) ** 2 + (v[i] - nodeV) ** 2
    kernel.fill(squared, whitened, count)
    forward(matrix, inverse, count, whitened)
    let explained = 0
    for (let i = 0; i < count; i++) {
      explained += whitened[i] ** 2
      weights[i] = whitened[i]
    }
    backward(matrix, inverse, count, weights)
    return Math.max(0, kernel.sill - explained)
  }
}

function boxOf(x: number, y: number, toX: number, toY: number): Box {
  return {
    west: Math.min(x, toX),
    south: Math.min(y, toY),
    east: Math.max(x, toX),
    north: Math.max(y, toY),
  }
}

/**
 * Realisations of a surface in the value's own unit: values to normal scores, simulated with the
 * scores' automatic variogram brought to a sill of 1, and back.
 *
 * @throws Error in words where the stations do not allow a variogram, or too much is asked for
 */
export function simulateSurface(
  input: Points,
  grid: Grid,
  options: SimulationOptions,
): Float32Array[] {
  const points = mergeDuplicates(input)
  const { scores, back } = normalScores(points.value)
  const scored: Points = { x: points.x, y: points.y, value: scores }
  const variogram = scoreVariogram(scored)
  return simulateScores(scored, variogram, grid, options).map((field) => field.map(back))
}

/**
 * The automatic variogram of normal scores, brought to a sill of 1.
 *
 * @param barriers pairs of stations that these part are not counted; null for none
 */
export function scoreVariogram(scored: Points, barriers: Float64Array | null = null): Variogram {
  const { variogram } = automaticVariogram(scored, 0, barriers)
  const total = totalSill(variogram)
  return {
    ...variogram,
    nugget: variogram.nugget / total,
    structures: variogram.structures.map((s) => ({ ...s, sill: s.sill / total })),
  }
}

/** The part of realisations that exceed a value at each node: the chance that it does. */
export function chanceAbove(realisations: readonly Float32Array[], value: number): Float64Array {
  const chance = new Float64Array(realisations[0]?.length ?? 0)
  for (const field of realisations)
    for (let node = 0; node < chance.length; node++) if (field[node] > value) chance[node]++
  return chance.map((count) => count / realisations.length)
}
