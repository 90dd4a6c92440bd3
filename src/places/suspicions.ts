/** Stations that may be misplaced: far from all others, or told two places. */
import type { Problem } from '../readers/input'
import { median, type WorkingCrs } from './crs'
import { lengthOf } from './crs-question'
import { toWorking, type MadeStation } from './stations'

/** A station further than this from the median station is told, metres. */
const FAR = 100_000

/** One problem for each station that lies more than 100 km from the median station. */
export function farStations(made: readonly MadeStation[], crs: WorkingCrs): Problem[] {
  if (made.length < 3) return []
  const east = median(made.map(({ station }) => station.position.easting))
  const north = median(made.map(({ station }) => station.position.northing))
  const away = (easting: number, northing: number) =>
    Math.hypot(easting - east, northing - north) * crs.metresPerUnit
  const problems: Problem[] = []
  for (const { station, spot, source } of made) {
    const { easting, northing } = station.position
    const metres = away(easting, northing)
    if (metres <= FAR) continue
    const turned = swapped(spot, crs)
    const columns =
      spot.crs.kind === 'geographic' ? 'latitude and longitude' : 'easting and northing'
    const hint =
      turned !== null && away(turned.easting, turned.northing) <= FAR
        ? `${columns} seem swapped: exchange them`
        : 'check its coordinates, their sign and their coordinate system'
    problems.push({
      ...source,
      problem: `the station ‘${station.name}’ lies ${lengthOf(metres)} from the median station`,
      done: `kept where it stands; ${hint}`,
    })
  }
  return problems
}

function swapped({ x, y, ...rest }: MadeStation['spot'], crs: WorkingCrs) {
  if (rest.crs.kind === 'geographic' && Math.abs(x) > 90) return null
  return toWorking({ ...rest, x: y, y: x }, crs)
}
