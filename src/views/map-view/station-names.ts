/** Names of stations and holes as they are written on the map. */
import type { PlacedName } from '../../map/name-layer'
import type { Station } from '../../places/station'
import type { StationPlaces } from './station-marks'

/**
 * A name a station, and one a hole at its uppermost station: its depths would cover each other.
 *
 * @param chosen stations whose names are wanted most
 */
export function namesOnMap(
  stations: readonly Station[],
  { shown, longitudes, latitudes }: StationPlaces,
  chosen: ReadonlySet<number>,
): PlacedName[] {
  const tops = new Map<string, number>()
  shown.forEach((number, mark) => {
    const { hole, from } = stations[number]
    if (hole === null) return
    const top = tops.get(hole)
    if (top === undefined || (from ?? 0) < (stations[shown[top]].from ?? 0)) tops.set(hole, mark)
  })
  const names: PlacedName[] = []
  shown.forEach((number, mark) => {
    const { hole, name } = stations[number]
    const selected = chosen.has(number)
    const isTop = hole !== null && tops.get(hole) === mark
    if (hole !== null && !isTop && !selected) return
    const place = { longitude: longitudes[mark], latitude: latitudes[mark] }
    // A selected depth is told in full; else the hole stands for its depths.
    const said = hole !== null && !selected ? hole : name
    names.push({ ...place, name: said, rank: selected ? 0 : hole !== null ? 1 : 2 })
  })
  return names
}
