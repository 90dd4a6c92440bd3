/** What is doubtful about places: far from all others, told two places, on an unknown datum, none. */
import type { Problem } from '../readers/input'
import { median, type WorkingCrs } from './crs'
import { lengthOf } from './crs-question'
import type { Found, NotFound } from './find-place'
import type { SpareRow } from './gather'
import type { Header, ScanHead } from './header'
import { baseName } from './rules'
import type { PlacedScan } from './station'
import { toWorking, type MadeStation } from './stations'
import { distance } from './tracks'

/** A header and a table that disagree by more than this are told, metres. */
const DISAGREE = 200

/** A station further than this from the median station is told, and left out of surfaces, metres. */
export const FAR_OFF = 100_000

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
    if (metres <= FAR_OFF) continue
    const turned = swapped(spot, crs)
    const columns =
      spot.crs.kind === 'geographic' ? 'latitude and longitude' : 'easting and northing'
    const hint =
      turned !== null && away(turned.easting, turned.northing) <= FAR_OFF
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

/** One problem for each table whose rows stand in a system that cannot be joined to the working one. */
export function apartTables(spare: readonly SpareRow[], crs: WorkingCrs): Problem[] {
  const apart = new Map<string, SpareRow[]>()
  for (const row of spare) {
    if (toWorking(row.found.spot, crs) !== null) continue
    const { file } = row.at.table
    apart.set(file, [...(apart.get(file) ?? []), row])
  }
  return [...apart].map(([file, rows]): Problem => {
    const [{ at, found }] = rows
    const of = rows.length === 1 ? 'a row' : `${rows.length} rows`
    return {
      file,
      line: at.row.line,
      problem: `${of} with places in ${found.spot.crs.name}, which nothing ties to ${crs.name}`,
      done: 'no stations were made of them; choose another working system, or state where the grid lies',
    }
  })
}

function swapped({ x, y, ...rest }: MadeStation['spot'], crs: WorkingCrs) {
  if (rest.crs.kind === 'geographic' && Math.abs(x) > 90) return null
  return toWorking({ ...rest, x: y, y: x }, crs)
}

/** Scans whose header and sample table put them far apart. */
export function disagreements(
  scans: readonly ScanHead[],
  headers: readonly Header[],
  found: readonly (Found | NotFound)[],
): Problem[] {
  return scans.flatMap((scan, i): Problem[] => {
    const [own, place] = [headers[i].spot, found[i]]
    const at = place.rows.find(({ row }) => row.spot !== null)
    const told = at?.row.spot
    if (!own || !at || !told) return []
    const [here, there] = [
      own.crs.toGeographic(own.x, own.y),
      told.crs.toGeographic(told.x, told.y),
    ]
    if (!here || !there) return []
    const metres = distance(here[0], here[1], there[0], there[1])
    if (metres <= DISAGREE) return []
    const line = `line ${at.row.line} of ${baseName(at.table.file)}`
    return [
      {
        file: scan.file,
        line: null,
        problem: `the header of ‘${scan.name}’ and ${line} put it ${lengthOf(metres)} apart`,
        done: 'went by the header; correct the one that is wrong',
      },
    ]
  })
}

/** Systems whose tie to WGS 84 is not known here, once each. */
export function shiftProblems(found: readonly (Found | NotFound)[]): Problem[] {
  const systems = new Map<string, Problem>()
  for (const place of found) {
    if ('unplaced' in place) continue
    const { crs } = place.spot
    if (crs.kind === 'local' || crs.datumShift !== 'missing' || systems.has(crs.code)) continue
    const at = place.rows[0]
    systems.set(crs.code, {
      file: at?.table.file ?? '',
      line: null,
      problem: `${crs.code} (${crs.name}) stands on a datum whose shift to WGS 84 is not known here`,
      done: 'taken as no shift: longitude, latitude and other systems’ places may be off by up to several hundred metres',
    })
  }
  return [...systems.values()]
}

/** Unplaced scans, told one by one while they are few, else counted by reason. */
export function unplacedProblems(
  scans: readonly ScanHead[],
  placed: readonly PlacedScan[],
): Problem[] {
  const lost = placed.flatMap(({ unplaced }, i) =>
    unplaced === null ? [] : [{ scan: scans[i], unplaced }],
  )
  const told = lost.slice(0, 50).map(({ scan, unplaced }) => ({
    file: scan.file,
    line: null,
    problem: `‘${scan.name}’ has no place: ${unplaced}`,
    done: 'kept without a place; it stands in scans.csv only',
  }))
  if (lost.length <= 50) return told
  const more = { problem: `${lost.length - 50} more scans have no place`, done: 'see scans.csv' }
  return [...told, { file: '', line: null, ...more }]
}
