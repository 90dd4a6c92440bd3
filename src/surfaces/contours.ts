/** Contour lines of a gridded surface with gaps, by marching squares, linked into whole lines. */
import type { Grid } from './model'

/** One line of equal value, in working coordinates. */
export interface Contour {
  readonly level: number
  readonly x: Float64Array
  readonly y: Float64Array
  /** Whether it returns to its start; the first point then stands at the end again. */
  readonly closed: boolean
}

/** Most levels that are drawn. */
export const MOST_LEVELS = 200

/**
 * Round levels that cut a range into about `wanted` steps of 1, 2, 2.5 or 5 times a power of ten;
 * those strictly inside the range. None where the range is too narrow for numbers of its size to
 * hold twelve digits of a level.
 */
export function niceLevels(min: number, max: number, wanted = 10): number[] {
  if (!(max > min) || !Number.isFinite(max - min)) return []
  const rough = (max - min) / wanted
  if (!(rough > 1e-12 * Math.max(Math.abs(min), Math.abs(max)))) return []
  const power = 10 ** Math.floor(Math.log10(rough))
  const step = [1, 2, 2.5, 5, 10].map((f) => f * power).find((s) => s >= rough * 0.999999)
  if (step === undefined) return []
  return levelsEvery(min, max, step) ?? []
}

/**
 * Whole multiples of an interval strictly inside a range; null where they are more than the
 * `MOST_LEVELS` that are drawn.
 *
 * @throws Error where the interval is not above 0
 */
export function levelsEvery(min: number, max: number, interval: number): number[] | null {
  if (!(interval > 0)) throw new Error(`A contour interval must be above 0; it is ${interval}.`)
  const levels: number[] = []
  if (!(max > min)) return levels
  if (!((max - min) / interval <= MOST_LEVELS)) return null
  // Twelve digits must tell a level from the next.
  if (!(interval > 1e-12 * Math.max(Math.abs(min), Math.abs(max)))) return levels
  for (let k = Math.floor(min / interval) + 1; k * interval < max; k++) {
    // Through text, so that a level is the number that people write.
    const level = Number((k * interval).toPrecision(12))
    if (level > min && level < max) levels.push(level)
  }
  return levels
}

/**
 * Contour lines through the nodes of a grid. A cell of four nodes with a gap (NaN) among them
 * holds none, so lines end at gaps. Saddles are cut by the mean of their four nodes. Higher
 * ground lies to the left of a line's direction.
 *
 * @param values row-major, row 0 the northernmost
 * @returns lines by level ascending, each level's in the order in which their first cell stands
 */
export function contours(
  grid: Grid,
  values: Float64Array | Float32Array,
  levels: readonly number[],
): Contour[] {
  if (levels.length > MOST_LEVELS)
    throw new Error(
      `${levels.length} contour levels are asked for; at most ${MOST_LEVELS} are drawn.`,
    )
  return [...levels]
    .sort((a, b) => a - b)
    .flatMap((level) => linesOf(grid, values, level, crossings(grid, values, level)))
}

/** Segments by the grid edges they run from and to. */
export interface Segments {
  readonly from: number[]
  readonly to: number[]
}

/**
 * Where a level crosses the cells. An edge between two nodes is numbered 2·node for the one to the
 * east of a node and 2·node + 1 for the one to the south of it.
 */
export function crossings(
  grid: Grid,
  values: Float64Array | Float32Array,
  level: number,
): Segments {
  const { columns, rows } = grid
  const from: number[] = []
  const to: number[] = []
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < columns; column++) {
      const node = row * columns + column
      const nw = values[node]
      const ne = values[node + 1]
      const sw = values[node + columns]
      const se = values[node + columns + 1]
      const sum = nw + ne + sw + se
      if (sum !== sum) continue
      const code =
        (nw >= level ? 8 : 0) |
        (ne >= level ? 4 : 0) |
        (se >= level ? 2 : 0) |
        (sw >= level ? 1 : 0)
      if (code === 0 || code === 15) continue
      const edges = [2 * node, 2 * (node + 1) + 1, 2 * (node + columns), 2 * node + 1]
      const sides = code === 5 || code === 10 ? saddle(code, sum / 4 >= level) : CUTS[code]
      for (let s = 0; s < sides.length; s += 2) {
        from.push(edges[sides[s]])
        to.push(edges[sides[s + 1]])
      }
    }
  }
  return { from, to }
}

const [N, E, S, W] = [0, 1, 2, 3]
/** Sides from and to, by which corners (north-west 8, north-east 4, south-east 2, south-west 1) are high. */
const CUTS: readonly (readonly number[])[] = [
  [],
  [S, W],
  [E, S],
  [E, W],
  [N, E],
  [],
  [N, S],
  [N, W],
  [W, N],
  [S, N],
  [],
  [E, N],
  [W, E],
  [S, E],
  [W, S],
  [],
]

/** Two opposite corners high: the middle says whether they are joined. */
function saddle(code: number, joined: boolean): readonly number[] {
  if (code === 5) return joined ? [N, W, S, E] : [N, E, S, W]
  return joined ? [E, N, W, S] : [W, N, E, S]
}

/** Links segments end to start: each edge is left once and reached once at most. */
function linesOf(
  grid: Grid,
  values: Float64Array | Float32Array,
  level: number,
  segments: Segments,
): Contour[] {
  const leaving = new Map<number, number>()
  const arriving = new Set<number>(segments.to)
  segments.from.forEach((edge, s) => leaving.set(edge, s))
  const used = new Uint8Array(segments.from.length)
  const lines: { first: number; line: Contour }[] = []
  const follow = (start: number) => {
    const edges = [segments.from[start]]
    let first = start
    for (let s: number | undefined = start; s !== undefined && !used[s];) {
      used[s] = 1
      first = Math.min(first, s)
      edges.push(segments.to[s])
      s = leaving.get(segments.to[s])
    }
    const line = lineThrough(grid, values, level, edges)
    if (line) lines.push({ first, line })
  }
  segments.from.forEach((edge, s) => {
    if (!arriving.has(edge)) follow(s)
  })
  used.forEach((_, s) => {
    if (!used[s]) follow(s)
  })
  return lines.sort((a, b) => a.first - b.first).map(({ line }) => line)
}

/** The points of a chain of edges, repeated ones left out; null where one point is left. */
function lineThrough(
  grid: Grid,
  values: Float64Array | Float32Array,
  level: number,
  edges: readonly number[],
): Contour | null {
  const x: number[] = []
  const y: number[] = []
  for (const edge of edges) {
    const node = edge >> 1
    const other = edge & 1 ? node + grid.columns : node + 1
    const part = (level - values[node]) / (values[other] - values[node])
    const column = (node % grid.columns) + (edge & 1 ? 0 : part)
    const row = Math.floor(node / grid.columns) + (edge & 1 ? part : 0)
    const px = grid.west + (column + 0.5) * grid.cell
    const py = grid.north - (row + 0.5) * grid.cell
    if (x.length > 0 && x[x.length - 1] === px && y[y.length - 1] === py) continue
    x.push(px)
    y.push(py)
  }
  if (x.length < 2) return null
  const closed = edges[0] === edges[edges.length - 1]
  return { level, x: Float64Array.from(x), y: Float64Array.from(y), closed }
}
