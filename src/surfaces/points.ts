/** Points made fit for computing: checked, and exact duplicates made one. */
import type { Points } from './model'

/**
 * Refuses points that cannot be used.
 *
 * @param what the surface's name, for the message
 * @throws Error where arrays differ in length, a number is missing or infinite, or too few are there
 */
export function checkPoints(points: Points, least: number, what = 'this surface'): void {
  const { x, y, value, error } = points
  if (x.length !== y.length || x.length !== value.length || (error && error.length !== x.length))
    throw new Error(`The stations of ${what} have columns of different lengths.`)
  let unplaced = 0
  let missing = 0
  for (let i = 0; i < x.length; i++) {
    if (!Number.isFinite(x[i]) || !Number.isFinite(y[i])) unplaced++
    else if (!Number.isFinite(value[i])) missing++
  }
  if (unplaced > 0)
    throw new Error(`${unplaced} of ${x.length} stations of ${what} have no place; leave them out.`)
  if (missing > 0)
    throw new Error(`${missing} of ${x.length} stations of ${what} have no value; leave them out.`)
  if (x.length < least)
    throw new Error(
      `${what} has ${x.length} ${x.length === 1 ? 'station' : 'stations'} with a value and needs at least ${least}; ` +
        'add stations, or widen the supports that it uses.',
    )
}

/** Points nearer than this part of their extent stand on one spot: a nanometre in a kilometre. */
const SPOT = 1e-12
/** The same in working units for points that all stand so close: their squares would be nothing. */
const LEAST_SPOT = 1e-140

/** The distance, working units, up to which points stand on one spot. */
export function spotOf(points: Pick<Points, 'x' | 'y'>): number {
  const [west, south, east, north] = boundsOf(points)
  return Math.max(LEAST_SPOT, SPOT * Math.max(east - west, north - south))
}

/**
 * Points on one spot made one, in order of first appearance: on exactly the same one, or no
 * farther than 1e-12 of the extent from an earlier point that stands for itself.
 *
 * The rule: their values are averaged. Where every one of them states its error the mean is
 * weighed by 1/error² and its error is (Σ 1/error²)^−½; otherwise the mean is plain and no
 * error is stated for it.
 */
export function mergeDuplicates(points: Points): Points {
  if (areApart(points)) return points
  const groups = new Map<string, number[]>()
  for (let i = 0; i < points.x.length; i++) {
    // + 0 makes −0 and 0 the same place.
    const key = `${points.x[i] + 0} ${points.y[i] + 0}`
    const group = groups.get(key)
    if (group) group.push(i)
    else groups.set(key, [i])
  }
  const members = joinedSpots(points, [...groups.values()])
  if (members.length === points.x.length) return points
  const merged = members.map((group) => mergeGroup(points, group))
  const { drift } = points
  return {
    x: Float64Array.from(members, (group) => points.x[group[0]]),
    y: Float64Array.from(members, (group) => points.y[group[0]]),
    value: Float64Array.from(merged, (m) => m.value),
    ...(points.error ? { error: Float64Array.from(merged, (m) => m.error) } : {}),
    ...(drift ? { drift: Float64Array.from(members, (group) => drift[group[0]]) } : {}),
  }
}

/** Groups of points whose first ones stand on one spot joined to the earliest. */
function joinedSpots(points: Points, groups: number[][]): number[][] {
  const limit = spotOf(points)
  const place = slanted(points)
  const order = groups.map(([first], i) => ({ i, first, at: place[first] }))
  order.sort((a, b) => a.at - b.at || a.i - b.i)
  const pairs: [later: number, earlier: number][] = []
  order.forEach(({ i, first, at }, k) => {
    for (let next = k + 1; next < order.length; next++) {
      const other = order[next]
      if (other.at - at > 2 * limit) break
      if (Math.abs(points.x[other.first] - points.x[first]) > limit) continue
      if (Math.abs(points.y[other.first] - points.y[first]) > limit) continue
      pairs.push([Math.max(i, other.i), Math.min(i, other.i)])
    }
  })
  const into = new Map<number, number>()
  for (const [later, earlier] of pairs.sort((a, b) => a[0] - b[0] || a[1] - b[1]))
    if (!into.has(later) && !into.has(earlier)) into.set(later, earlier)
  const joined = groups.map((group) => [...group])
  for (const [later, earlier] of into) joined[earlier].push(...groups[later])
  return joined.filter((_, i) => !into.has(i))
}

/** Slope of a direction along which no lattice lies; the plastic number's inverse. */
const SLANT = 0.7548776662466927

/** How far points lie along a slanted direction: those on one spot differ by 2 spots at most. */
function slanted(points: Points): Float64Array {
  const [west, south] = boundsOf(points)
  return points.x.map((x, i) => x - west + SLANT * (points.y[i] - south))
}

/** Whether no two points can stand on one spot: told without comparing each to each. */
function areApart(points: Points): boolean {
  const limit = 2 * spotOf(points)
  const places = slanted(points).sort()
  for (let i = 1; i < places.length; i++) if (!(places[i] - places[i - 1] > limit)) return false
  return true
}

function mergeGroup(points: Points, group: number[]): { value: number; error: number } {
  if (group.length === 1)
    return { value: points.value[group[0]], error: points.error ? points.error[group[0]] : NaN }
  const { error } = points
  const weighed = error !== undefined && group.every((i) => error[i] > 0)
  let sum = 0
  let weights = 0
  for (const i of group) {
    const weight = weighed ? 1 / error[i] ** 2 : 1
    sum += weight * points.value[i]
    weights += weight
  }
  return { value: sum / weights, error: weighed ? 1 / Math.sqrt(weights) : NaN }
}

/** Every k-th point, so that at most `most` are left; the points themselves where they are few. */
export function thinned(points: Points, most: number): Points {
  const step = Math.ceil(points.x.length / most)
  if (step <= 1) return points
  const keep = (_: number, i: number) => i % step === 0
  return {
    x: points.x.filter(keep),
    y: points.y.filter(keep),
    value: points.value.filter(keep),
    ...(points.error ? { error: points.error.filter(keep) } : {}),
    ...(points.drift ? { drift: points.drift.filter(keep) } : {}),
  }
}

/** West, south, east and north limits of points. */
export function boundsOf(points: Pick<Points, 'x' | 'y'>): [number, number, number, number] {
  let west = Infinity
  let south = Infinity
  let east = -Infinity
  let north = -Infinity
  for (let i = 0; i < points.x.length; i++) {
    west = Math.min(west, points.x[i])
    east = Math.max(east, points.x[i])
    south = Math.min(south, points.y[i])
    north = Math.max(north, points.y[i])
  }
  return [west, south, east, north]
}

/** Mean and variance (divisor n − 1) of numbers. */
export function spreadOf(values: Float64Array): { mean: number; variance: number } {
  let sum = 0
  for (const value of values) sum += value
  const mean = sum / values.length
  let squares = 0
  for (const value of values) squares += (value - mean) ** 2
  return { mean, variance: values.length > 1 ? squares / (values.length - 1) : 0 }
}

/**
 * Refuses values without spread: there is nothing to map.
 *
 * @throws Error in words
 */
export function checkSpread(points: Points, what = 'this surface'): void {
  const { mean, variance } = spreadOf(points.value)
  if (!(variance > 1e-24 * mean * mean) || variance === 0)
    throw new Error(
      `All ${points.value.length} stations of ${what} have the same value (${mean}); ` +
        'there is no variation to map.',
    )
}
