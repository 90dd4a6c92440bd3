/** The quickest ways from a spot over the ground: least-cost paths on a grid (Dijkstra 1959). */
import type { Grid } from '../surfaces/model'
import { TimeQueue } from './time-queue'
import { toblerSpeed } from './walking'

/** The ground that is walked on. */
export interface WalkGrid {
  readonly grid: Grid
  /** Metres, one a node, row-major; NaN where nobody walks: outside the terrain or what is avoided. */
  readonly elevation: Float64Array
  /** Of the working unit. */
  readonly metresPerUnit: number
  /** Part of the speed on a path. */
  readonly pace: number
  /** Slopes beyond this are not walked, rise over run. */
  readonly steepest: number
}

/** The quickest ways from one node to all others. */
export interface Ways {
  readonly source: number
  /** One a node; Infinity where there is no way. */
  readonly seconds: Float64Array
  /** The node before each on its way; -1 for the source and where there is none. */
  readonly before: Int32Array
}

/**
 * Steps to the sixteen nodes of the first ring and of a knight's move: directions are met within
 * 13°, and flat ways are at most 2.8 % too long.
 */
const STEPS = [
  [1, 0],
  [1, 1],
  [0, 1],
  [-1, 1],
  [-1, 0],
  [-1, -1],
  [0, -1],
  [1, -1],
  [2, 1],
  [1, 2],
  [-1, 2],
  [-2, 1],
  [-2, -1],
  [-1, -2],
  [1, -2],
  [2, -1],
] as const

/** The quickest ways from a node, walking towards the others. */
export function waysFrom(ground: WalkGrid, source: number): Ways {
  const { elevation } = ground
  const { offsets, times } = stepsOf(ground)
  const seconds = new Float64Array(elevation.length).fill(Infinity)
  const before = new Int32Array(elevation.length).fill(-1)
  if (Number.isNaN(elevation[source])) return { source, seconds, before }
  const queue = new TimeQueue()
  seconds[source] = 0
  queue.push(source, 0)
  for (let node = queue.pop(); node >= 0; node = queue.pop()) {
    const now = seconds[node]
    if (queue.poppedAt > now) continue
    for (let step = 0; step < offsets.length; step++) {
      const then = now + times[node * offsets.length + step]
      const to = node + offsets[step]
      if (!(then < seconds[to])) continue
      seconds[to] = then
      before[to] = node
      queue.push(to, then)
    }
  }
  return { source, seconds, before }
}

/** All steps of a ground. */
interface Steps {
  /** What each of the sixteen adds to a node's number. */
  readonly offsets: Int32Array
  /** Sixteen a node: seconds; infinite over the edge and over ground that nobody walks. */
  readonly times: Float64Array
}

const known = new WeakMap<WalkGrid, Steps>()

/** Worked out once a ground: ways are sought from many of its nodes. */
function stepsOf(ground: WalkGrid): Steps {
  let steps = known.get(ground)
  if (!steps) known.set(ground, (steps = workedOut(ground)))
  return steps
}

function workedOut(ground: WalkGrid): Steps {
  const { grid, elevation } = ground
  const times = new Float64Array(elevation.length * STEPS.length)
  for (let node = 0, at = 0; node < elevation.length; node++) {
    const column = node % grid.columns
    const row = (node - column) / grid.columns
    for (const [right, down] of STEPS) {
      const to = nodeAt(grid, column + right, row + down)
      times[at++] = to < 0 ? Infinity : stepSeconds(ground, node, to, right, down)
    }
  }
  return { offsets: Int32Array.from(STEPS, ([right, down]) => down * grid.columns + right), times }
}

function nodeAt({ columns, rows }: Grid, column: number, row: number): number {
  return column >= 0 && column < columns && row >= 0 && row < rows ? row * columns + column : -1
}

/** Infinite over ground that nobody walks. */
function stepSeconds(
  { grid, elevation, metresPerUnit, pace, steepest }: WalkGrid,
  from: number,
  to: number,
  right: number,
  down: number,
): number {
  if (right * right + down * down === 5) {
    // A knight's move passes between two nodes of the first ring: neither may be closed.
    const [x, y] = [Math.trunc(right / 2), Math.trunc(down / 2)]
    const [sideX, sideY] = [Math.sign(right), Math.sign(down)]
    const straight = from + y * grid.columns + x
    const aslant = from + sideY * grid.columns + sideX
    if (Number.isNaN(elevation[straight]) || Number.isNaN(elevation[aslant])) return Infinity
  }
  const run = Math.hypot(right, down) * grid.cell * metresPerUnit
  const slope = (elevation[to] - elevation[from]) / run
  if (!(Math.abs(slope) <= steepest)) return Infinity
  return run / (toblerSpeed(slope) * pace)
}

/** The nodes of the way to one, the source first; empty where there is none. */
export function wayTo({ seconds, before }: Ways, node: number): number[] {
  if (!Number.isFinite(seconds[node])) return []
  const nodes: number[] = []
  for (let at = node; at >= 0; at = before[at]) nodes.push(at)
  return nodes.reverse()
}

/** Metres walked, and climbed and descended, along nodes. */
export function lengthOf(
  { grid, elevation, metresPerUnit }: WalkGrid,
  nodes: readonly number[],
): { readonly distance: number; readonly climb: number; readonly descent: number } {
  let distance = 0
  let climb = 0
  let descent = 0
  for (let i = 1; i < nodes.length; i++) {
    const [a, b] = [nodes[i - 1], nodes[i]]
    const right = (b % grid.columns) - (a % grid.columns)
    const down = Math.floor(b / grid.columns) - Math.floor(a / grid.columns)
    const rise = elevation[b] - elevation[a]
    distance += Math.hypot(right, down) * grid.cell * metresPerUnit
    if (rise > 0) climb += rise
    else descent -= rise
  }
  return { distance, climb, descent }
}

/** The node nearest to a place; -1 outside the grid. */
export function nearestNode(
  { west, north, cell, columns, rows }: Grid,
  x: number,
  y: number,
): number {
  const column = Math.floor((x - west) / cell)
  const row = Math.floor((north - y) / cell)
  return nodeAt({ west, north, cell, columns, rows }, column, row)
}
