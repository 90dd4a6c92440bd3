/** Files on disk as the project reads them. */
import { open, readdir, readFile, stat } from 'node:fs/promises'
import { basename, dirname, join, posix, resolve, sep } from 'node:path'
import type { InputSource } from '../project/reading'
import type { Problem } from '../readers/input'

/** Folders deeper than this are not walked. */
const MAX_DEPTH = 32
const MAX_FILES = 200_000
/** Files of a folder above that are looked at for wavelengths. */
const MAX_BESIDE = 1000

export interface FoundFiles {
  readonly sources: InputSource[]
  readonly problems: Problem[]
}

/**
 * The files named and those in the folders named, in order of their paths. A path in the result
 * begins inside the named folder, so that outputs do not depend on where it stands; where two
 * would be alike, both begin with their named folder's own name.
 */
export async function findFiles(paths: readonly string[]): Promise<FoundFiles> {
  const found: { root: string; source: InputSource }[] = []
  const problems: Problem[] = []
  for (const path of paths) {
    const root = basename(resolve(path))
    try {
      const sources: InputSource[] = []
      if ((await stat(path)).isFile()) sources.push(await sourceOf(path, root))
      else await walk(path, '', 0, sources, problems)
      found.push(...sources.map((source) => ({ root, source })))
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
        const source = await sourceOf(join(folder, name), name).catch(() => null)
        if (source) sources.push(source)
      }
    }
  }
  return sources
}

function distinct(
  found: readonly { root: string; source: InputSource }[],
  problems: Problem[],
): InputSource[] {
  const counts = new Map<string, number>()
  for (const { source } of found) counts.set(source.path, (counts.get(source.path) ?? 0) + 1)
  const taken = new Set<string>()
  return found.flatMap(({ root, source }): InputSource[] => {
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
    return [{ ...source, path }]
  })
}

function byPath(a: InputSource, b: InputSource): number {
  return a.path < b.path ? -1 : a.path > b.path ? 1 : 0
}

async function walk(
  folder: string,
  inside: string,
  depth: number,
  sources: InputSource[],
  problems: Problem[],
): Promise<void> {
  if (depth > MAX_DEPTH) {
    problems.push({
      file: folder,
      line: null,
      problem: `folders are nested more than ${MAX_DEPTH} deep`,
      done: 'left out; name the inner folder itself',
    })
    return
  }
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    if (entry.name.startsWith('.')) continue
    if (sources.length >= MAX_FILES) throw new Error(`more than ${MAX_FILES} files`)
    const path = join(folder, entry.name)
    const named = inside ? posix.join(inside, entry.name) : entry.name
    try {
      if (entry.isDirectory()) await walk(path, named, depth + 1, sources, problems)
      else if (entry.isFile()) sources.push(await sourceOf(path, named))
    } catch (error) {
      problems.push(unopened(named, error))
    }
  }
}

function unopened(file: string, error: unknown): Problem {
  const why = (error as NodeJS.ErrnoException).code ?? (error as Error).message
  return {
    file,
    line: null,
    problem: `it cannot be opened: ${why}`,
    done: 'left out; check the path',
  }
}

async function sourceOf(path: string, named: string): Promise<InputSource> {
  const { size } = await stat(path)
  return {
    path: named.split(sep).join('/'),
    size,
    read: async () => new Uint8Array(await readFile(path)),
    peek: (bytes) => firstBytes(path, bytes),
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
