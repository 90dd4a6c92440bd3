/**
 * Photos of a station: what a person says of a picture. The decisions keep names and marks; the
 * pixels stay in the browser that they were added in, under the digest of the file as it was.
 * Points on a picture are parts of its width and height, from its upper left.
 */
import { RecipeError, type Cursor } from './json-cursor'
import { LARGEST_DECLINATION, trueAzimuth } from './structures'

type PicturePoint = readonly [x: number, y: number]

export interface Photo {
  /** The picture's file name as it was added. */
  readonly file: string
  /** SHA-256 of that file, 64 lower-case hexadecimal digits. */
  readonly sha256: string
  /** Pixels of the copy that is kept, upright. */
  readonly width: number
  readonly height: number
  readonly caption: string
  /** Local time by the camera's clock, such as `2024-05-07T16:05:12`. */
  readonly taken?: string
  /** Which way the camera looked, degrees clockwise from the north that is named. */
  readonly direction?: {
    readonly azimuth: number
    readonly north: 'true' | 'magnetic'
    /** Degrees east of true north at which magnetic north stood, where it was stated. */
    readonly declination?: number
  }
  /** A length that is known on the picture: two points and the millimetres between them. */
  readonly scale?: {
    readonly from: PicturePoint
    readonly to: PicturePoint
    readonly millimetres: number
  }
  /** Where the probe stood. */
  readonly spots: readonly PhotoSpot[]
  /** Where the camera's receiver says it was, degrees and metres. */
  readonly place?: {
    readonly longitude: number
    readonly latitude: number
    readonly accuracy?: number
  }
}

export interface PhotoSpot {
  readonly at: PicturePoint
  /** The scan that was taken there; absent where none is named. */
  readonly scan?: string
  /** The probe's diameter, where it is to be drawn to scale. */
  readonly millimetres?: number
}

/** Photos that one station may have, and spots on one photo. */
export const MOST_PHOTOS = 60
export const MOST_SPOTS = 20
export const LONGEST_CAPTION = 300
const LONGEST_NAME = 255
/** From a hundredth of a millimetre to ten kilometres. */
export const SCALE_LIMITS = [0.01, 1e7] as const

/** Reads a list of photos. @throws RecipeError with the place */
export function readPhotos(entries: readonly Cursor[]): Photo[] {
  if (entries.length > MOST_PHOTOS) {
    throw new RecipeError('photos', `more than ${MOST_PHOTOS} at one station`)
  }
  return entries.map(readPhoto)
}

const KEYS = [
  'file',
  'sha256',
  'width',
  'height',
  'caption',
  'taken',
  'direction',
  'scale',
  'spots',
  'place',
]

function readPhoto(entry: Cursor): Photo {
  entry.allow(KEYS)
  const sha256 = entry.at('sha256').text()
  if (!/^[0-9a-f]{64}$/.test(sha256)) {
    throw new RecipeError(`${entry.path}.sha256`, '64 hexadecimal digits are expected')
  }
  const spots = entry.list('spots')
  if (spots.length > MOST_SPOTS) {
    throw new RecipeError(`${entry.path}.spots`, `more than ${MOST_SPOTS} on one photo`)
  }
  const taken = entry.optional('taken')?.filledText()
  const [direction, scale, place] = ['direction', 'scale', 'place'].map((key) =>
    entry.optional(key),
  )
  return {
    file: readFileName(entry.at('file')),
    sha256,
    width: entry.at('width').whole(1, 10_000),
    height: entry.at('height').whole(1, 10_000),
    caption: shortText(entry.at('caption'), LONGEST_CAPTION),
    ...(taken === undefined ? {} : { taken }),
    ...(direction === undefined ? {} : { direction: readDirection(direction) }),
    ...(scale === undefined ? {} : { scale: readScale(scale) }),
    spots: spots.map(readSpot),
    ...(place === undefined ? {} : { place: readPlace(place) }),
  }
}

/** A name alone: a folder in it could tell of somebody's machine. */
function readFileName(name: Cursor): string {
  const file = shortText(name, LONGEST_NAME)
  if (file.trim() === '' || /[/\\\p{Cc}]/u.test(file)) {
    throw new RecipeError(name.path, 'a file’s name without its folder is expected')
  }
  return file
}

function shortText(cursor: Cursor, most: number): string {
  const text = cursor.text()
  if (text.length > most) throw new RecipeError(cursor.path, `longer than ${most} letters`)
  return text
}

function readDirection(entry: Cursor): NonNullable<Photo['direction']> {
  entry.allow(['azimuth', 'north', 'declination'])
  const declination = entry
    .optional('declination')
    ?.between(-LARGEST_DECLINATION, LARGEST_DECLINATION)
  return {
    azimuth: entry.at('azimuth').between(0, 360),
    north: entry.at('north').oneOf(['true', 'magnetic']),
    ...(declination === undefined ? {} : { declination }),
  }
}

function readScale(entry: Cursor): NonNullable<Photo['scale']> {
  entry.allow(['from', 'to', 'millimetres'])
  const [from, to] = [readPoint(entry.at('from')), readPoint(entry.at('to'))]
  if (from[0] === to[0] && from[1] === to[1]) {
    throw new RecipeError(entry.path, 'the two points of a scale are one')
  }
  return { from, to, millimetres: entry.at('millimetres').between(...SCALE_LIMITS) }
}

function readSpot(entry: Cursor): PhotoSpot {
  entry.allow(['at', 'scan', 'millimetres'])
  const scan = entry.optional('scan')?.filledText()
  const millimetres = entry.optional('millimetres')?.between(...SCALE_LIMITS)
  return {
    at: readPoint(entry.at('at')),
    ...(scan === undefined ? {} : { scan }),
    ...(millimetres === undefined ? {} : { millimetres }),
  }
}

function readPoint(entry: Cursor): PicturePoint {
  const numbers = entry.numbers()
  if (numbers.length !== 2 || numbers.some((part) => part < 0 || part > 1)) {
    throw new RecipeError(entry.path, 'two numbers from 0 to 1 are expected')
  }
  return [numbers[0], numbers[1]]
}

function readPlace(entry: Cursor): NonNullable<Photo['place']> {
  entry.allow(['longitude', 'latitude', 'accuracy'])
  const accuracy = entry.optional('accuracy')?.between(0, 1e6)
  return {
    longitude: entry.at('longitude').between(-180, 180),
    latitude: entry.at('latitude').between(-90, 90),
    ...(accuracy === undefined ? {} : { accuracy }),
  }
}

/** Whether anything is marked on a photo: a length, a spot, where it looks. */
export function isMarked({ scale, spots, direction }: Photo): boolean {
  return scale !== undefined || spots.length > 0 || direction !== undefined
}

/** Millimetres a pixel of the kept copy; null where no length is known, or the points are one. */
export function millimetresPerPixel({ width, height, scale }: Photo): number | null {
  if (scale === undefined) return null
  const { from, to, millimetres } = scale
  const pixels = Math.hypot((to[0] - from[0]) * width, (to[1] - from[1]) * height)
  return pixels > 0 ? millimetres / pixels : null
}

/** The direction from true north, or as it was read where magnetic north's place is not stated. */
export function directionLooked({
  direction,
}: Photo): { readonly azimuth: number; readonly north: 'true' | 'magnetic' } | null {
  if (direction === undefined) return null
  const { azimuth, north, declination } = direction
  if (north === 'true') return { azimuth: trueAzimuth(azimuth, 0), north }
  if (declination === undefined) return { azimuth: trueAzimuth(azimuth, 0), north }
  return { azimuth: trueAzimuth(azimuth, declination), north: 'true' }
}
