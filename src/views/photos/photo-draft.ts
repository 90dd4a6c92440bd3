/** A photo's marks while they are being made: texts as typed, points as dragged. */
import {
  LONGEST_CAPTION,
  MOST_SPOTS,
  SCALE_LIMITS,
  type Photo,
  type PhotoSpot,
} from '../../project/photos'
import { LARGEST_DECLINATION } from '../../project/structures'

export type Point = [x: number, y: number]
export const LENGTH_UNITS = { mm: 1, cm: 10, m: 1000 } as const
export type LengthUnit = keyof typeof LENGTH_UNITS

export interface PhotoDraft {
  caption: string
  /** Typed; empty where the direction is not known. */
  azimuth: string
  north: 'true' | 'magnetic'
  /** Typed; empty where it is not stated. */
  declination: string
  scale: { from: Point; to: Point; length: string; unit: LengthUnit } | null
  spots: { at: Point; scan: string; millimetres: string }[]
}

/** What can be changed of a photo. */
export function draftOf({ caption, direction, scale, spots }: Photo): PhotoDraft {
  return {
    caption,
    azimuth: direction ? textOf(direction.azimuth) : '',
    north: direction?.north ?? 'true',
    declination: direction?.declination === undefined ? '' : textOf(direction.declination),
    scale: scale
      ? { from: [...scale.from], to: [...scale.to], ...lengthOf(scale.millimetres) }
      : null,
    spots: spots.map(({ at, scan, millimetres }) => ({
      at: [...at],
      scan: scan ?? '',
      millimetres: millimetres === undefined ? '' : textOf(millimetres),
    })),
  }
}

function textOf(value: number): string {
  return String(Number(value.toFixed(3)))
}

function lengthOf(millimetres: number): { length: string; unit: LengthUnit } {
  const unit = millimetres >= 1000 ? 'm' : millimetres >= 10 ? 'cm' : 'mm'
  return { length: textOf(millimetres / LENGTH_UNITS[unit]), unit }
}

/** The photo with what was made of it, or what is still wanted, in words. */
export function photoOf(photo: Photo, draft: PhotoDraft): Photo | string {
  const { file, sha256, width, height, taken, place } = photo
  const direction = directionOf(draft)
  const scale = scaleOf(draft)
  const spots = draft.spots.slice(0, MOST_SPOTS).map(spotOf)
  const wrong = [direction, scale, ...spots].find((part) => typeof part === 'string')
  if (typeof wrong === 'string') return wrong
  return {
    file,
    sha256,
    width,
    height,
    caption: draft.caption.trim().slice(0, LONGEST_CAPTION),
    ...(taken === undefined ? {} : { taken }),
    ...(direction ? { direction: direction as NonNullable<Photo['direction']> } : {}),
    ...(scale ? { scale: scale as NonNullable<Photo['scale']> } : {}),
    spots: spots as PhotoSpot[],
    ...(place === undefined ? {} : { place }),
  }
}

function directionOf({ azimuth, north, declination }: PhotoDraft): Photo['direction'] | string {
  if (azimuth.trim() === '') return undefined
  const degrees = numberOf(azimuth)
  if (!(degrees >= 0 && degrees <= 360)) return 'The direction is 0 to 360 degrees.'
  if (north === 'true' || declination.trim() === '') return { azimuth: degrees, north }
  const stated = numberOf(declination)
  if (!(Math.abs(stated) <= LARGEST_DECLINATION)) {
    return 'The declination is in degrees east, west negative.'
  }
  return { azimuth: degrees, north, declination: stated }
}

function scaleOf({ scale }: PhotoDraft): Photo['scale'] | string {
  if (scale === null) return undefined
  const { from, to, length, unit } = scale
  const millimetres = numberOf(length) * LENGTH_UNITS[unit]
  const [least, most] = SCALE_LIMITS
  if (!(millimetres >= least && millimetres <= most)) {
    return 'Say how long it is between the two ends of the scale.'
  }
  if (from[0] === to[0] && from[1] === to[1]) return 'The two ends of the scale are one.'
  return { from: [...from], to: [...to], millimetres }
}

function spotOf({ at, scan, millimetres }: PhotoDraft['spots'][number]): PhotoSpot | string {
  const named = scan === '' ? {} : { scan }
  if (millimetres.trim() === '') return { at: [...at], ...named }
  const diameter = numberOf(millimetres)
  const [least, most] = SCALE_LIMITS
  if (!(diameter >= least && diameter <= most)) return 'The probe’s diameter is in millimetres.'
  return { at: [...at], ...named, millimetres: diameter }
}

/** Typed with a comma by many. */
function numberOf(text: string): number {
  return text.trim() === '' ? NaN : Number(text.replace(',', '.'))
}

/** The probe's diameter in millimetres as metadata say it, such as `10 mm` or `2 cm`; else empty. */
export function diameterOf(spot: string | null): string {
  const match = /^(\d+(?:[.,]\d+)?)\s*(mm|cm)?$/iu.exec(spot?.trim() ?? '')
  if (match === null) return ''
  const size = numberOf(match[1]) * (match[2]?.toLowerCase() === 'cm' ? 10 : 1)
  return size > 0 && size <= 1000 ? textOf(size) : ''
}

/** A point moved by a key, each press a hundredth of the picture, or a thousandth with Shift. */
export function movedByKey([x, y]: Point, key: string, isFine: boolean): Point | null {
  const step = isFine ? 0.001 : 0.01
  const [dx, dy] = MOVES[key] ?? [0, 0]
  return dx === 0 && dy === 0 ? null : [inside(x + dx * step), inside(y + dy * step)]
}

const MOVES: Readonly<Record<string, readonly [number, number] | undefined>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
}

/** A part of the picture, to a ten-thousandth: a fifth of a pixel of the copy that is kept. */
export function inside(part: number): number {
  return Math.min(1, Math.max(0, Math.round(10_000 * part) / 10_000))
}
