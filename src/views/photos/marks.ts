/** What is drawn over a photo, in its own parts, and in words. */
import { directionLooked, millimetresPerPixel, type Photo } from '../../project/photos'

/** A bar over a photo. */
export interface PhotoBar {
  /** Part of the picture's width. */
  readonly part: number
  readonly words: string
}

/** A bar is no wider than this part of the picture. */
const WIDEST = 0.3

/** The longest of 1, 2 or 5 times a power of ten that fits; null where no length is known. */
export function photoBar(photo: Photo): PhotoBar | null {
  const perPixel = millimetresPerPixel(photo)
  if (perPixel === null) return null
  const across = perPixel * photo.width
  const power = 10 ** Math.floor(Math.log10(WIDEST * across))
  const round = ([5, 2, 1].find((part) => part * power <= WIDEST * across) ?? 1) * power
  return { part: round / across, words: lengthWords(round) }
}

/** A length in millimetres in the unit that it is said in. */
export function lengthWords(millimetres: number): string {
  const [unit, size] =
    millimetres < 10
      ? ['mm', 1]
      : millimetres < 1000
        ? ['cm', 10]
        : millimetres < 1e6
          ? ['m', 1000]
          : ['km', 1e6]
  return `${Number((millimetres / Number(size)).toPrecision(3))} ${unit}`
}

/** A diameter on the photo as a part of its width; null where it cannot be drawn to scale. */
export function spotPart(photo: Photo, millimetres: number | undefined): number | null {
  const perPixel = millimetresPerPixel(photo)
  if (perPixel === null || millimetres === undefined) return null
  return millimetres / perPixel / photo.width
}

const WINDS = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'] as const

/** Such as `looks SW, 224° from true north`; empty where nobody said. */
export function directionWords(photo: Photo): string {
  const looked = directionLooked(photo)
  if (looked === null) return ''
  const { azimuth, north } = looked
  const wind = WINDS[Math.round(azimuth / 45) % 8]
  const from = north === 'true' ? 'from true north' : 'from magnetic north, declination not stated'
  return `looks ${wind}, ${Math.round(azimuth) % 360}° ${from}`
}

/** A photo in a few words under its picture. */
export function photoWords(photo: Photo): string {
  const { taken, spots } = photo
  return [
    taken === undefined ? '' : taken.replace('T', ' ').slice(0, 16),
    directionWords(photo),
    spots.length === 0 ? '' : spots.length === 1 ? 'spot marked' : `${spots.length} spots marked`,
  ]
    .filter(Boolean)
    .join('; ')
}
