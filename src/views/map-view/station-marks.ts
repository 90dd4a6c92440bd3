/** Stations of the results as marks on the map. */
import { NOT_MEASURABLE, SYMBOLS, UNCLASSIFIED, type ClassRule } from '../../classes/rule'
import { DIMMED, PLAIN, SELECTED, SMALL, type StationMarks } from '../../map/station-layer'
import { RING, SLASHED_RING } from '../../map/symbol-atlas'
import type { Station } from '../../places/station'
import { rgb } from './tokens'

/** Positions of stations on the map. Stations without a longitude are left out by `shown`. */
export interface StationPlaces {
  /** Station number of each mark. */
  readonly shown: Int32Array
  readonly longitudes: Float64Array
  readonly latitudes: Float64Array
}

/** Before any is placed; one list, so that nothing seems to change meanwhile. */
export const NO_STATIONS: readonly Station[] = []

const places = new WeakMap<readonly Station[], StationPlaces>()

/** Where stations stand; worked out once for a list of stations. */
export function stationPlaces(
  stations: readonly Station[],
  toDegrees: (station: Station) => readonly [number, number] | null,
): StationPlaces {
  const known = places.get(stations)
  if (known) return known
  const shown: number[] = []
  const longitudes: number[] = []
  const latitudes: number[] = []
  stations.forEach((station, number) => {
    const degrees = toDegrees(station)
    if (!degrees) return
    shown.push(number)
    longitudes.push(degrees[0])
    latitudes.push(degrees[1])
  })
  const made = {
    shown: Int32Array.from(shown),
    longitudes: Float64Array.from(longitudes),
    latitudes: Float64Array.from(latitudes),
  }
  places.set(stations, made)
  return made
}

/** How each class is drawn; what has no class is a ring in soft ink. */
export function classLooks(
  rules: readonly ClassRule[],
  soft: string,
): Map<string, { colour: readonly [number, number, number]; shape: number }> {
  const looks = new Map<string, { colour: readonly [number, number, number]; shape: number }>()
  looks.set(UNCLASSIFIED, { colour: rgb(soft), shape: RING })
  looks.set(NOT_MEASURABLE, { colour: rgb(soft), shape: SLASHED_RING })
  for (const { name, colour, symbol } of rules) {
    looks.set(name, { colour: rgb(colour), shape: SYMBOLS.indexOf(symbol) })
  }
  return looks
}

/**
 * Marks for all stations that have a place.
 *
 * @param classes the class of each station, by station number
 * @param small stations that are drawn small and under the others
 * @param hiddenClasses names of classes taken off the map; they are dimmed
 */
export function stationMarks(
  where: StationPlaces,
  classes: readonly string[],
  rules: readonly ClassRule[],
  soft: string,
  selected: readonly number[],
  small: (station: number) => boolean,
  hiddenClasses: (name: string) => boolean,
): StationMarks {
  const looks = classLooks(rules, soft)
  const ring = { colour: rgb(soft), shape: RING }
  const chosen = new Set(selected)
  const count = where.shown.length
  const colours = new Uint8Array(3 * count)
  const shapes = new Uint8Array(count)
  const states = new Uint8Array(count)
  const inHole = new Uint8Array(count)
  for (let i = 0; i < count; i++) {
    const station = where.shown[i]
    const name = classes[station] ?? UNCLASSIFIED
    const look = looks.get(name) ?? ring
    colours.set(look.colour, 3 * i)
    shapes[i] = look.shape
    inHole[i] = small(station) ? 1 : 0
    states[i] = chosen.has(station)
      ? SELECTED
      : hiddenClasses(name)
        ? DIMMED
        : small(station)
          ? SMALL
          : PLAIN
  }
  const { longitudes, latitudes } = where
  return { longitudes, latitudes, colours, shapes, states, inHole }
}
