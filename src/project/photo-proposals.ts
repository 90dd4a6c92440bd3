/**
 * Which station a photo that came with the scans may belong to: by its name, by where its camera
 * says it was, or by the time beside a scan's. Only proposals: a person takes them or leaves them.
 */
import { foldedName, stemsOf } from '../places/names'
import type { Placement } from '../places/place-scans'
import type { Station } from '../places/station'
import type { Exif } from '../readers/exif'
import type { ScanHead } from './project'

/** A photo of the project's files and what its EXIF says. */
export interface LoosePhoto {
  readonly path: string
  readonly exif: Exif
}

export interface PhotoProposal {
  readonly path: string
  /** Number of the station. */
  readonly station: number
  /** Why, in words. */
  readonly why: string
}

/** A photo is of a station that its camera was no farther from, metres (common practice). */
const NEAR = 30
/** A name is doubted where the camera was farther off than this, metres. */
const FAR = 500
/** A photo is of a station whose scan was taken within this, seconds. */
const SOON = 600

/** A station for each photo that fits one; the surest ground first: name, place, time. */
export function proposePhotos(
  photos: readonly LoosePhoto[],
  placement: Placement,
  heads: readonly ScanHead[],
): PhotoProposal[] {
  const names = namesOf(placement, heads)
  return photos.flatMap(({ path, exif }): PhotoProposal[] => {
    const found =
      byName(path, names, placement, exif) ??
      byPlace(exif, placement.stations) ??
      byTime(exif, placement, heads)
    return found === null ? [] : [{ path, ...found }]
  })
}

type Found = Omit<PhotoProposal, 'path'>

/** Folded names of stations and of their scans; null where two stations share one. */
function namesOf(placement: Placement, heads: readonly ScanHead[]): Map<string, number | null> {
  const names = new Map<string, number | null>()
  const add = (name: string, station: number) => {
    const folded = foldedName(name)
    if (folded === '') return
    const before = names.get(folded)
    names.set(folded, before === undefined || before === station ? station : null)
  }
  placement.stations.forEach(({ name, scans }, station) => {
    add(name, station)
    for (const scan of scans) add(heads[scan].name, station)
  })
  return names
}

function byName(
  path: string,
  names: ReadonlyMap<string, number | null>,
  { stations }: Placement,
  exif: Exif,
): Found | null {
  const [file, folder = ''] = path.split('/').reverse()
  const stem = foldedName(file.replace(/\.[^.]{1,5}$/, ''))
  const station =
    firstKnown([stem, ...stemsOf(stem)], names) ??
    inside(stem, names) ??
    firstKnown([folder], names)
  if (station === null) return null
  const why = `its name fits ${stations[station].name}`
  const metres = distance(exif, stations[station])
  const isFar = metres !== null && metres > FAR
  return { station, why: isFar ? `${why}, but its camera says ${lengthWords(metres)} away` : why }
}

function firstKnown(
  words: readonly string[],
  names: ReadonlyMap<string, number | null>,
): number | null {
  for (const word of words) {
    const station = names.get(foldedName(word))
    if (station !== undefined) return station
  }
  return null
}

/** The longest name that stands whole within the photo's; a mere number would be a counter. */
function inside(stem: string, names: ReadonlyMap<string, number | null>): number | null {
  let longest = ''
  for (const name of names.keys()) {
    if (name.length > longest.length && /\p{L}/u.test(name) && /\d/.test(name)) {
      if (standsWhole(stem, name)) longest = name
    }
  }
  return names.get(longest) ?? null
}

function standsWhole(text: string, part: string): boolean {
  for (let at = text.indexOf(part); at >= 0; at = text.indexOf(part, at + 1)) {
    const [before, after] = [text[at - 1] ?? ' ', text[at + part.length] ?? ' ']
    if (!/[\p{L}\d]/u.test(before) && !/[\p{L}\d]/u.test(after)) return true
  }
  return false
}

function byPlace(exif: Exif, stations: readonly Station[]): Found | null {
  let nearest = -1
  let least = Infinity
  stations.forEach((station, number) => {
    const metres = station.hole === null ? distance(exif, station) : null
    if (metres !== null && metres < least) [nearest, least] = [number, metres]
  })
  if (nearest < 0 || least > NEAR + (exif.accuracy ?? 0)) return null
  return { station: nearest, why: `taken ${lengthWords(least)} from ${stations[nearest].name}` }
}

function byTime(exif: Exif, placement: Placement, heads: readonly ScanHead[]): Found | null {
  let nearest = -1
  let least = Infinity
  heads.forEach(({ known: { time } }, scan) => {
    if (time === null || placement.scans[scan].station === null) return
    const taken = time.zoneStated ? universal(exif) : local(exif)
    if (taken !== null && Math.abs(taken - time.seconds) < Math.abs(least)) {
      ;[nearest, least] = [scan, taken - time.seconds]
    }
  })
  const station = nearest < 0 ? null : placement.scans[nearest].station
  if (station === null || Math.abs(least) > SOON) return null
  const minutes = Math.round(Math.abs(least) / 60)
  const beside = least < 0 ? 'before' : 'after'
  return {
    station,
    why: `taken ${minutes} min ${beside} a scan of ${placement.stations[station].name}, by the two clocks`,
  }
}

/** Seconds since 1970 in UTC, where the zone or a receiver's time is known. */
function universal({ taken, zone, gpsSeconds }: Exif): number | null {
  if (taken !== null && zone !== null) return Date.parse(`${taken}Z`) / 1000 - zone
  return gpsSeconds
}

/** Seconds since 1970 by the clock on the wall, as a scan without a zone has it. */
function local({ taken }: Exif): number | null {
  return taken === null ? null : Date.parse(`${taken}Z`) / 1000
}

/** Metres from the camera to a station on a sphere of the mean radius; null where either is unknown. */
function distance(exif: Exif, { position }: Station): number | null {
  const { longitude, latitude } = position
  if (longitude === null || latitude === null) return null
  if (exif.longitude === null || exif.latitude === null) return null
  const radians = Math.PI / 180
  const east = ((exif.longitude - longitude + 540) % 360) - 180
  const across = Math.sin((east * radians) / 2) ** 2
  const along = Math.sin(((exif.latitude - latitude) * radians) / 2) ** 2
  const chord = along + Math.cos(latitude * radians) * Math.cos(exif.latitude * radians) * across
  return 2 * 6_371_008.8 * Math.asin(Math.min(1, Math.sqrt(chord)))
}

function lengthWords(metres: number): string {
  return metres < 1000 ? `${Math.round(metres)} m` : `${(metres / 1000).toFixed(1)} km`
}
