/** Reads the EXIF of photos that came with the scans. */
import type { LoosePhoto } from '../../project/photo-proposals'
import type { InputSource } from '../../project/reading'
import { readExif } from '../../readers/exif'
import { pictureHead } from '../../readers/picture'

/** EXIF of a JPEG stands at its beginning; PNG and WebP may have it at their end. */
const BEGINNING = 262_144
const MOST_BYTES = 60_000_000

/** A photo of the project's files and what its EXIF says; nothing said where it cannot be read. */
export async function readLoose({ path, size, peek, read }: InputSource): Promise<LoosePhoto> {
  if (size > MOST_BYTES) return { path, exif: readExif(null) }
  try {
    let head = peek ? pictureHead(await peek(BEGINNING)) : null
    const isWhole = typeof head === 'object' && head !== null && head.format === 'JPEG'
    if (!isWhole) head = pictureHead(await read())
    return { path, exif: readExif(typeof head === 'string' ? null : (head?.exif ?? null)) }
  } catch {
    // A file that has gone meanwhile: adding it will say so.
    return { path, exif: readExif(null) }
  }
}
