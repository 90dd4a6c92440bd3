/** Filled bands: where a surface lies between two levels, as polygons; and areas of one class. */
import { crossings, type Segments } from './contours'
import { nodeX, nodeY } from './grid'
import type { Grid } from './model'
import { linkRings, type Edges, type Ring } from './rings'

/** The ground on which a surface is at least `from` and below `to`. */
export interface FilledBand {
  /** Null for no lower end. */
  readonly from: number | null
  /** Null for no upper end. */
  readonly to: number | null
  /** With the band to their left: counterclockwise around it, clockwise around holes. */
  readonly rings: readonly Ring[]
}

/*
 * A vertex is numbered 5·node for the node itself, and on the edges to the east and to the south
 * of it + 1 and + 2 where the lower level crosses them, + 3 and + 4 where the upper one does.
 */
const LOWER = 1
const UPPER = 3

/**
 * Bands between levels, by the same cells, crossings and saddles as contours, whose lines are
 * their edges. Like those they reach from node to node: ground is covered where all four nodes
 * around it have a value. Beside a node an edge may be off by a hundredth of a cell.
 *
 * @param values row-major, row 0 the northernmost; NaN for none
 * @param levels of the edges; below the first and above the last there is a band too
 * @returns from the lowest up, without those that are nowhere
 */
export function filledBands(
  grid: Grid,
  values: Float64Array,
  levels: readonly number[],
): FilledBand[] {
  const ascending = [...new Set(levels)].sort((a, b) => a - b)
  const sides = rimOf(grid, values)
  const cut = (level: number | null) => (level === null ? null : crossings(grid, values, level))
  const bands: FilledBand[] = []
  let below: Segments | null = null
  for (let k = 0; k <= ascending.length; k++) {
    const from = k === 0 ? null : ascending[k - 1]
    const to = ascending[k] ?? null
    const above = cut(to)
    const edges: Edges = { from: [], to: [] }
    if (below) addLines(edges, below.from, below.to, LOWER)
    if (above) addLines(edges, above.to, above.from, UPPER)
    addRim(edges, sides, grid, values, [from, to])
    const place = placeOf(grid, values, from ?? 0, to ?? 0)
    const rings = linkRings(edges, place).flatMap((ring) => ringThrough(ring, place))
    if (rings.length > 0) bands.push({ from, to, rings })
    below = above
  }
  return bands
}

/** Grid edges of contour segments as vertices. */
function addLines(
  edges: Edges,
  from: readonly number[],
  to: readonly number[],
  offset: number,
): void {
  const vertex = (edge: number) => 5 * (edge >> 1) + offset + (edge & 1)
  for (let s = 0; s < from.length; s++) {
    edges.from.push(vertex(from[s]))
    edges.to.push(vertex(to[s]))
  }
}

/** Sides of whole cells beyond which there is none: nodes from and to, the cell to the left. */
function rimOf({ columns, rows }: Grid, values: Float64Array): Edges {
  const sides: Edges = { from: [], to: [] }
  const whole = (column: number, row: number): boolean => {
    if (column < 0 || row < 0 || column + 1 >= columns || row + 1 >= rows) return false
    const node = row * columns + column
    const sum =
      values[node] + values[node + 1] + values[node + columns] + values[node + columns + 1]
    return !Number.isNaN(sum)
  }
  const add = (from: number, to: number) => {
    sides.from.push(from)
    sides.to.push(to)
  }
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < columns; column++) {
      if (!whole(column, row)) continue
      const nw = row * columns + column
      const [ne, sw, se] = [nw + 1, nw + columns, nw + columns + 1]
      if (!whole(column - 1, row)) add(nw, sw)
      if (!whole(column, row + 1)) add(sw, se)
      if (!whole(column + 1, row)) add(se, ne)
      if (!whole(column, row - 1)) add(ne, nw)
    }
  }
  return sides
}

