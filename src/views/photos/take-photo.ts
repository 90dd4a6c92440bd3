/** Makes of a picture's file what is kept of it: a smaller upright copy, and what its EXIF says. */
import { digestOf } from '../../jobs/digest'
import type { Photo } from '../../project/photos'
import { readExif, type Exif } from '../../readers/exif'
import { pictureHead } from '../../readers/picture'

/** Long side of the copy, pixels. */
export const KEPT_SIDE = 2048
const QUALITY = 0.85
const MOST_BYTES = 60_000_000

export interface TakenPhoto {
  readonly photo: Photo
  readonly picture: Blob
}

/** The photo and its copy, or a sentence on why it cannot be had. */
export async function takePhoto(name: string, file: Blob): Promise<TakenPhoto | string> {
  const problem = (why: string) => `${name}: ${why}.`
  if (file.size > MOST_BYTES) return problem(`${Math.round(file.size / 1e6)} MB, more than 60`)
  const bytes = new Uint8Array(await file.arrayBuffer())
  const head = pictureHead(bytes)
  if (typeof head === 'string') return problem(head)
  try {
    const copy = await smallCopy(new Blob([bytes], { type: `image/${head.format.toLowerCase()}` }))
    return {
      photo: newPhoto(name, await digestOf(bytes), copy, readExif(head.exif)),
      picture: copy.picture,
    }
  } catch {
    return problem('the browser cannot draw it; it is damaged. Copy it again from the camera')
  }
}

interface Copy {
  readonly picture: Blob
  readonly width: number
  readonly height: number
}

/** Turned upright as its EXIF asks, which then is left behind with all else that the file says. */
async function smallCopy(file: Blob): Promise<Copy> {
  const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' })
  try {
    const part = Math.min(1, KEPT_SIDE / Math.max(bitmap.width, bitmap.height))
    const width = Math.max(1, Math.round(part * bitmap.width))
    const height = Math.max(1, Math.round(part * bitmap.height))
    const canvas = new OffscreenCanvas(width, height)
    const context = canvas.getContext('2d')
    if (!context) throw new Error('no canvas')
    context.imageSmoothingQuality = 'high'
    context.drawImage(bitmap, 0, 0, width, height)
    const picture = await canvas.convertToBlob({ type: 'image/jpeg', quality: QUALITY })
    return { picture, width, height }
  } finally {
    bitmap.close()
  }
}

function newPhoto(name: string, sha256: string, { width, height }: Copy, exif: Exif): Photo {
  const { taken, direction, longitude, latitude, accuracy } = exif
  return {
    file: name,
    sha256,
    width,
    height,
    caption: '',
    ...(taken === null ? {} : { taken }),
    ...(direction === null ? {} : { direction }),
    spots: [],
    ...(longitude === null || latitude === null
      ? {}
      : { place: { longitude, latitude, ...(accuracy === null ? {} : { accuracy }) } }),
  }
}
