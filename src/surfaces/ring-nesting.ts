/** Which hole lies in which ring, fast enough for a hundred thousand of them. */
import { ringArea, type Ring } from './rings'

/** A polygon: a counterclockwise ring around it, and clockwise ones around its holes. */
export interface PolygonRings {
  readonly outer: Ring
  readonly holes: readonly Ring[]
}

type Box = readonly [west: number, south: number, east: number, north: number]

interface Outer {
  readonly ring: Ring
  readonly area: number
  readonly box: Box
  readonly holes: Ring[]
  /** Made when it is first asked for. */
  edges: EdgeRows | null
}

/**
 * Polygons of rings that do not cross: each hole in the smallest counterclockwise ring around it.
 * The largest polygon comes first.
 */
export function polygonsOf(rings: readonly Ring[]): PolygonRings[] {
  const measured = rings.map((ring) => ({ ring, area: ringArea(ring) }))
  const outers = measured
    .filter(({ area }) => area > 0)
    .sort((a, b) => a.area - b.area)
    .map((each): Outer => ({ ...each, box: boxOf(each.ring), holes: [], edges: null }))
  const near = buckets(outers)
  for (const { ring, area } of measured) {
    if (!(area < 0)) continue
    // A hole may touch its outer ring in a corner, never along an edge.
    const x = (ring.x[0] + ring.x[1]) / 2
    const y = (ring.y[0] + ring.y[1]) / 2
    near(x, y)
      .find((outer) => outer.area > -area && isInside(outer, x, y))
      ?.holes.push(ring)
  }
  return outers.reverse().map(({ ring, holes }) => ({ outer: ring, holes }))
}

/** Most squares along a side that rings are sorted into. */
const MOST_BUCKETS = 256

/** The rings whose boxes touch the square in which a place lies, the smallest first. */
function buckets(ascending: readonly Outer[]): (x: number, y: number) => readonly Outer[] {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const { box } of ascending) {
    west = Math.min(west, box[0])
    south = Math.min(south, box[1])
    east = Math.max(east, box[2])
    north = Math.max(north, box[3])
  }
  const side = Math.min(MOST_BUCKETS, Math.ceil(Math.sqrt(ascending.length)))
  const slot = (value: number, from: number, to: number) =>
    Math.min(side - 1, Math.max(0, Math.floor(((value - from) / (to - from)) * side) || 0))
  const lists: Outer[][] = Array.from({ length: side * side }, () => [])
  for (const outer of ascending) {
    const [left, right] = [slot(outer.box[0], west, east), slot(outer.box[2], west, east)]
    const [bottom, top] = [slot(outer.box[1], south, north), slot(outer.box[3], south, north)]
    for (let row = bottom; row <= top; row++)
      for (let column = left; column <= right; column++) lists[row * side + column].push(outer)
  }
  return (x, y) => lists[slot(y, south, north) * side + slot(x, west, east)] ?? []
}

function boxOf({ x, y }: Ring): Box {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity]
  for (let i = 0; i < x.length; i++) {
    west = Math.min(west, x[i])
    east = Math.max(east, x[i])
    south = Math.min(south, y[i])
    north = Math.max(north, y[i])
  }
  return [west, south, east, north]
}

/** Even–odd rule. */
function isInside(outer: Outer, px: number, py: number): boolean {
  const [west, south, east, north] = outer.box
  if (px < west || px > east || py < south || py > north) return false
  const { x, y } = outer.ring
  outer.edges ??= edgeRows(outer.ring, south, north)
  let inside = false
  for (const i of outer.edges.at(py)) {
    const j = i === 0 ? x.length - 1 : i - 1
    if (y[i] > py !== y[j] > py && px < x[i] + ((py - y[i]) / (y[j] - y[i])) * (x[j] - x[i]))
      inside = !inside
  }
  return inside
}

/** A ring's edges by the rows that they touch; an edge ends at the corner of its number. */
interface EdgeRows {
  at(y: number): readonly number[]
}

/** Corners a row, about. */
const CORNERS_A_ROW = 4

function edgeRows({ y }: Ring, south: number, north: number): EdgeRows {
  const count = Math.max(1, Math.ceil(y.length / CORNERS_A_ROW))
  const slot = (value: number) =>
    Math.min(count - 1, Math.max(0, Math.floor(((value - south) / (north - south)) * count)))
  const rows: number[][] = Array.from({ length: count }, () => [])
  for (let i = 0, j = y.length - 1; i < y.length; j = i++) {
    const [a, b] = [slot(y[i]), slot(y[j])]
    for (let row = Math.min(a, b); row <= Math.max(a, b); row++) rows[row].push(i)
  }
  return { at: (value) => rows[slot(value)] }
}
