/** Walks a folder: its files, those behind links, and what could not be walked. */
import { readdirSync, realpathSync, statSync } from 'node:fs'
import { join, posix } from 'node:path'
import type { Problem } from '../readers/input'
import { systemWords } from './system-words'

/** Folders deeper than this are not walked. */
const MAX_DEPTH = 32
/** More files than this are taken for the wrong folder. */
const MAX_FILES = 200_000

/** A file that was found. */
export interface Found {
  /** Where it stands on the disk. */
  readonly at: string
  /** Its path inside the folder, with forward slashes. */
  readonly named: string
  readonly size: number
}

/** A folder's content. */
export interface Walked {
  readonly files: readonly Found[]
  readonly problems: readonly Problem[]
}

interface Folder {
  readonly at: string
  readonly named: string
  readonly depth: number
}

/**
 * All files of a folder and the folders in it; names that begin with a point are passed over.
 * Links are followed last, and only to what was not met before, so that no file is read twice and
 * no ring of links is walked for ever.
 *
 * @param except files and folders inside that are passed over; the folder itself never is
 * @throws Error where the folder itself cannot be listed
 */
export function walk(root: string, except: readonly string[] = []): Walked {
  const walking = new Walking()
  const at = realpathSync(root)
  for (const path of except.map((each) => realpathSync(each))) {
    if (path !== at) walking.pass(path)
  }
  walking.folder({ at, named: '', depth: 0 })
  walking.links()
  return walking
}

class Walking implements Walked {
  readonly files: Found[] = []
  readonly problems: Problem[] = []
  readonly #links: Folder[] = []
  readonly #folders = new Set<string>()
  /** Where files stand that are read, or passed over. */
  readonly #places = new Set<string>()
  #full = false

  /** Leaves a file or folder out, by its path without links. */
  pass(at: string): void {
    this.#folders.add(at)
    this.#places.add(at)
  }

  folder({ at, named, depth }: Folder): void {
    // A link may lead to a folder above: what it holds of those met before is read already.
    if (this.#folders.has(at)) return
    if (depth > MAX_DEPTH) {
      const problem = `folders are nested more than ${MAX_DEPTH} deep`
      this.#note(named, problem, 'left out; name the inner folder itself')
      return
    }
    this.#folders.add(at)
    for (const entry of readdirSync(at, { withFileTypes: true })) {
      if (entry.name.startsWith('.') || this.#full) continue
      const inner = { at: join(at, entry.name), named: posix.join(named, entry.name), depth }
      if (entry.isSymbolicLink()) this.#links.push(inner)
      else if (entry.isDirectory()) this.#inner({ ...inner, depth: depth + 1 })
      else if (entry.isFile()) this.#file(inner)
      else this.#note(inner.named, 'it is neither a file nor a folder', 'left out')
    }
  }

  /** Follows the links that were met, and those behind them. */
  links(): void {
    for (const link of this.#links) {
      try {
        const at = realpathSync(link.at)
        if (this.#places.has(at) || this.#folders.has(at)) {
          this.#note(link.named, 'a link to what is read already', 'not read twice')
        } else if (statSync(at).isDirectory()) this.#inner({ ...link, at, depth: link.depth + 1 })
        else this.#file({ ...link, at })
      } catch (error) {
        this.#unopened(link.named, error, 'a link that leads nowhere')
      }
    }
  }

  #inner(folder: Folder): void {
    try {
      this.folder(folder)
    } catch (error) {
      this.#unopened(folder.named, error)
    }
  }

  #file({ at, named }: Folder): void {
    if (this.#places.has(at)) return
    if (this.files.length >= MAX_FILES) {
      this.#full = true
      const problem = `the folder holds more than ${MAX_FILES} files`
      this.#note(named, problem, 'this file and those after it were left out; name smaller folders')
      return
    }
    try {
      const stats = statSync(at)
      if (stats.isFile()) {
        this.#places.add(at)
        this.files.push({ at, named, size: stats.size })
      } else this.#note(named, 'it is neither a file nor a folder', 'left out')
    } catch (error) {
      this.#unopened(named, error)
    }
  }

  #unopened(named: string, error: unknown, missing?: string): void {
    const { problem, done } = unopened(named, error)
    if (named.includes('\uFFFD')) {
      this.#note(named, 'its name is written in another encoding than UTF-8', 'left out; rename it')
      return
    }
    const isMissing = (error as NodeJS.ErrnoException).code === 'ENOENT' && missing !== undefined
    this.#note(named, isMissing ? missing : problem, done)
  }

  #note(file: string, problem: string, done: string): void {
    this.problems.push({ file, line: null, problem, done })
  }
}

/** What is told of a path that cannot be opened. */
export function unopened(file: string, error: unknown): Problem {
  const problem = `it cannot be opened: ${systemWords(error)}`
  return { file, line: null, problem, done: 'left out; check the path' }
}
