/** Pictures as the page shows them: addresses for what stands on the shelf. */
import { browserPhotoShelf, picturesWanted, type PhotoShelf } from '../../project/photo-shelf'
import type { Snapshot } from '../../project/workspace'

export type Picture = { readonly url: string } | 'loading' | 'missing'

/** One shelf for the page; pictures are fetched when they are first asked for. */
class Pictures {
  readonly shelf: PhotoShelf = browserPhotoShelf()
  #known = $state.raw<ReadonlyMap<string, Picture>>(new Map())
  #asked = new Set<string>()
  #isTidied = false

  /** The picture of a digest. */
  of(sha256: string): Picture {
    return this.#known.get(sha256) ?? 'loading'
  }

  /** Fetches a picture, once. */
  ask(sha256: string): void {
    if (this.#asked.has(sha256)) return
    this.#asked.add(sha256)
    void this.shelf.get(sha256).then(
      (blob) => this.#set(sha256, blob ? { url: URL.createObjectURL(blob) } : 'missing'),
      () => this.#set(sha256, 'missing'),
    )
  }

  async put(sha256: string, picture: Blob): Promise<void> {
    await this.shelf.put(sha256, picture)
    this.#asked.add(sha256)
    if (typeof this.of(sha256) === 'string') {
      this.#set(sha256, { url: URL.createObjectURL(picture) })
    }
  }

  /**
   * Drops pictures that nothing speaks of any more. Only once, before anything was changed: until
   * then no Undo can want them back. A project without a photo is no reason to drop any.
   */
  tidy({ project, canUndo, canRedo }: Snapshot): void {
    if (this.#isTidied) return
    this.#isTidied = true
    if (canUndo || canRedo) return
    const wanted = picturesWanted(project.decisions)
    // What is left over takes room and does no other harm.
    if (wanted.size > 0) this.shelf.keepOnly(wanted).catch(() => undefined)
  }

  #set(sha256: string, picture: Picture): void {
    this.#known = new Map([...this.#known, [sha256, picture]])
  }
}

export const pictures = new Pictures()
