/** Six walked days across the area. */
import type { Target } from '../../src/places/station'
import { chanceFor } from './chance'
import type { GroundPoint } from './place'
import type { Spot } from './sampling'
import { heightAt } from './terrain'

/** A day's walk: its letter, its corners, how many stations, when it began (UTC). */
export interface Walk {
  readonly letter: string
  readonly corners: readonly GroundPoint[]
  readonly stations: number
  readonly start: number
}

const day = (date: number): number => Date.UTC(2024, 4, date, 11, 50, 0) / 1000

const corners = (...pairs: [number, number][]): GroundPoint[] =>
  pairs.map(([x, y]) => ({ x: 471000 + x, y: 7244000 + y }))

/** The walks, one a day. Their corners are metres from the area's south-west corner. */
export const WALKS: readonly Walk[] = [
  {
    letter: 'A',
    corners: corners([250, 2650], [1100, 2480], [1900, 2620], [2700, 2470], [3750, 2600]),
    stations: 22,
    start: day(6),
  },
  {
    letter: 'B',
    corners: corners([3800, 2120], [3000, 1960], [2300, 2130], [1500, 1950], [300, 2120]),
    stations: 25,
    start: day(7),
  },
  {
    letter: 'C',
    corners: corners([220, 1620], [1100, 1480], [1750, 1640], [2500, 1500], [3780, 1600]),
    stations: 28,
    start: day(8),
  },
  {
    letter: 'D',
    corners: corners([3820, 1100], [2900, 1000], [2200, 1160], [1500, 1010], [520, 1150]),
    stations: 27,
    start: day(9),
  },
  {
    letter: 'E',
    corners: corners([1150, 520], [1800, 620], [2450, 470], [3100, 600], [3750, 420]),
    stations: 22,
    start: day(10),
  },
  {
    letter: 'F',
    corners: corners([1780, 2860], [1880, 2300], [1690, 1750], [1850, 1280], [1720, 760]),
    stations: 14,
    start: day(11),
  },
]

/** Stations where something other than the matrix was touched, or the rock was not in place. */
const SPECIAL: Readonly<Record<string, { target?: Target; support?: 'float' }>> = {
  A05: { target: 'weathered' },
  A19: { support: 'float' },
  B06: { target: 'vein' },
  B22: { support: 'float' },
  C04: { target: 'coating' },
  C21: { target: 'vein' },
  D07: { support: 'float' },
  D18: { target: 'weathered' },
  E09: { target: 'coating' },
}

/** The stations of a walk: evenly along it, give or take, with the time of arrival at each. */
export function stationsOf(walk: Walk): Spot[] {
  const chance = chanceFor(`walk ${walk.letter}`)
  const total = lengthOf(walk.corners)
  let clock = walk.start + 900
  let before: GroundPoint | null = null
  return Array.from({ length: walk.stations }, (_, i) => {
    const along = (total * (i + 0.5 + chance.between(-0.28, 0.28))) / walk.stations
    const on = pointAlong(walk.corners, along)
    const point = {
      x: round(on.x + chance.between(-22, 22)),
      y: round(on.y + chance.between(-28, 28)),
    }
    if (before) clock += walkingSeconds(before, point) + 60 + Math.round(chance.between(0, 120))
    const arrival = clock
    clock += secondsAtStation()
    before = point
    const name = walk.letter + String(i + 1).padStart(2, '0')
    return groundSpot(name, point, arrival)
  })
}

function groundSpot(name: string, point: GroundPoint, arrival: number): Spot {
  return {
    name,
    point,
    height: Math.round(heightAt(point) * 10) / 10,
    support: SPECIAL[name]?.support ?? 'outcrop',
    target: SPECIAL[name]?.target ?? 'matrix',
    hole: null,
    from: null,
    to: null,
    depth: 0,
    arrival,
  }
}

/** Seconds from the arrival to the scan: a minute to clean a face, 35 s a scan. */
export function secondsToScan(replicate: number): number {
  return 75 + 35 * replicate
}

/** Seconds spent at a station. */
export function secondsAtStation(): number {
  return 300
}

/** Walking time at 1.1 m/s over the straight line, whole seconds. */
function walkingSeconds(from: GroundPoint, to: GroundPoint): number {
  return Math.round(Math.hypot(to.x - from.x, to.y - from.y) / 1.1)
}

function lengthOf(line: readonly GroundPoint[]): number {
  return line.slice(1).reduce((sum, p, i) => sum + Math.hypot(p.x - line[i].x, p.y - line[i].y), 0)
}

/** The point at a distance along a line; its last point beyond the end. */
function pointAlong(line: readonly GroundPoint[], distance: number): GroundPoint {
  let left = distance
  for (let i = 0; i + 1 < line.length; i++) {
    const [a, b] = [line[i], line[i + 1]]
    const length = Math.hypot(b.x - a.x, b.y - a.y)
    if (left <= length) {
      return { x: a.x + ((b.x - a.x) * left) / length, y: a.y + ((b.y - a.y) * left) / length }
    }
    left -= length
  }
  return line[line.length - 1]
}

function round(metres: number): number {
  return Math.round(metres * 10) / 10
}
