/** What is drawn into a photo that leaves: its scale, the spots of its scans, where it looks. */
import type { Photo } from '../../project/photos'
import { directionWords, lengthWords, photoBar, spotPart } from './marks'

/** Something drawn, in pixels of the picture; `size` is the height of letters. */
export type MarkShape =
  | {
      readonly kind: 'line'
      readonly from: readonly [x: number, y: number]
      readonly to: readonly [x: number, y: number]
    }
  | { readonly kind: 'ring'; readonly x: number; readonly y: number; readonly radius: number }
  | {
      readonly kind: 'words'
      readonly x: number
      readonly y: number
      readonly text: string
      /** On a plate of paper, or with a rim of it. */
      readonly isOnPlate: boolean
      readonly align: 'left' | 'right'
    }
  | {
      readonly kind: 'bar'
      readonly x: number
      readonly y: number
      readonly length: number
      readonly words: string
    }

/** Letters are this part of the picture's long side, and never smaller than can be read. */
const LETTERS = 1 / 60
const SMALLEST = 12
/** A spot of unknown size, in letters. */
const PLAIN_RING = 0.6
/** Names of spots further right than this stand at their left. */
const NEAR_RIGHT = 0.7

/** The height of letters on a photo, pixels. */
export function letterSize({ width, height }: Photo): number {
  return Math.max(SMALLEST, Math.round(LETTERS * Math.max(width, height)))
}

/** All that is drawn, the words of the whole photo first. */
export function markShapes(photo: Photo, station: string): MarkShape[] {
  const size = letterSize(photo)
  const words = [station, photo.taken?.replace('T', ' ').slice(0, 16), directionWords(photo)]
  return [
    {
      kind: 'words',
      x: size,
      y: 1.5 * size,
      text: words.filter(Boolean).join('; '),
      isOnPlate: true,
      align: 'left',
    },
    ...scaleShapes(photo, size),
    ...photo.spots.flatMap((spot) => spotShapes(photo, spot, size)),
  ]
}

function scaleShapes(photo: Photo, size: number): MarkShape[] {
  const { scale, width, height } = photo
  const bar = photoBar(photo)
  if (scale === undefined || bar === null) return []
  const { from, to, millimetres } = scale
  const [a, b] = [from, to].map(([x, y]) => [x * width, y * height] as const)
  const middle = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]
  return [
    { kind: 'line', from: a, to: b },
    {
      kind: 'words',
      x: middle[0] + size / 2,
      y: middle[1] - size / 2,
      text: lengthWords(millimetres),
      isOnPlate: false,
      align: 'left',
    },
    { kind: 'bar', x: size, y: height - size, length: bar.part * width, words: bar.words },
  ]
}

function spotShapes(photo: Photo, spot: Photo['spots'][number], size: number): MarkShape[] {
  const { at, scan, millimetres } = spot
  const part = spotPart(photo, millimetres)
  const radius = part === null ? PLAIN_RING * size : Math.max(3, (part * photo.width) / 2)
  const [x, y] = [at[0] * photo.width, at[1] * photo.height]
  const isRight = at[0] > NEAR_RIGHT
  const away = (isRight ? -1 : 1) * (radius + size / 2)
  const ring: MarkShape = { kind: 'ring', x, y, radius }
  if (!scan) return [ring]
  const align = isRight ? 'right' : 'left'
  return [ring, { kind: 'words', x: x + away, y, text: scan, isOnPlate: false, align }]
}
