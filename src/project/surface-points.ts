/** Which stations a surface is drawn from, and with what value. */
import type { IndexSet } from '../indices/index-set'
import type { Measured } from '../indices/rule'
import { countsForStation, stationIndices } from '../indices/station-values'
import { median } from '../places/crs'
import type { Placement } from '../places/place-scans'
import type { Station } from '../places/station'
import { FAR_OFF } from '../places/suspicions'
import type { Cell } from '../places/station'
import type { InputFile } from '../readers/input'
import {
  compositeError,
  compositeMean,
  composites,
  type HoleInterval,
} from '../surfaces/compositing'
import type { Points, SurfaceRule } from '../surfaces/model'
import { classShares, groupPresence, type ClassEvidence } from './class-shares'
import { countedCells, type BelowDetection } from './below-detection'
import type { Holdings, Project } from './project'
import type { IndexColumn, Results } from './results'
import type { Compiled } from './values'

/** Supports that surfaces use unless the recipe names others. */
const USUAL_SUPPORT: readonly string[] = ['outcrop']

export interface SurfaceInput extends ClassEvidence {
  readonly placement: Placement
  readonly columns: readonly IndexColumn[]
  /** The recipe's classes that work, in its order. */
  readonly classNames: readonly string[]
  /** The recipe's indices, to work one out anew where cells below detection are to count. */
  readonly indexSet: IndexSet
  /** GeoJSON files that boundaries may come from. */
  readonly ground: readonly InputFile[]
}

/** Everything that surfaces are made from. */
export function surfaceInput(
  { recipe, hidden }: Project,
  results: Results,
  { indices: indexSet, classes }: Pick<Compiled, 'indices' | 'classes'>,
  ground: Holdings['ground'],
): SurfaceInput {
  const { placement, verdicts, identifications, indices, stationClasses, scanClasses } = results
  return {
    placement,
    columns: indices,
    stationClasses,
    scanClasses,
    classNames: classes.classes.map(({ rule }) => rule.name),
    readsMinerals: [...indexSet.steps, ...classes.steps].some(
      (step) => step.op === 'leaf' && ['share', 'group', 'fit'].includes(step.source),
    ),
    identifications,
    counted: placement.stations.map(({ scans }) =>
      scans.filter((scan) =>
        countsForStation(verdicts[scan], placement.scans[scan].target, recipe.targets),
      ),
    ),
    indexSet,
    ground: ground.filter(({ path }) => !hidden.includes(path)),
  }
}

/** A surface's stations. */
export interface FoundPoints {
  readonly points: Points
  /** The stations' numbers of each point: one, or those of a composite. */
  readonly stations: readonly (readonly number[])[]
  /** The working unit, in which composites are measured. */
  readonly lengthUnit: string
  /** How many composites were left out because too little of their length is known. */
  readonly partial: number
  readonly unit: string
  /** How many of them count by the rule for cells below detection. */
  readonly belowDetection: number
  /** How many were left out because they lie far from all others. */
  readonly farOff: number
}

/**
 * The points of a surface.
 *
 * @returns null with a sentence where the index does not exist or does not work
 */
export function surfacePoints(
  rule: SurfaceRule,
  input: SurfaceInput,
): FoundPoints | { readonly failure: string } {
  const value = valueOf(rule, input)
  if ('failure' in value) return value
  return { ...stationsWhere(rule, input, (station) => value.at(station)), unit: value.unit }
}

/** A station's value, as a surface takes it. */
export interface StationNumber {
  readonly value: number
  readonly error: number | null
  readonly belowDetection?: boolean
}

/**
 * The placed stations of a rule's supports (outcrop alone unless told) that have a value; those in
 * holes joined to composites where it asks for them.
 */
export function stationsWhere(
  { support = USUAL_SUPPORT, composite }: Pick<SurfaceRule, 'support' | 'composite'>,
  { placement }: SurfaceInput,
  valueAt: (station: number) => StationNumber | null,
): Omit<FoundPoints, 'unit'> {
  const stations: number[] = []
  let belowDetection = 0
  let farOff = 0
  const isFar = farFromMedian(placement)
  const x: number[] = []
  const y: number[] = []
  const values: number[] = []
  const errors: number[] = []
  placement.stations.forEach((station, number) => {
    if (!support.includes(station.support)) return
    const measured = valueAt(number)
    if (measured === null) return
    if (isFar(station)) {
      farOff++
      return
    }
    stations.push(number)
    if (measured.belowDetection) belowDetection++
    x.push(station.position.easting)
    y.push(station.position.northing)
    values.push(measured.value)
    errors.push(measured.error ?? NaN)
  })
  const points: Points = {
    x: Float64Array.from(x),
    y: Float64Array.from(y),
    value: Float64Array.from(values),
    error: Float64Array.from(errors),
  }
  const told = { belowDetection, farOff, lengthUnit: placement.crs.unit }
  if (composite === undefined) {
    return { points, stations: stations.map((number) => [number]), partial: 0, ...told }
  }
  return { ...composited(points, stations, composite, placement), ...told }
}

