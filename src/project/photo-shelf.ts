/**
 * Pictures in the browser's own database, each under the digest of the file that it was made from.
 * They stand apart from the project: only the photo part opens this.
 */
import { createStore, del, get, keys, set, type UseStore } from 'idb-keyval'
import type { Decisions } from './decisions'

/** Where pictures are kept. */
export interface PhotoShelf {
  put(sha256: string, picture: Blob): Promise<void>
  /** The picture, or undefined where this browser has none: it was added elsewhere. */
  get(sha256: string): Promise<Blob | undefined>
  /** Drops all pictures but these. */
  keepOnly(wanted: ReadonlySet<string>): Promise<void>
}

/** A shelf in the browser's database of that name. */
export function browserPhotoShelf(database = 'aureole-photos'): PhotoShelf {
  const store: UseStore = createStore(database, 'pictures')
  return {
    // As bytes with their kind: a blob can outlive what some browsers keep behind it.
    put: async (sha256, picture) =>
      set(sha256, { kind: picture.type, bytes: await picture.arrayBuffer() } satisfies Kept, store),
    get: async (sha256) => {
      const kept = await get<Kept>(sha256, store)
      return kept && new Blob([kept.bytes], { type: kept.kind })
    },
    keepOnly: async (wanted) => {
      for (const key of await keys<string>(store)) if (!wanted.has(key)) await del(key, store)
    },
  }
}

interface Kept {
  readonly kind: string
  readonly bytes: ArrayBuffer
}

/**
 * Digests of the pictures that decisions stand by: of each scan or station the last word on its
 * photos, whether or not it is there just now.
 */
export function picturesWanted({ list }: Decisions): ReadonlySet<string> {
  const last = new Map<string, readonly string[]>()
  for (const { file, scan, about } of list) {
    if (about.kind !== 'photos') continue
    const key = JSON.stringify([file, scan, about.station ?? ''])
    last.set(
      key,
      about.photos.map(({ sha256 }) => sha256),
    )
  }
  return new Set([...last.values()].flat())
}
