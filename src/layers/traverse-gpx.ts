/** `traverse.gpx`: a planned walk as a route with its places and a track with its ways, GPX 1.1. */
import type { WorkingCrs } from '../places/crs'
import { DEGREE_DECIMALS, ELEVATION_DECIMALS, fixed } from './decimals'
import { element } from './gpx'
import {
  minutesOf,
  placeName,
  WALK_CAUTION,
  type WalkedWay,
  type WalkPlace,
} from './traverse-layer'

/**
 * The bytes: places without longitude and latitude are left out. Elements stand in the schema's
 * order; there are no time stamps, for the times of a plan are of no date.
 *
 * @returns null for a local grid, which has no longitude and latitude.
 */
export function traverseGpx(
  crs: WorkingCrs,
  surface: string,
  places: readonly WalkPlace[],
): Uint8Array | null {
  if (crs.kind === 'local') return null
  const name = `traverse for ${surface}`
  const stops = places.map(routePoint).filter((point) => point !== '')
  const ways = places.flatMap(({ way }) => (way === null ? [] : [segment(crs, way)]))
  return new TextEncoder().encode(`<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="Aureole" xmlns="http://www.topografix.com/GPX/1/1">
<metadata>${element('name', name)}${element('desc', WALK_CAUTION)}</metadata>
<rte>${element('name', name)}
${stops.join('\n')}
</rte>
<trk>${element('name', `ways of the ${name}`)}
${ways.join('\n')}
</trk>
</gpx>
`)
}

function routePoint(place: WalkPlace): string {
  const { longitude, latitude, elevation, kind } = place
  if (longitude === null || latitude === null) return ''
  const name = element('name', placeName(place))
  const desc = element('desc', whatToDo(place))
  return `<rtept ${position(longitude, latitude)}>${height(elevation)}${name}${desc}${element('type', kind)}</rtept>`
}

function segment(crs: WorkingCrs, { x, y, z }: WalkedWay): string {
  const points = Array.from(x, (east, i) => {
    const degrees = crs.toGeographic(east, y[i])
    return degrees && `<trkpt ${position(...degrees)}>${height(z && z[i])}</trkpt>`
  })
  return `<trkseg>${points.filter((point) => point !== null).join('')}</trkseg>`
}

/** The schema's longitude runs from −180 up to but not including 180. */
function position(longitude: number, latitude: number): string {
  const east = fixed(longitude, DEGREE_DECIMALS)
  const written = Number(east) === 180 ? `-${east}` : east
  return `lat="${fixed(latitude, DEGREE_DECIMALS)}" lon="${written}"`
}

function height(elevation: number | null): string {
  return element('ele', fixed(elevation, ELEVATION_DECIMALS))
}

/** Times, work and battery in a few words: a hand receiver's screen is small. */
function whatToDo(place: WalkPlace): string {
  const { kind, station, arrive, leave, way, battery, isBatteryChanged } = place
  const walked = way ? ` Walk there: ${walkWords(way)}.` : ''
  if (kind === 'start') return `Leave ${leave}.`
  if (kind === 'end') return `Back ${arrive}.${walked}`
  const work = station === null ? 'Scan a new station.' : `Scan ${station} again.`
  const change = isBatteryChanged
    ? ` Change to battery ${battery} on the way or here; warm up, then take a new white reference.`
    : ''
  return `${arrive}–${leave}. ${work}${change}${walked}`
}

function walkWords({ seconds, distance, climb }: WalkedWay): string {
  const minutes = Math.round(minutesOf(seconds))
  return `${minutes} min, ${Math.round(distance)} m, ${Math.round(climb)} m up`
}
