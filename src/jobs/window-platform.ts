/** Files as a worker of the window opens them. */
import { digestOf } from './digest'
import type { Platform } from './read'

/** The platform of one worker. */
export function windowPlatform(): Platform {
  const reader = new FileReaderSync()
  return {
    open: (at) => {
      if (typeof at === 'string') throw new Error('a page has no paths to open files by')
      return new Uint8Array(reader.readAsArrayBuffer(at))
    },
    digest: digestOf,
  }
}
