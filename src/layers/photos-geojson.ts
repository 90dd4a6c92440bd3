/** `photos.geojson`: where photos were taken, which way they look, and what is marked on them. */
import type { WorkingCrs } from '../places/crs'
import { rounded } from './decimals'
import { fileNames } from './file-names'
import { featureCollection, pointFeature, type LonLat, type Property } from './geojson'

/** The folder beside the layers that the pictures go into. */
const FOLDER = 'photos'
/** A direction is read to a degree at best. */
const AZIMUTH_DECIMALS = 1
/** Six significant figures of a length that was laid over some hundred pixels are enough. */
const SCALE_DECIMALS = 6
const ACCURACY_DECIMALS = 1

/** A photo as it leaves. */
export interface PhotoRow {
  readonly station: string
  /** The picture's file name as it was added. */
  readonly photo: string
  /** Of that file. */
  readonly sha256: string
  /** Whether anything is marked on it, so that a copy with its marks drawn in may go with it. */
  readonly isMarked: boolean
  readonly caption: string
  readonly taken: string | null
  /** Degrees clockwise from the north that is named. */
  readonly direction: { readonly azimuth: number; readonly north: 'true' | 'magnetic' } | null
  /** Pixels. */
  readonly width: number
  readonly height: number
  readonly millimetresPerPixel: number | null
  /** Points on the picture in pixels from its upper left; diameter in millimetres. */
  readonly spots: readonly {
    readonly x: number
    readonly y: number
    readonly scan: string | null
    readonly millimetres: number | null
  }[]
  /** Degrees, WGS 84: the camera's own, else the station's; null where neither is known. */
  readonly place: LonLat | null
  readonly placeOf: 'camera' | 'station'
  /** Metres, where the camera said it. */
  readonly accuracy: number | null
}

/** The file that each picture goes into, by its digest; one file for one picture. */
export function photoFiles(rows: readonly PhotoRow[]): ReadonlyMap<string, string> {
  const stems = new Map<string, string>()
  for (const { sha256, photo } of rows) {
    if (!stems.has(sha256)) stems.set(sha256, photo.replace(/\.[^.]{1,5}$/, ''))
  }
  const names = fileNames([...stems.values()])
  return new Map([...stems.keys()].map((sha256, at) => [sha256, `${FOLDER}/${names[at]}.jpg`]))
}

/** For each photo the file that its copy with marks drawn in goes into; null where none are. */
export function markedFiles(rows: readonly PhotoRow[]): readonly (string | null)[] {
  const files = photoFiles(rows)
  const stems = rows.flatMap(({ sha256, isMarked }) =>
    isMarked ? [`${stemOf(files.get(sha256) ?? '')} marked`] : [],
  )
  const names = fileNames(stems, [...files.values()].map(stemOf))[Symbol.iterator]()
  return rows.map(({ isMarked }) => (isMarked ? `${FOLDER}/${names.next().value}.jpg` : null))
}

function stemOf(file: string): string {
  return file.slice(FOLDER.length + 1).replace(/\.jpg$/, '')
}

/**
 * The file's bytes: a point a photo, in the order given.
 *
 * @returns null for a local grid, which has no longitude and latitude.
 */
export function photosGeojson(crs: WorkingCrs, rows: readonly PhotoRow[]): Uint8Array | null {
  if (crs.kind === 'local') return null
  const files = photoFiles(rows)
  const marked = markedFiles(rows)
  return featureCollection(
    rows.map((row, i) =>
      pointFeature(row.place, properties(row, files.get(row.sha256) ?? '', marked[i])),
    ),
  )
}

function properties(row: PhotoRow, file: string, marked: string | null): Property[] {
  const { direction, spots } = row
  const list = (of: (spot: PhotoRow['spots'][number]) => string | number | null) =>
    spots.map((spot) => of(spot) ?? '').join('; ') || null
  return [
    ['station', row.station],
    ['photo', row.photo],
    ['file', file],
    ['caption', row.caption || null],
    ['taken', row.taken],
    ['direction', direction && rounded(direction.azimuth, AZIMUTH_DECIMALS)],
    ['north', direction && direction.north],
    ['width', row.width],
    ['height', row.height],
    ['mm_per_pixel', rounded(row.millimetresPerPixel, SCALE_DECIMALS)],
    ['spots', spots.length],
    ['spot_scans', list(({ scan }) => scan)],
    ['spot_x', list(({ x }) => Math.round(x))],
    ['spot_y', list(({ y }) => Math.round(y))],
    ['spot_mm', list(({ millimetres }) => rounded(millimetres, 2))],
    ['place_of', row.place && row.placeOf],
    ['place_error_m', rounded(row.accuracy, ACCURACY_DECIMALS)],
    ['file_marked', marked],
  ]
}
