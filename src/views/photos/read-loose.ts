/** Reads the EXIF of photos that came with the scans. */
import type { LoosePhoto } from '../../project/photo-proposals'
import type { InputSource } from '../../project/reading'
import { readExif } from '../../readers/exif'
import { pictureHead } from '../../readers/picture'

/** EXIF of a JPEG stands at its beginning; PNG and WebP may have it at their end. */
const BEGINNING = 262_144
const MOST_BYTES = 60_000_000

/** A photo that was looked at. */
export interface LookedAt extends LoosePhoto {
  /** Why it cannot become a station's photo, in words; null where it can. */
  readonly trouble: string | null
}

/** A photo of the project's files, what its EXIF says, and what keeps it from being taken in. */
export async function readLoose({ path, size, peek, read }: InputSource): Promise<LookedAt> {
  const nothing = { path, exif: readExif(null) }
  if (size > MOST_BYTES) {
    return { ...nothing, trouble: `${Math.round(size / 1e6)} MB, more than 60: save it smaller` }
  }
  try {
    let head = peek ? pictureHead(await peek(BEGINNING)) : null
    const isWhole = typeof head === 'object' && head !== null && head.format === 'JPEG'
    if (!isWhole) head = pictureHead(await read())
    if (typeof head === 'string') return { ...nothing, trouble: head }
    return { path, exif: readExif(head?.exif ?? null), trouble: null }
  } catch {
    // A file that has gone meanwhile: adding it will say so.
    return { ...nothing, trouble: null }
  }
}
