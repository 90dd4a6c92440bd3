/** Brings files into a project's holdings, in workers, with progress and stop. */
import type { Pool } from '../jobs/pool'
import { stopped } from '../jobs/pool'
import { unreadProblem, type FilePlace, type GivenFile } from '../jobs/read'
import type { TaskOutput } from '../jobs/tasks'
import type { Correction } from '../readers/correction'
import type { InputFile, Problem } from '../readers/input'
import { COMPANIONS_UNKNOWN } from '../readers/read-file'
import { findCompanions } from './companion-files'
import { Intake } from './intake'
import { nextTurn } from './pace'
import type { Holdings } from './project'

/** A file that can be read when its turn comes. */
export interface InputSource {
  /** With forward slashes. */
  readonly path: string
  readonly size: number
  /** Where the pool's workers can open it themselves; else its bytes are sent to them. */
  readonly at?: FilePlace
  read(): Promise<Uint8Array>
  /** The first bytes only, where that is cheaper than all of them. */
  peek?(bytes: number): Promise<Uint8Array>
}

export interface ReadingOptions {
  readonly signal?: AbortSignal
  readonly progress?: (done: number, total: number) => void
  /** How numbers are to be understood in files alike: the recipe's `layouts`. */
  readonly corrections?: readonly Correction[]
  /** Further files that may hold wavelengths; asked for where wanted, nothing else is read of them. */
  readonly beside?: () => Promise<readonly InputSource[]>
}

/** A portion handed to a worker at once: at most this many files or bytes. */
const PORTION_FILES = 32
const PORTION_BYTES = 4_000_000
/** Portions under way at once, for each worker. */
const AHEAD = 2
/** A larger file is not even opened: the whole of it would have to stand in memory. */
const MAX_FILE_BYTES = 500_000_000

/**
 * The holdings with the files' content added; a path that is there already is read anew and the
 * older content of that path hidden under it.
 *
 * @throws an AbortError when stopped, and then nothing is added
 */
export async function readSources(
  pool: Pool,
  sources: readonly InputSource[],
  holdings: Holdings,
  options: ReadingOptions = {},
): Promise<Holdings> {
  const { signal, progress, corrections = [] } = options
  const portions = portionsOf(sources)
  const intake = new Intake(holdings)
  const ground: InputFile[] = []
  const unread: Problem[] = []
  let companions = COMPANIONS_UNKNOWN
  let search: ReturnType<typeof findCompanions> | null = null
  let next = 0
  let done = 0
  const readPortion = async (files: readonly GivenFile[]): Promise<TaskOutput<'read'>> => {
    const output = await pool.run('read', { files, companions, corrections }, { signal })
    if (!output.wantsCompanions) return output
    // Most folders have none and are spared the look.
    search ??= findCompanions(sources, options.beside)
    companions = await search
    return pool.run('read', { files, companions, corrections }, { signal })
  }
  const lane = async () => {
    while (next < portions.length) {
      if (signal?.aborted) throw stopped()
      const index = next++
      const given = await Promise.all(portions[index].map(giveSource))
      const output = await readPortion(given.flatMap(({ file }) => file ?? []))
      unread.push(...given.flatMap(({ problem }) => problem ?? []), ...output.unread)
      ground.push(...output.ground)
      intake.take(index, output)
      done += portions[index].length
      progress?.(done, sources.length)
    }
  }
  await Promise.all(Array.from({ length: pool.size * AHEAD }, lane))
  await nextTurn()
  ground.sort((a, b) => (a.path < b.path ? -1 : 1))
  unread.sort((a, b) => (a.file < b.file ? -1 : 1))
  return intake.holdings(ground, unread)
}

/** What a worker is given of a file, or why that cannot be had: it may have gone or be too large. */
async function giveSource(
  source: InputSource,
): Promise<{ readonly file?: GivenFile; readonly problem?: Problem }> {
  const { path, size, at } = source
  if (size > MAX_FILE_BYTES) {
    const problem = `a file of ${Math.round(size / 1e6)} MB`
    const done = 'left out unread; split it into files below 500 MB'
    return { problem: { file: path, line: null, problem, done } }
  }
  if (at !== undefined) return { file: { path, size, at } }
  try {
    return { file: { path, bytes: await source.read() } }
  } catch (error) {
    return { problem: unreadProblem(path, error) }
  }
}

function portionsOf(sources: readonly InputSource[]): InputSource[][] {
  const portions: InputSource[][] = []
  let portion: InputSource[] = []
  let bytes = 0
  for (const source of sources) {
    if (
      portion.length >= PORTION_FILES ||
      (portion.length > 0 && bytes + source.size > PORTION_BYTES)
    ) {
      portions.push(portion)
      portion = []
      bytes = 0
    }
    portion.push(source)
    bytes += source.size
  }
  if (portion.length > 0) portions.push(portion)
  return portions
}
