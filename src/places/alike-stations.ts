/** Stations that may be one: of samples whose names differ by a counting ending alone, on one spot. */
import { foldedName, stemOf } from './names'
import type { Station } from './station'

/** Stations that may be one, by their numbers, and the name that they share. */
export interface AlikeStations {
  readonly name: string
  readonly stations: readonly number[]
}

/**
 * Stations whose scans a header names `KR09_1`, `KR09_2`, `KR09_3` on one spot: three repeats, or
 * three samples. Nothing but a person can tell, so nothing is joined. Asked of are stations that a
 * track or their own files place; those of a table or a hole were told apart by whoever wrote it, and
 * those without a sample's name by time, which the report on grouping speaks of.
 *
 * @param near distance from the first of them within which they count as one spot, metres
 * @param metresPerUnit of the stations' positions
 */
export function alikeStations(
  stations: readonly Station[],
  near: number,
  metresPerUnit: number,
): AlikeStations[] {
  const groups = new Map<string, { name: string; stations: number[] }[]>()
  stations.forEach((station, number) => {
    const { placedBy, hole, support, name } = station
    const isOpen = (placedBy === 'track' || placedBy === 'file') && hole === null
    if (!isOpen || station.isUnnamed || station.scans.length === 0) return
    const stem = stemOf(name) || name
    const key = `${support}\u0000${foldedName(stem)}`
    const spots = groups.get(key) ?? []
    groups.set(key, spots)
    const spot = spots.find(
      (each) => metresApart(stations[each.stations[0]], station, metresPerUnit) <= near,
    )
    if (spot) spot.stations.push(number)
    else spots.push({ name: stem, stations: [number] })
  })
  return [...groups.values()].flat().filter((group) => group.stations.length > 1)
}

function metresApart(a: Station, b: Station, metresPerUnit: number): number {
  const [p, q] = [a.position, b.position]
  return Math.hypot(p.easting - q.easting, p.northing - q.northing) * metresPerUnit
}