/** The parts of the rim on which values lie in a band. */
function addRim(
  edges: Edges,
  sides: Edges,
  { columns }: Grid,
  values: Float64Array,
  [from, to]: readonly [number | null, number | null],
): void {
  for (let s = 0; s < sides.from.length; s++) {
    const [a, b] = [sides.from[s], sides.to[s]]
    const least = Math.min(a, b)
    const south = Math.abs(a - b) === columns ? 1 : 0
    const crossed: number[] = []
    if (from !== null && values[a] >= from !== values[b] >= from)
      crossed.push(5 * least + LOWER + south)
    if (to !== null && values[a] >= to !== values[b] >= to) crossed.push(5 * least + UPPER + south)
    if (values[a] > values[b]) crossed.reverse()
    let inside = (from === null || values[a] >= from) && (to === null || values[a] < to)
    let before = 5 * a
    for (const vertex of [...crossed, 5 * b]) {
      if (inside) {
        edges.from.push(before)
        edges.to.push(vertex)
      }
      inside = !inside
      before = vertex
    }
  }
}

/** Crossings keep this part of a cell away from nodes, so that no ring touches itself there. */
const LEAST_PART = 0.01

/** Where a vertex lies, working units; crossings as contours have them but beside a node. */
function placeOf(grid: Grid, values: Float64Array, from: number, to: number) {
  return (vertex: number): readonly [number, number] => {
    const node = Math.floor(vertex / 5)
    const kind = vertex % 5
    const column = node % grid.columns
    const row = Math.floor(node / grid.columns)
    if (kind === 0) return [nodeX(grid, column), nodeY(grid, row)]
    const level = kind < UPPER ? from : to
    const south = kind === LOWER + 1 || kind === UPPER + 1
    const other = south ? node + grid.columns : node + 1
    const exact = (level - values[node]) / (values[other] - values[node])
    const part = Math.min(1 - LEAST_PART, Math.max(LEAST_PART, exact))
    return [nodeX(grid, column + (south ? 0 : part)), nodeY(grid, row + (south ? part : 0))]
  }
}

/** A ring without the points on straight runs along the grid; none where it encloses nothing. */
function ringThrough(
  vertices: readonly number[],
  place: (vertex: number) => readonly [number, number],
): Ring[] {
  const places = vertices.map(place)
  const corners = places.filter((here, i) => {
    const before = places[(i + places.length - 1) % places.length]
    const after = places[(i + 1) % places.length]
    const straight = (axis: 0 | 1) => before[axis] === here[axis] && here[axis] === after[axis]
    return !straight(0) && !straight(1)
  })
  if (corners.length < 3) return []
  return [
    {
      x: Float64Array.from(corners, ([x]) => x),
      y: Float64Array.from(corners, ([, y]) => y),
    },
  ]
}

/** The ground of one class number. */
export interface ClassArea {
  readonly code: number
  /** With the band to their left: counterclockwise around it, clockwise around holes. */
  readonly rings: readonly Ring[]
}

/** Areas of equal numbers, cell by cell: their edges are the cells' edges. By number ascending. */
export function classAreas(grid: Grid, codes: Float64Array): ClassArea[] {
  const { columns, rows } = grid
  const byCode = new Map<number, Edges>()
  const corner = (column: number, row: number) => row * (columns + 1) + column
  const codeAt = (column: number, row: number) =>
    column < 0 || row < 0 || column >= columns || row >= rows ? NaN : codes[row * columns + column]
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const code = codes[row * columns + column]
      if (Number.isNaN(code)) continue
      let edges = byCode.get(code)
      if (!edges) byCode.set(code, (edges = { from: [], to: [] }))
      const [nw, ne] = [corner(column, row), corner(column + 1, row)]
      const [sw, se] = [corner(column, row + 1), corner(column + 1, row + 1)]
      const side = (other: number, from: number, to: number) => {
        if (other === code) return
        edges.from.push(from)
        edges.to.push(to)
      }
      side(codeAt(column - 1, row), nw, sw)
      side(codeAt(column, row + 1), sw, se)
      side(codeAt(column + 1, row), se, ne)
      side(codeAt(column, row - 1), ne, nw)
    }
  }
  const place = (vertex: number): readonly [number, number] => [
    grid.west + (vertex % (columns + 1)) * grid.cell,
    grid.north - Math.floor(vertex / (columns + 1)) * grid.cell,
  ]
  return [...byCode]
    .sort(([a], [b]) => a - b)
    .map(([code, edges]) => ({
      code,
      rings: linkRings(edges, place).flatMap((ring) => ringThrough(ring, place)),
    }))
}
