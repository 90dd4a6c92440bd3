/** Days in the field, made of scans with a time and a place. */
import type { ScanHead } from '../../src/places/header'
import type { Placement } from '../../src/places/place-scans'
import { EARTH } from '../../src/places/tracks'
import type { Track } from '../../src/readers/input'
import { scan } from './made'

const [LONGITUDE, LATITUDE] = [-69.29, -24.95]

/** Longitude and latitude of a place so many metres east and north of the middle of the ground. */
export function degreesAt(east: number, north: number): [longitude: number, latitude: number] {
  const perRadian = 180 / Math.PI / EARTH
  const along = Math.cos((LATITUDE * Math.PI) / 180)
  return [LONGITUDE + (east * perRadian) / along, LATITUDE + north * perRadian]
}

export interface Taken {
  readonly name: string
  /** Seconds since the morning of 7 May 2024; absent for none. */
  readonly at?: number
  /** Metres. */
  readonly east?: number
  readonly north?: number
  readonly more?: Readonly<Record<string, string>>
  readonly folder?: string
}

/** `2024-05-07T09:00:05Z` for 5 s. */
export function clock(seconds: number): string {
  return `${new Date((Date.UTC(2024, 4, 7, 9) / 1000 + seconds) * 1000).toISOString().slice(0, 19)}Z`
}

/** A scan with its place in its own header. */
export function taken({ name, at, east = 0, north = 0, more, folder = 'day' }: Taken): ScanHead {
  const [longitude, latitude] = degreesAt(east, north)
  const time: Record<string, string> = at === undefined ? {} : { Time: clock(at) }
  const place = { Latitude: latitude.toFixed(9), Longitude: longitude.toFixed(9) }
  return scan(name, { ...time, ...place, ...more }, `${folder}/${name}.txt`)
}

/** Scans that are named by a counter: `AB001`, `AB002` and on. */
export function counted(
  prefix: string,
  digits: number,
  list: readonly Omit<Taken, 'name'>[],
  first = 1,
): ScanHead[] {
  return list.map((each, i) =>
    taken({ ...each, name: `${prefix}${String(first + i).padStart(digits, '0')}` }),
  )
}

/** Each station as its scans' names, in the stations' order. */
export function groups({ stations }: Placement, scans: readonly ScanHead[]): string[] {
  return stations.map((station) =>
    station.scans
      .map((at) => scans[at].name)
      .sort()
      .join(' '),
  )
}

/** A track of fixes as seconds since 1970, longitude and latitude. */
export function trackOf(file: string, fixes: readonly (readonly number[])[]): Track {
  const column = (i: number) => Float64Array.from(fixes, (fix) => fix[i])
  return {
    file,
    name: file,
    times: column(0),
    longitudes: column(1),
    latitudes: column(2),
    elevations: new Float64Array(fixes.length).fill(NaN),
  }
}
