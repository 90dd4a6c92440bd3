/** Keeping a project: what is saved, under which keys, in one transaction a commit. */
import type { ScanBlock, ScanStore } from '../spectra/scan-store'
import { boundedHistory, keptHistory, NO_HISTORY, type History } from './history'
import {
  emptyProject,
  type Holdings,
  type Project,
  type ScanHead,
  type SourceFile,
} from './project'
import type { InputFile, Table, Track } from '../readers/input'
import { digestOf } from '../jobs/digest'
import { nextTurn } from './pace'

/** A key-value store that can write and delete in one transaction. */
export interface Shelf {
  get(key: string): Promise<unknown>
  getMany(keys: readonly string[]): Promise<unknown[]>
  /** Writes and deletes; all or nothing, durable when it resolves. */
  commit(
    puts: readonly (readonly [key: string, value: unknown])[],
    deletes: readonly string[],
  ): Promise<void>
}

export interface Kept {
  readonly project: Project
  readonly holdings: Holdings
  /** What undo and redo take back. */
  readonly history: History
}

export interface Keeper {
  save(project: Project, holdings: Holdings, history?: History): Promise<void>
  load(): Promise<Kept | null>
}

/** Heads are saved in pages of this many, so that a new scan rewrites one page. */
const PAGE = 512
const HEAD = 'head'
const VERSION = 1

interface Head {
  readonly version: number
  readonly project: Project
  /** Absent in a project saved before it was kept. */
  readonly history?: History
  readonly files: readonly SourceFile[]
  readonly tables: readonly Table[]
  readonly tracks: readonly Track[]
  readonly axes: readonly Float64Array[]
  readonly blocks: readonly { key: string; axis: number; count: number }[]
  readonly pages: readonly string[]
  readonly ground: readonly { key: string; path: string }[]
  readonly scanCount: number
}

interface KeptBlock {
  readonly values: Float32Array
  readonly scans: Int32Array
}

/**
 * Keeps one project on a shelf. Blocks, pages of scan heads and ground files stand under their
 * content's digest and are written once; the head that names them is written last, in the same
 * transaction, so that a commit is whole or not at all. Saves that overlap are joined.
 */
export class ShelfKeeper implements Keeper {
  #onShelf = new Set<string>()
  #keys = new WeakMap<object, string>()
  #waiting: Kept | null = null
  #running: Promise<void> | null = null

  constructor(private readonly shelf: Shelf) {}

  save(project: Project, holdings: Holdings, history: History = NO_HISTORY): Promise<void> {
    this.#waiting = { project, holdings, history }
    this.#running ??= this.#drain()
    return this.#running
  }

  async load(): Promise<Kept | null> {
    const head = (await this.shelf.get(HEAD)) as Head | undefined
    if (!head) return null
    if (head.version !== VERSION) {
      throw new Error(
        `The saved project was written by another version of this program (${head.version}). ` +
          'Open it with that version and export its recipe and decisions.',
      )
    }
    const [blocks, pages, ground] = await Promise.all([
      this.shelf.getMany(head.blocks.map(({ key }) => key)),
      this.shelf.getMany(head.pages),
      this.shelf.getMany(head.ground.map(({ key }) => key)),
    ])
    if ([...blocks, ...pages, ...ground].some((part) => part === undefined)) {
      throw new Error('The saved project is incomplete: a part of it is missing from storage.')
    }
    for (const key of partKeys(head)) this.#onShelf.add(key)
    const scans = this.#openScans(head, blocks as KeptBlock[])
    return {
      // A project saved before a field was added takes the field's first value.
      project: { ...emptyProject(head.project.name), ...head.project },
      history: keptHistory(head.history),
      holdings: {
        files: head.files,
        heads: (pages as ScanHead[][]).flat(),
        scans,
        tables: head.tables,
        tracks: head.tracks,
        ground: head.ground.map(({ path }, i) => ({ path, bytes: ground[i] as Uint8Array })),
      },
    }
  }

  /** Saves until nothing newer waits; a failure that a newer save makes good is forgotten. */
  async #drain(): Promise<void> {
    let failure: { readonly error: unknown } | null = null
    while (this.#waiting) {
      const waiting = this.#waiting
      this.#waiting = null
      try {
        await this.#commit(waiting)
        failure = null
      } catch (error) {
        failure = { error }
      }
    }
    this.#running = null
    if (failure) throw failure.error
  }

  async #commit({ project, holdings, history }: Kept): Promise<void> {
    const puts = new Map<string, unknown>()
    const put = (key: string, value: unknown) => {
      if (!this.#onShelf.has(key)) puts.set(key, value)
      return key
    }
    // One after another, so that the window answers between two digests.
    const blocks: Head['blocks'][number][] = []
    for (const block of holdings.scans.blocks) {
      const { axis, count, values, scans } = block
      blocks.push({ key: put(await this.#blockKey(block), { values, scans }), axis, count })
    }
    const pages: string[] = []
    for (const page of pagesOf(holdings.heads)) pages.push(put(await this.#pageKey(page), page))
    const ground: Head['ground'][number][] = []
    for (const file of holdings.ground) {
      ground.push({ key: put(await this.#groundKey(file), file.bytes), path: file.path })
    }
    const head: Head = {
      version: VERSION,
      project,
      history: boundedHistory(history),
      files: holdings.files,
      tables: holdings.tables,
      tracks: holdings.tracks,
      axes: holdings.scans.axes,
      blocks,
      pages,
      ground,
      scanCount: holdings.scans.count,
    }
    const wanted = new Set(partKeys(head))
    const stale = [...this.#onShelf].filter((key) => !wanted.has(key))
    await this.shelf.commit([...puts, [HEAD, head]], stale)
    this.#onShelf = wanted
  }

  #blockKey(block: ScanBlock): Promise<string> {
    return this.#keyOnce(block, async () => {
      const { values, scans } = block
      await nextTurn()
      return `block ${await digest(values)} ${await digest(scans)} ${block.count}`
    })
  }

  #groundKey(file: InputFile): Promise<string> {
    return this.#keyOnce(file, async () => `ground ${await digest(file.bytes)}`)
  }

  /** Pages are cut anew at each save, so they are known by their first and last head. */
  #pageKey(page: readonly ScanHead[]): Promise<string> {
    return this.#keyOnce(page[page.length - 1], async () => {
      const text = new TextEncoder().encode(JSON.stringify(page))
      return `page ${await digestOf(text)}`
    })
  }

  async #keyOnce(part: object, make: () => Promise<string>): Promise<string> {
    const known = this.#keys.get(part)
    if (known) return known
    const key = await make()
    this.#keys.set(part, key)
    return key
  }

  #openScans(head: Head, blocks: readonly KeptBlock[]): ScanStore {
    return {
      axes: head.axes,
      count: head.scanCount,
      blocks: head.blocks.map(({ key, axis, count }, i) => {
        const block: ScanBlock = { axis, count, values: blocks[i].values, scans: blocks[i].scans }
        this.#keys.set(block, key)
        return block
      }),
    }
  }
}

function pagesOf(heads: readonly ScanHead[]): (readonly ScanHead[])[] {
  const pages: (readonly ScanHead[])[] = []
  for (let start = 0; start < heads.length; start += PAGE) {
    pages.push(heads.slice(start, start + PAGE))
  }
  return pages
}

function partKeys(head: Head): string[] {
  return [...head.blocks.map(({ key }) => key), ...head.pages, ...head.ground.map(({ key }) => key)]
}

function digest(array: Float32Array | Int32Array | Uint8Array): Promise<string> {
  return digestOf(new Uint8Array(array.buffer, array.byteOffset, array.byteLength))
}
