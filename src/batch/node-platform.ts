/** Files as a worker thread opens them: in its own time, so that none waits for the main thread. */
import { hash } from 'node:crypto'
import { closeSync, openSync, readSync } from 'node:fs'
import type { Platform } from '../jobs/read'

/** Files up to this size are read into one stretch of memory, again and again. */
const SHARED_BYTES = 1_000_000
/** A file that has grown beyond this since it was found would fill the memory. */
const MOST_BYTES = 500_000_000

/** The platform of one thread. */
export function nodePlatform(): Platform {
  const shared = new Uint8Array(SHARED_BYTES)
  return {
    open: (at, size) =>
      readWhole(at, size, size < SHARED_BYTES ? shared : new Uint8Array(size + 1)),
    digest: (bytes) => hash('sha256', bytes, 'hex'),
  }
}

/**
 * A file's bytes, in `space` where they fit. One that gives as many as it was said to have, and has
 * no more at once, is not asked again.
 */
function readWhole(at: string | Blob, size: number, space: Uint8Array): Uint8Array {
  if (typeof at !== 'string') throw new Error('a file of a page cannot be opened here')
  const file = openSync(at, 'r')
  try {
    let used = 0
    for (;;) {
      const read = readSync(file, space, used, space.length - used, null)
      used += read
      const isWhole = used === size && used < space.length
      if (read === 0 || isWhole) return space.subarray(0, used)
      if (used < space.length) continue
      if (used > MOST_BYTES) throw new Error('it grows while it is read')
      const more = new Uint8Array(space.length * 2)
      more.set(space)
      space = more
    }
  } finally {
    closeSync(file)
  }
}
