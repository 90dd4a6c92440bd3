/** Which stations a surface is drawn from, and with what value. */
import { NOT_MEASURABLE } from '../classes/rule'
import type { Identification } from '../minerals/reference'
import type { Placement } from '../places/place-scans'
import type { Points, SurfaceRule } from '../surfaces/model'
import type { IndexColumn } from './results'

/** Supports that surfaces use unless the recipe names others. */
const USUAL_SUPPORT: readonly string[] = ['outcrop']

/**
 * A group's share from which it is taken to be there, and to which it is taken to be absent; in
 * between the indicator is soft. Common practice would cut at one value; doubt about the
 * identification makes the cut soft here.
 */
export const PRESENT_FROM = 0.3
export const ABSENT_TO = 0.1

export interface SurfaceInput {
  readonly placement: Placement
  readonly columns: readonly IndexColumn[]
  readonly stationClasses: readonly string[]
  readonly identifications: readonly (Identification | null)[]
  /** The scans that count for each station. */
  readonly counted: readonly (readonly number[])[]
}

/**
 * The points of a surface.
 *
 * @returns null with a sentence where the index does not exist or does not work
 */
export function surfacePoints(
  rule: SurfaceRule,
  input: SurfaceInput,
):
  | { readonly points: Points; readonly stations: readonly number[]; readonly unit: string }
  | { readonly failure: string } {
  const value = valueOf(rule, input)
  if ('failure' in value) return value
  const support = rule.support ?? USUAL_SUPPORT
  const stations: number[] = []
  const x: number[] = []
  const y: number[] = []
  const values: number[] = []
  const errors: number[] = []
  input.placement.stations.forEach((station, number) => {
    if (!support.includes(station.support)) return
    const measured = value.at(number)
    if (measured === null) return
    stations.push(number)
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
  return { points, stations, unit: value.unit }
}

interface StationNumber {
  readonly value: number
  readonly error: number | null
}

interface StationNumbers {
  readonly unit: string
  at(station: number): StationNumber | null
}

function valueOf(
  rule: SurfaceRule,
  input: SurfaceInput,
): StationNumbers | { readonly failure: string } {
  if (rule.value !== undefined) return indexValue(rule.value, input)
  if (rule.class !== undefined) return classIndicator(rule.class, input)
  return groupIndicator(rule.group ?? '', input)
}

function indexValue(
  name: string,
  { columns }: SurfaceInput,
): StationNumbers | { readonly failure: string } {
  const column = columns.find(({ rule }) => rule.name.normalize('NFC') === name.normalize('NFC'))
  if (!column) {
    return { failure: `There is no working index ‘${name}’; define it or mend its formula first.` }
  }
  return {
    unit: column.rule.unit ?? '',
    at: (station) => {
      const { value, error } = column.stations[station]
      return value === null ? null : { value, error }
    },
  }
}

/** 1 where the station is of the class, 0 where it is of another; stations without a verdict left out. */
function classIndicator(
  name: string,
  { stationClasses, counted }: SurfaceInput,
): StationNumbers | { readonly failure: string } {
  if (!stationClasses.includes(name)) {
    return {
      failure: `No station is of the class ‘${name}’; see whether its name and rule are right.`,
    }
  }
  return {
    unit: '',
    at: (station) => {
      const found = stationClasses[station]
      if (found === NOT_MEASURABLE || counted[station].length === 0) return null
      return { value: found === name ? 1 : 0, error: null }
    },
  }
}

/** The mean over the station's scans of how surely each holds the group. */
function groupIndicator(
  group: string,
  { identifications, counted }: SurfaceInput,
): StationNumbers | { readonly failure: string } {
  const holds = (scan: number) =>
    identifications[scan]?.minerals.some((mineral) => mineral.group === group)
  if (!counted.some((scans) => scans.some(holds))) {
    return { failure: `No station holds the group ‘${group}’; see whether its name is right.` }
  }
  return {
    unit: '',
    at: (station) => {
      let sum = 0
      let count = 0
      for (const scan of counted[station]) {
        const found = identifications[scan]
        if (!found) continue
        const share = found.minerals.reduce((s, m) => s + (m.group === group ? m.share : 0), 0)
        sum += Math.min(1, Math.max(0, (share - ABSENT_TO) / (PRESENT_FROM - ABSENT_TO)))
        count++
      }
      return count === 0 ? null : { value: sum / count, error: null }
    },
  }
}
