/** Files on disk as the project reads them. */
import { realpathSync, statSync } from 'node:fs'
import { open, readdir, readFile } from 'node:fs/promises'
import { basename, dirname, join, posix, resolve } from 'node:path'
import type { InputSource } from '../project/reading'
import type { Problem } from '../readers/input'
import { unopened, walk, type Found } from './walk'

/** Files of a folder above that are looked at for wavelengths. */
const MAX_BESIDE = 1000

type FoundSource = InputSource & { readonly folder: string }

export interface FoundFiles {
  /** `folder`: the name of the folder that the path begins in. */
  readonly sources: FoundSource[]
  readonly problems: Problem[]
}

/**
 * The files named and those in the folders named, in order of their paths. A path in the result
 * begins inside the named folder, so that outputs do not depend on where it stands; where two
 * would be alike, both begin with their named folder's own name. A file that is named twice, or
 * stands in a folder that is, is there once.
 *
 * @param except files and folders that are passed over where they stand inside one of these: what
 *   an earlier run wrote, so that a second one reads what the first one read
 */
export function findFiles(paths: readonly string[], except: readonly string[] = []): FoundFiles {
  const found: { root: string; source: FoundSource }[] = []
  const problems: Problem[] = []
  const places = new Set<string>()
  const add = (root: string, folder: string, file: Found): void => {
    if (!places.has(file.at)) found.push({ root, source: { ...sourceOf(file), folder } })
    places.add(file.at)
  }
  const once = new Map(paths.toReversed().map((path) => [resolve(path), path]))
  for (const path of [...once.values()].reverse()) {
    const root = basename(resolve(path))
    try {
      const stats = statSync(path)
      if (stats.isFile()) {
        add(root, basename(dirname(resolve(path))), {
          at: realpathSync(path),
          named: root,
          size: stats.size,
        })
        continue
      }
      const walked = walk(path, except)
      problems.push(...walked.problems)
      if (walked.files.length + walked.problems.length === 0)
        problems.push({
          file: path,
          line: null,
          problem: 'the folder is empty',
          done: 'nothing to read; check the path',
        })
      for (const file of walked.files) add(root, root, file)
    } catch (error) {
      problems.push(unopened(path, error))
    }
  }
  const sources = distinct(found, problems)
  return { sources: sources.sort(byPath), problems }
}

/**
 * Wavelength files may stand above a named folder. Those of the two folders above are offered as
 * if they stood beside its content.
 */
export async function filesAbove(paths: readonly string[]): Promise<InputSource[]> {
  const sources: InputSource[] = []
  for (const path of paths) {
    let folder = resolve(path)
    for (let up = 0; up < 2; up++) {
      folder = dirname(folder)
      const entries = await readdir(folder, { withFileTypes: true }).catch(() => [])
      const files = entries.filter((entry) => entry.isFile()).map(({ name }) => name)
      for (const name of files.sort().slice(0, MAX_BESIDE)) {
        // A file that goes away while others are looked at is none of ours.
        const at = join(folder, name)
        const stats = statSync(at, { throwIfNoEntry: false })
        if (stats) sources.push(sourceOf({ at, named: name, size: stats.size }))
      }
    }
  }
  return sources
}

function distinct(
  found: readonly { root: string; source: FoundSource }[],
  problems: Problem[],
): FoundSource[] {
  const counts = new Map<string, number>()
  for (const { source } of found) counts.set(source.path, (counts.get(source.path) ?? 0) + 1)
  const taken = new Set<string>()
  return found.flatMap(({ root, source }): FoundSource[] => {
    const path = (counts.get(source.path) ?? 0) > 1 ? posix.join(root, source.path) : source.path
    if (taken.has(path)) {
      problems.push({
        file: path,
        line: null,
        problem: 'two files come out under this name',
        done: 'the second was left out; name each folder once, or rename one',
      })
      return []
    }
    taken.add(path)
    return [path === source.path ? source : { ...source, path }]
  })
}

function byPath(a: InputSource, b: InputSource): number {
  return a.path < b.path ? -1 : a.path > b.path ? 1 : 0
}

function sourceOf({ at, named, size }: Found): InputSource {
  return {
    path: named,
    size,
    at,
    read: async () => new Uint8Array(await readFile(at)),
    peek: (bytes) => firstBytes(at, bytes),
  }
}

async function firstBytes(path: string, bytes: number): Promise<Uint8Array> {
  const file = await open(path)
  try {
    const buffer = new Uint8Array(bytes)
    const { bytesRead } = await file.read(buffer, 0, bytes, 0)
    return buffer.subarray(0, bytesRead)
  } finally {
    await file.close()
  }
}
