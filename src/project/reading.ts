/** Brings files into a project's holdings, in workers, with progress and stop. */
import type { Pool } from '../jobs/pool'
import { stopped } from '../jobs/pool'
import { collectCompanions } from '../readers/companions'
import type { Correction } from '../readers/correction'
import type { Companions, InputFile, Problem } from '../readers/input'
import { Intake } from './intake'
import type { Holdings } from './project'

/** A file that can be read when its turn comes. */
export interface InputSource {
  /** With forward slashes. */
  readonly path: string
  readonly size: number
  read(): Promise<Uint8Array>
  /** The first bytes only, where that is cheaper than all of them. */
  peek?(bytes: number): Promise<Uint8Array>
}

export interface ReadingOptions {
  readonly signal?: AbortSignal
  readonly progress?: (done: number, total: number) => void
  /** How numbers are to be understood in files alike: the recipe's `layouts`. */
  readonly corrections?: readonly Correction[]
  /** Further files that may hold wavelengths; nothing else is read from them. */
  readonly beside?: readonly InputSource[]
}

/** A portion handed to a worker at once: at most this many files or bytes. */
const PORTION_FILES = 32
const PORTION_BYTES = 4_000_000
/** Portions under way at once, for each worker. */
const AHEAD = 2
/** A companion is a column of numbers: no larger than this, and told by its first bytes. */
const MAX_COMPANION_BYTES = 1_000_000
const PEEK_BYTES = 512
/** A larger file is not even opened: the whole of it would have to stand in memory. */
const MAX_FILE_BYTES = 500_000_000
/** Files looked into at once: each look is mostly waiting. */
const PEEKS_AT_ONCE = 16

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
  const companions = await findCompanions([...sources, ...(options.beside ?? [])])
  const portions = portionsOf(sources)
  const intake = new Intake(holdings)
  const ground: InputFile[] = []
  const unread: Problem[] = []
  let next = 0
  let done = 0
  const lane = async () => {
    while (next < portions.length) {
      if (options.signal?.aborted) throw stopped()
      const index = next++
      const opened = await Promise.all(portions[index].map(openSource))
      const files = opened.flatMap(({ file }) => file ?? [])
      unread.push(...opened.flatMap(({ problem }) => problem ?? []))
      const output = await pool.run(
        'read',
        { files, companions, corrections: options.corrections ?? [] },
        { signal: options.signal },
      )
      intake.take(index, output)
      output.files.forEach(({ kind }, i) => {
        if (kind === 'raster' || kind === 'geojson') ground.push(files[i])
      })
      done += portions[index].length
      options.progress?.(done, sources.length)
    }
  }
  await Promise.all(Array.from({ length: pool.size * AHEAD }, lane))
  ground.sort((a, b) => (a.path < b.path ? -1 : 1))
  unread.sort((a, b) => (a.file < b.file ? -1 : 1))
  return intake.holdings(ground, unread)
}

/** A file's bytes, or why they cannot be had: it may have gone, be locked or be too large. */
async function openSource(
  source: InputSource,
): Promise<{ readonly file?: InputFile; readonly problem?: Problem }> {
  const { path, size } = source
  if (size > MAX_FILE_BYTES) {
    const problem = `a file of ${Math.round(size / 1e6)} MB`
    const done = 'left out unread; split it into files below 500 MB'
    return { problem: { file: path, line: null, problem, done } }
  }
  try {
    return { file: { path, bytes: await source.read() } }
  } catch (error) {
    const problem = `it cannot be read: ${whyUnread(error)}`
    return { problem: { file: path, line: null, problem, done: 'left out; check the file' } }
  }
}

/** The system's code where it gives one: its message would tell where on the disk the file stands. */
function whyUnread(error: unknown): string {
  if (!(error instanceof Error)) return String(error)
  return 'code' in error && typeof error.code === 'string' ? error.code : error.message
}

/** Wavelengths that stand in files of their own, found by a look at the first bytes. */
async function findCompanions(sources: readonly InputSource[]): Promise<Companions> {
  const small = sources.filter(({ size }) => size <= MAX_COMPANION_BYTES)
  const found: (InputFile | null)[] = []
  let next = 0
  const lane = async () => {
    while (next < small.length) {
      const index = next++
      found[index] = await columnIn(small[index])
    }
  }
  await Promise.all(Array.from({ length: PEEKS_AT_ONCE }, lane))
  return collectCompanions(found.filter((candidate) => candidate !== null))
}

/** The file if it begins as a column of numbers; none where it cannot be read, which is told later. */
async function columnIn(source: InputSource): Promise<InputFile | null> {
  try {
    const start = source.peek ? await source.peek(PEEK_BYTES) : await source.read()
    if (!looksLikeColumn(start.subarray(0, PEEK_BYTES))) return null
    return { path: source.path, bytes: await source.read() }
  } catch {
    return null
  }
}

/** Whether the second and third lines hold one number each. */
function looksLikeColumn(start: Uint8Array): boolean {
  const lines = new TextDecoder('latin1').decode(start).split(/\r\n|\r|\n/)
  const number = /^\s*[-+]?[\d.]+(e[-+]?\d+)?\s*$/i
  return lines.length > 3 && number.test(lines[1]) && number.test(lines[2])
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
