/**
 * A surface before all of its nodes are known: which nodes come first, and a small picture of it
 * that is filled as tiles arrive.
 */
import type { SurfaceTile } from './tiles'
import type { Grid, SurfaceBands } from './model'

/** Up to so many nodes a surface is computed at once, without a coarse picture before it. */
export const AT_ONCE = 20_000
/** The coarsest pass has at most so many nodes: a few tiles. */
const COARSE_NODES = 16_000
/** From one pass that comes before all nodes to the next the step is divided by this. */
const REFINEMENT = 4
/** Most nodes along a side of the picture that is filled while tiles arrive. */
const PICTURE_SIDE = 640

/**
 * Steps of the passes before the full one, coarsest first: a pass of step 8 has every 8th node of
 * every 8th row. None where the surface is small. Together they cost at most a few per cent.
 */
export function coarseSteps({ columns, rows }: Grid): number[] {
  if (columns * rows <= AT_ONCE) return []
  let step = 4
  while (Math.ceil(columns / step) * Math.ceil(rows / step) > COARSE_NODES) step *= 2
  const steps = [step]
  for (step /= REFINEMENT; step >= 8; step /= REFINEMENT) steps.push(step)
  return steps
}

/**
 * The grid of every step-th node, whose nodes stand on nodes of the grid; where the step does not
 * divide the grid its last nodes may stand up to half a step outside.
 */
export function everyNode({ west, north, cell, columns, rows }: Grid, step: number): Grid {
  const toNode = (Math.floor(step / 2) + 0.5) * cell
  const toEdge = (step * cell) / 2
  return {
    west: west + toNode - toEdge,
    north: north - toNode + toEdge,
    cell: step * cell,
    columns: Math.ceil(columns / step),
    rows: Math.ceil(rows / step),
  }
}

/** The step that leaves at most `most` nodes along the longer side. */
export function stepFor({ columns, rows }: Grid, most: number): number {
  return Math.max(1, Math.ceil(Math.max(columns, rows) / most))
}

/** Row-major values at every step-th node, as `everyNode` has them. */
export function everyValue(grid: Grid, values: Float64Array, step: number): Float64Array {
  const { columns, rows } = everyNode(grid, step)
  const out = new Float64Array(columns * rows)
  for (let row = 0; row < rows; row++)
    takeRow(grid, values, nodeAt(row, step, grid.rows) * grid.columns, step, out, row * columns)
  return out
}

function nodeAt(index: number, step: number, count: number): number {
  return Math.min(count - 1, index * step + Math.floor(step / 2))
}

function takeRow(
  { columns }: Grid,
  values: Float64Array,
  start: number,
  step: number,
  out: Float64Array,
  at: number,
): void {
  const count = Math.ceil(columns / step)
  for (let i = 0; i < count; i++) out[at + i] = values[start + nodeAt(i, step, columns)]
}

/** A picture of at most 640 nodes a side: first of coarse passes, then of the rows that are done. */
export class Picture {
  /** Nodes of the surface from one of the picture to the next. */
  readonly step: number
  readonly grid: Grid
  readonly #estimate: Float64Array
  readonly #variance: Float64Array | null
  /** 1 for nodes that hold final values. */
  readonly #done: Uint8Array

  constructor(
    private readonly fine: Grid,
    hasVariance: boolean,
  ) {
    this.step = stepFor(fine, PICTURE_SIDE)
    this.grid = everyNode(fine, this.step)
    const nodes = this.grid.columns * this.grid.rows
    this.#estimate = new Float64Array(nodes).fill(NaN)
    this.#variance = hasVariance ? new Float64Array(nodes).fill(NaN) : null
    this.#done = new Uint8Array(nodes)
  }

  /** Takes the nearest node of a coarse pass wherever there is no final value yet. */
  spread(coarse: SurfaceBands): void {
    const { grid, step } = this
    const wide = coarse.grid.cell / this.fine.cell
    const nearest = (index: number, count: number, most: number) =>
      Math.min(most - 1, Math.floor(nodeAt(index, step, count) / wide))
    const columns = Int32Array.from({ length: grid.columns }, (_, i) =>
      nearest(i, this.fine.columns, coarse.grid.columns),
    )
    for (let row = 0; row < grid.rows; row++) {
      const from = nearest(row, this.fine.rows, coarse.grid.rows) * coarse.grid.columns
      for (let column = 0; column < grid.columns; column++) {
        const at = row * grid.columns + column
        if (this.#done[at]) continue
        this.#estimate[at] = coarse.estimate[from + columns[column]]
        if (this.#variance && coarse.variance)
          this.#variance[at] = coarse.variance[from + columns[column]]
      }
    }
  }

  /** Takes the nodes of a tile that stand in the picture. */
  take({ from, to, left, right, estimate, variance }: SurfaceTile): void {
    const { grid, step, fine } = this
    for (let row = Math.max(0, Math.floor((from - step) / step)); row < grid.rows; row++) {
      const node = nodeAt(row, step, fine.rows)
      if (node >= to) break
      if (node < from) continue
      const start = (node - from) * (right - left) - left
      for (let column = 0; column < grid.columns; column++) {
        const across = nodeAt(column, step, fine.columns)
        if (across < left || across >= right) continue
        const at = row * grid.columns + column
        this.#estimate[at] = estimate[start + across]
        if (this.#variance && variance) this.#variance[at] = variance[start + across]
        this.#done[at] = 1
      }
    }
  }

  /** The picture as it stands, a copy. */
  bands(): SurfaceBands {
    return {
      grid: this.grid,
      estimate: this.#estimate.slice(),
      variance: this.#variance?.slice() ?? null,
    }
  }
}

/** Joins tiles as they arrive, in whatever order, so that no moment has to copy them all. */
export class TileJoiner {
  readonly #estimate: Float64Array
  readonly #variance: Float64Array | null
  readonly #given: Uint8Array

  constructor(
    private readonly name: string,
    private readonly grid: Grid,
    hasVariance: boolean,
  ) {
    this.#estimate = new Float64Array(grid.columns * grid.rows)
    this.#variance = hasVariance ? new Float64Array(this.#estimate.length) : null
    this.#given = new Uint8Array(this.#estimate.length)
  }

  /** @throws Error where one of its nodes was given before */
  add({ from, to, left, right, estimate, variance }: SurfaceTile): void {
    const width = right - left
    for (let row = from; row < to; row++) {
      const at = row * this.grid.columns + left
      if (this.#given.subarray(at, at + width).includes(1))
        throw new Error(`Nodes of row ${row} of "${this.name}" are given twice.`)
      this.#given.fill(1, at, at + width)
      const start = (row - from) * width
      this.#estimate.set(estimate.subarray(start, start + width), at)
      if (this.#variance && variance)
        this.#variance.set(variance.subarray(start, start + width), at)
    }
  }

  /** @throws Error where nodes are missing */
  bands(): SurfaceBands {
    const missing = this.#given.indexOf(0)
    const row = Math.floor(missing / this.grid.columns)
    if (missing >= 0) throw new Error(`Row ${row} of "${this.name}" was not computed.`)
    return { grid: this.grid, estimate: this.#estimate, variance: this.#variance }
  }
}
