/** Two drill holes: where they start, how they bend, and the core intervals scanned. */
import type { GroundPoint } from './place'
import type { Spot } from './sampling'
import { heightAt } from './terrain'

/** A downhole survey: depth along the hole in metres, azimuth from north and dip below the horizon. */
interface Survey {
  readonly depth: number
  readonly azimuth: number
  /** Degrees, negative downward. */
  readonly dip: number
}

export interface Hole {
  readonly name: string
  readonly collar: GroundPoint
  readonly length: number
  readonly surveys: readonly Survey[]
}

/** One hole through the lithocap and one from the white mica toward it. */
export const HOLES: readonly Hole[] = [
  {
    name: 'VDH01',
    collar: { x: 473002.4, y: 7245612.8 },
    length: 282,
    surveys: [
      { depth: 0, azimuth: 250, dip: -78 },
      { depth: 60, azimuth: 250.8, dip: -77.4 },
      { depth: 120, azimuth: 252.1, dip: -76.2 },
      { depth: 180, azimuth: 253.9, dip: -75.1 },
      { depth: 240, azimuth: 255.2, dip: -73.8 },
      { depth: 282, azimuth: 256, dip: -73.1 },
    ],
  },
  {
    name: 'VDH02',
    collar: { x: 473420.1, y: 7245420.6 },
    length: 240,
    surveys: [
      { depth: 0, azimuth: 288, dip: -58 },
      { depth: 60, azimuth: 288.9, dip: -57.1 },
      { depth: 120, azimuth: 290.4, dip: -55.9 },
      { depth: 180, azimuth: 291.2, dip: -54.2 },
      { depth: 240, azimuth: 292.7, dip: -52.8 },
    ],
  },
]

/** Metres of core a scan. */
const INTERVAL = 6

/** One spot at the middle of each interval, from 3 m down. */
export function coreSpots(hole: Hole): Spot[] {
  const count = Math.floor((hole.length - 3) / INTERVAL)
  return Array.from({ length: count }, (_, i) => {
    const from = 3 + i * INTERVAL
    const middle = from + INTERVAL / 2
    const { east, north, down } = offsetAt(hole, middle)
    const point = { x: hole.collar.x + east, y: hole.collar.y + north }
    const height = heightAt(hole.collar) - down
    return {
      name: `${hole.name} ${from}-${from + INTERVAL}`,
      point,
      height,
      support: 'core' as const,
      target: 'matrix' as const,
      hole: hole.name,
      from,
      to: from + INTERVAL,
      depth: Math.max(0, heightAt(point) - height),
      arrival: null,
    }
  })
}

interface Offset {
  readonly east: number
  readonly north: number
  readonly down: number
}

/** Metres from the collar, by minimum curvature between surveys (Taylor and Mason 1972). */
function offsetAt(hole: Hole, depth: number): Offset {
  let sum: Offset = { east: 0, north: 0, down: 0 }
  for (let i = 0; i + 1 < hole.surveys.length && hole.surveys[i].depth < depth; i++) {
    const a = hole.surveys[i]
    const b = between(a, hole.surveys[i + 1], Math.min(depth, hole.surveys[i + 1].depth))
    const [u, v] = [direction(a), direction(b)]
    const bend = Math.acos(Math.min(1, u[0] * v[0] + u[1] * v[1] + u[2] * v[2]))
    const ratio = bend < 1e-9 ? 1 : (2 / bend) * Math.tan(bend / 2)
    const half = ((b.depth - a.depth) / 2) * ratio
    sum = {
      east: sum.east + half * (u[0] + v[0]),
      north: sum.north + half * (u[1] + v[1]),
      down: sum.down + half * (u[2] + v[2]),
    }
  }
  return sum
}

/** Angles at a depth between two surveys; linear, which at bends of 2° differs by millimetres. */
function between(a: Survey, b: Survey, depth: number): Survey {
  const t = (depth - a.depth) / (b.depth - a.depth)
  return {
    depth,
    azimuth: a.azimuth + t * (b.azimuth - a.azimuth),
    dip: a.dip + t * (b.dip - a.dip),
  }
}

/** Unit vector east, north, down. */
function direction({ azimuth, dip }: Survey): [number, number, number] {
  const a = (azimuth * Math.PI) / 180
  const d = (dip * Math.PI) / 180
  return [Math.cos(d) * Math.sin(a), Math.cos(d) * Math.cos(a), -Math.sin(d)]
}
