/** All that a walk is chosen from: places, the ground between them, and what each would tell. */
import type { Points, SurfaceBands, Variogram } from '../surfaces/model'
import { areaNodes, bestCandidates, possibleSpots } from './candidates'
import { totalSill } from '../surfaces/variogram-models'
import { groundOf, type GroundInput } from './ground'
import { nearestNode, waysFrom, type WalkGrid } from './walk-grid'
import { toblerSpeed } from './walking'
import { errorsAt, krigingErrors, type Errors, type Spots } from './worth'

/** A place, working units. */
export interface Place {
  readonly x: number
  readonly y: number
}

/** A station that is to be visited again. */
export interface WantedPlace extends Place {
  readonly name: string
}

export interface LayoutInput extends Omit<GroundInput, 'places'> {
  /** The surface that is to become surer; NaN where it is not drawn. */
  readonly bands: SurfaceBands
  readonly variogram: Variogram
  /** What it is computed from. */
  readonly points: Points
  readonly start: Place
  readonly end: Place
  /** From leaving to being back, s. */
  readonly budget: number
  /** Work at a stop, s. */
  readonly stopSeconds: number
  readonly wanted: readonly WantedPlace[]
}

export interface Layout {
  readonly ground: WalkGrid
  /** Start, candidates, stations that are wanted, end. */
  readonly places: Spots
  /** Names of those that are stations, else null. */
  readonly names: readonly (string | null)[]
  /** Their nodes on the ground. */
  readonly nodes: Int32Array
  /** Of the places between start and end. */
  readonly errors: Errors
  /** Stations that are wanted and lie too far or have no way to them. */
  readonly unreached: readonly string[]
}

/** Candidates that a walk is chosen from. */
const MOST_CANDIDATES = 60
/** The nearest stations alone are kriged from: farther ones are screened by them. */
const MOST_STATIONS = 400
/** A variance below this part of the sill is rounding. */
const ROUNDING = 1e-9
/** The slope on which walking is fastest. */
const FASTEST_SLOPE = -0.05

/**
 * Lays a walk out.
 *
 * @throws Error in words where nothing can be reached, or start or end cannot be walked on
 */
export function layOut(input: LayoutInput): Layout {
  const { start, end, bands, wanted } = input
  const isNear = nearness(input)
  const spots = possibleSpots(bands, isNear)
  const near = wanted.filter(({ x, y }) => isNear(x, y))
  if (spots.x.length + near.length === 0)
    throw new Error(
      'No part of the surface can be reached and left again in that time: start nearer, leave earlier, or take less time at a stop.',
    )
  const all = joinSpots(spots, near)
  const ground = groundOf({ ...input, places: joinSpots(all, [start, end]) })
  const [from, to] = [start, end].map(({ x, y }) => nearestNode(ground.grid, x, y))
  refuseClosed(ground, from, 'start')
  refuseClosed(ground, to, 'end')
  const ways = waysFrom(ground, from)
  if (!Number.isFinite(ways.seconds[to]))
    throw new Error(
      'No way leads from the start to the end: what is avoided or too steep lies between them. Allow steeper slopes, or avoid less.',
    )
  const nodeOf = (spot: number) => nearestNode(ground.grid, all.x[spot], all.y[spot])
  const isOpen = (spot: number) => Number.isFinite(ways.seconds[nodeOf(spot)])
  const errors = errorsOf(input, all)
  const least = ROUNDING * totalSill(input.variogram)
  if (!(least > 0 && errors.nodes.some((variance) => variance > least)))
    throw new Error(
      'The surface’s variogram leaves no variance, so that no station would make it surer: choose another surface, or mend its variogram.',
    )
  const chosen = bestCandidates(
    errors,
    MOST_CANDIDATES,
    (spot) => spot < spots.x.length && isOpen(spot),
  ).map(({ spot }) => spot)
  const kept = near.flatMap((_, i) => (isOpen(spots.x.length + i) ? [spots.x.length + i] : []))
  const between = [...chosen, ...kept]
  if (between.length === 0) refuseNothing(spots.x.some((_, spot) => isOpen(spot)))
  const reached = new Set(kept.map((spot) => near[spot - spots.x.length]))
  return {
    ground,
    places: joinSpots({ x: Float64Array.of(start.x), y: Float64Array.of(start.y) }, [
      ...between.map((spot) => ({ x: all.x[spot], y: all.y[spot] })),
      end,
    ]),
    names: [null, ...between.map((spot) => near[spot - spots.x.length]?.name ?? null), null],
    nodes: Int32Array.of(from, ...between.map(nodeOf), to),
    errors: errorsAt(errors, between),
    unreached: wanted.filter((place) => !reached.has(place)).map(({ name }) => name),
  }
}

/** Whether the end could be reached by way of a place, were all ways straight and at their fastest. */
function nearness(input: LayoutInput): (x: number, y: number) => boolean {
  const { start, end, budget, stopSeconds, metresPerUnit, pace } = input
  const fastest = (toblerSpeed(FASTEST_SLOPE) * pace) / metresPerUnit
  const farthest = (budget - stopSeconds) * fastest
  return (x, y) => lengthBetween(x, y, start) + lengthBetween(x, y, end) <= farthest
}

/** By a root, which is many times faster than Math.hypot: millions of nodes are asked about. */
function lengthBetween(x: number, y: number, to: Place): number {
  return Math.sqrt((x - to.x) ** 2 + (y - to.y) ** 2)
}

function joinSpots({ x, y }: Spots, more: readonly Place[]): Spots {
  return {
    x: Float64Array.of(...x, ...more.map((place) => place.x)),
    y: Float64Array.of(...y, ...more.map((place) => place.y)),
  }
}

function refuseClosed({ elevation }: WalkGrid, node: number, what: 'start' | 'end'): void {
  if (node >= 0 && !Number.isNaN(elevation[node])) return
  throw new Error(
    `The walk’s ${what} lies outside the terrain, or in what is avoided: move it, or choose another terrain.`,
  )
}

/** @throws Error in words that tell ground without a way from ground that is known well */
function refuseNothing(anyOpen: boolean): never {
  throw new Error(
    anyOpen
      ? 'No spot that can be reached would make the surface surer: there are stations on all of them. Choose another surface, or allow more time.'
      : 'No part of the surface has a way to it: what is avoided or too steep lies between. Allow steeper slopes, or avoid less.',
  )
}

/** What kriging from the stations nearest to the spots leaves open. */
function errorsOf({ variogram, points, bands }: LayoutInput, spots: Spots): Errors {
  const middle = [spots.x, spots.y].map(
    (values) => values.reduce((sum, value) => sum + value, 0) / values.length,
  )
  const apart = (i: number) => Math.hypot(points.x[i] - middle[0], points.y[i] - middle[1])
  const nearest = Array.from(points.x, (_, i) => i)
    .sort((a, b) => apart(a) - apart(b) || a - b)
    .slice(0, MOST_STATIONS)
  const { error } = points
  return krigingErrors({
    variogram,
    stations: {
      x: Float64Array.from(nearest, (i) => points.x[i]),
      y: Float64Array.from(nearest, (i) => points.y[i]),
    },
    variances: error && Float64Array.from(nearest, (i) => (error[i] > 0 ? error[i] ** 2 : 0)),
    nodes: areaNodes(bands),
    candidates: spots,
  })
}