/** Points of stations in holes joined; a composite lies at the mean place of its stations. */
function composited(
  { x, y, value, error }: Points,
  stations: readonly number[],
  length: number,
  placement: Placement,
): Pick<FoundPoints, 'points' | 'stations' | 'partial'> {
  const metres = length * placement.crs.metresPerUnit
  const { composites: joined, leftOut } = composites(
    stations.map((number) => holeInterval(placement.stations[number])),
    metres,
  )
  const mean = (values: Float64Array) =>
    Float64Array.from(joined, (composite) => compositeMean(composite, values))
  return {
    points: {
      x: mean(x),
      y: mean(y),
      value: mean(value),
      ...(error
        ? { error: Float64Array.from(joined, (composite) => compositeError(composite, error)) }
        : {}),
    },
    stations: joined.map(({ members }) => members.map((member) => stations[member])),
    partial: leftOut,
  }
}

/** Supports are kept apart: core and chips of one hole are never joined. */
function holeInterval({ hole, from, to, support }: Station): HoleInterval | null {
  if (hole === null || from === null) return null
  return { key: `${support} ${hole}`, from, to: Math.max(from, to ?? from) }
}

/** Whether a station lies so far from the median one that its coordinates must be wrong. */
function farFromMedian({ stations, crs }: Placement): (station: Station) => boolean {
  if (stations.length < 3) return () => false
  const east = median(stations.map(({ position }) => position.easting))
  const north = median(stations.map(({ position }) => position.northing))
  return ({ position }) =>
    Math.hypot(position.easting - east, position.northing - north) * crs.metresPerUnit > FAR_OFF
}

interface StationNumbers {
  readonly unit: string
  at(station: number): StationNumber | null
}

function valueOf(
  rule: SurfaceRule,
  input: SurfaceInput,
): StationNumbers | { readonly failure: string } {
  if (rule.value !== undefined) return indexValue(rule.value, rule.below_detection, input)
  if (rule.class !== undefined) return classIndicator(rule.class, input)
  return groupIndicator(rule.group ?? '', input)
}

function indexValue(
  name: string,
  below: BelowDetection = 'leave out',
  input: SurfaceInput,
): StationNumbers | { readonly failure: string } {
  const wanted = name.normalize('NFC')
  const column = input.columns.find(({ rule }) => rule.name.normalize('NFC') === wanted)
  if (!column) {
    return { failure: `There is no working index ‘${name}’; define it or mend its formula first.` }
  }
  const index = input.indexSet.indices.find((each) => each.name === wanted)
  if (below !== 'leave out' && index?.needsScan !== false) {
    return {
      failure: `A rule for cells below detection goes with an index of table columns alone; ‘${name}’ needs a scan.`,
    }
  }
  return {
    unit: column.rule.unit ?? '',
    at: (station) => {
      const { columns } = input.placement.stations[station]
      const cells = countedCells(columns, below)
      const own = column.stations[station]
      const { value, error } =
        cells === columns ? own : reckoned(input.indexSet, wanted, cells, own)
      if (value === null) return null
      return { value, error, belowDetection: value !== own.value }
    },
  }
}

/** An index of table columns alone, worked out on other cells. */
function reckoned(
  indexSet: IndexSet,
  name: string,
  cells: Readonly<Record<string, Cell>>,
  fallback: Measured,
): Measured {
  return stationIndices(indexSet, [], cells).get(name) ?? fallback
}

/** How surely the station is of the class; stations without a verdict left out. */
function classIndicator(
  name: string,
  input: SurfaceInput,
): StationNumbers | { readonly failure: string } {
  if (!input.stationClasses.includes(name)) {
    return {
      failure: `No station is of the class ‘${name}’; see whether its name and rule are right.`,
    }
  }
  const shares = classShares(input)
  return {
    unit: '',
    at: (station) => {
      const found = shares(station)
      return found && { value: found.get(name) ?? 0, error: null }
    },
  }
}

/** How surely each station holds the group. */
function groupIndicator(
  group: string,
  input: SurfaceInput,
): StationNumbers | { readonly failure: string } {
  if (!holdsGroup(input, group)) {
    return { failure: `No station holds the group ‘${group}’; see whether its name is right.` }
  }
  const presence = groupPresence(input, group)
  return {
    unit: '',
    at: (station) => {
      const value = presence(station)
      return value === null ? null : { value, error: null }
    },
  }
}

/** Whether any scan that counts holds a group. */
export function holdsGroup(
  { counted, identifications }: Pick<SurfaceInput, 'counted' | 'identifications'>,
  group: string,
): boolean {
  return counted.some((scans) =>
    scans.some((scan) =>
      identifications[scan]?.minerals.some((mineral) => mineral.group === group),
    ),
  )
}
