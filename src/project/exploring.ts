/**
 * What stations say before anything is mapped: spread, trend, duplicates and class proportions,
 * plain and with crowded stations weighed down.
 */
import { cellWeights, decluster } from '../surfaces/declustering'
import { meanSpacing } from '../surfaces/grid'
import type { Points } from '../surfaces/model'
import { nearestDistances } from '../surfaces/neighbours'
import { planeTest, type PlaneTest } from '../surfaces/plane-test'
import { mergeDuplicates } from '../surfaces/points'
import { spreadWith, type Spread } from '../surfaces/spread'
import { hasClass } from './class-shares'
import { stationsWhere, surfacePoints, type SurfaceInput } from './surface-points'

/** An index's values at stations, explored. */
export interface ExploredValue {
  readonly unit: string
  /** Stations with a value; those on one spot count each. */
  readonly stations: number
  readonly plain: Spread
  /** The same with each cell of ground counting once, shared among its stations. */
  readonly declustered: Spread
  /** Side of those cells, working units. */
  readonly cell: number
  /** Stations that stand on exactly the spot of an earlier one. */
  readonly duplicates: number
  /** Null under six stations, or where they lie on one line or have no spread. */
  readonly plane: PlaneTest | null
  /** Each station's weight, in the order of `numbers`; they sum to the number of stations. */
  readonly weights: Float64Array
  /** The stations' numbers and values, for a plot. */
  readonly numbers: readonly number[]
  readonly values: Float64Array
}

/** How much of the walk, and of the ground, each class has. */
export interface ClassProportion {
  readonly class: string
  readonly stations: number
  /** Part of the stations, 0 to 1. */
  readonly plain: number
  /** Part of the cells of ground, 0 to 1. */
  readonly declustered: number
}

export interface ExploredClasses {
  /** Stations whose class is known; `not measurable` ones are not counted. */
  readonly stations: number
  /** Side of the cells, working units. */
  readonly cell: number
  /** By class name, the most of the ground first. */
  readonly proportions: readonly ClassProportion[]
}

/** Explored on demand; what was asked once is remembered. */
export interface Exploring {
  /**
   * An index at the stations of some supports (outcrop alone unless told).
   *
   * @returns why not, in words, where the index does not exist or no station has a value
   */
  value(name: string, support?: readonly string[]): ExploredValue | { readonly failure: string }
  /** Class proportions of those supports. */
  classes(support?: readonly string[]): ExploredClasses | { readonly failure: string }
}

/** Exploring over a project's stations. */
export function exploringOf(input: SurfaceInput): Exploring {
  const values = new Map<string, ReturnType<Exploring['value']>>()
  const classes = new Map<string, ReturnType<Exploring['classes']>>()
  return {
    value: (name, support) =>
      remembered(values, JSON.stringify([name, support]), () => exploreValue(name, support, input)),
    classes: (support) =>
      remembered(classes, JSON.stringify(support ?? null), () => exploreClasses(support, input)),
  }
}

function remembered<T>(known: Map<string, T>, key: string, make: () => T): T {
  const found = known.get(key)
  if (found !== undefined) return found
  const made = make()
  known.set(key, made)
  return made
}

function exploreValue(
  name: string,
  support: readonly string[] | undefined,
  input: SurfaceInput,
): ReturnType<Exploring['value']> {
  const found = surfacePoints({ name, value: name, method: 'kriging', support }, input)
  if ('failure' in found) return found
  const { points, stations, unit } = found
  if (stations.length === 0) {
    return { failure: `No placed station of these supports has a value of ‘${name}’.` }
  }
  const { weights, cell } = decluster(points, 'told')
  const merged = mergeDuplicates(points)
  return {
    unit,
    stations: stations.length,
    plain: spreadWith(points.value, null),
    declustered: spreadWith(points.value, weights),
    cell,
    duplicates: points.x.length - merged.x.length,
    plane: planeTest(merged),
    weights,
    numbers: stations.map(([station]) => station),
    values: points.value,
  }
}

function exploreClasses(
  support: readonly string[] | undefined,
  input: SurfaceInput,
): ReturnType<Exploring['classes']> {
  const known = hasClass(input)
  const { points, stations } = stationsWhere({ support }, input, (station) =>
    known(station) ? { value: 0, error: null } : null,
  )
  if (stations.length === 0) return { failure: 'No placed station of these supports has a class.' }
  const cell = classCell(points)
  const weights = cellWeights(points, cell)
  const tally = new Map<string, { stations: number; weight: number }>()
  stations.forEach(([station], i) => {
    const name = input.stationClasses[station]
    const sum = tally.get(name) ?? { stations: 0, weight: 0 }
    tally.set(name, { stations: sum.stations + 1, weight: sum.weight + weights[i] })
  })
  const proportions = [...tally].map(([name, sum]): ClassProportion => ({
    class: name,
    stations: sum.stations,
    plain: sum.stations / stations.length,
    declustered: sum.weight / stations.length,
  }))
  proportions.sort((a, b) => b.declustered - a.declustered || (a.class < b.class ? -1 : 1))
  return { stations: stations.length, cell, proportions }
}

/**
 * One cell for all classes, so that proportions sum to 1: the spacing of the sparser stations,
 * which is what crowded ground is to be thinned to (Isaaks and Srivastava 1989, chapter 10). It is
 * twice the mean spacing, and no less than nine in ten stations have to their neighbour.
 */
function classCell(points: Points): number {
  const distances = nearestDistances(points.x, points.y).filter((d) => d > 0 && d < Infinity)
  distances.sort()
  const sparse = distances[Math.floor(0.9 * (distances.length - 1))] ?? 0
  return Math.max(2 * meanSpacing(points), sparse) || 1
}
