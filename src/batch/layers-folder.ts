/** The folder that layers are written to, and what an earlier run left there. */
import { mkdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises'
import { basename, dirname, join, resolve } from 'node:path'
import type { PlannedFile } from '../layers/export-input'
import { ArgumentError } from './arguments'
import { systemWords } from './system-words'

const REPORT = 'report.json'
/** A larger report is none of ours, bytes. */
const MAX_REPORT_BYTES = 100_000_000

/** A layer that could not be written. */
export class WriteError extends Error {}

/**
 * Makes the folder where there is none.
 *
 * @throws ArgumentError where it cannot be made or written to
 */
export async function makeLayersFolder(out: string): Promise<void> {
  try {
    await makeFolders(resolve(out))
    // Rights do not tell all: a disk may take no files at all.
    await writeFile(partOf(join(out, REPORT)), '')
    await rm(partOf(join(out, REPORT)))
  } catch (error) {
    const what = 'cannot be made or written to'
    throw new ArgumentError(`The folder ${out} of --out ${what}: ${systemWords(error)}.`)
  }
}

/**
 * A folder with those above it, one at a time: Node's own recursive way never ends where a system
 * refuses a folder as though one above it were missing.
 */
async function makeFolders(path: string): Promise<void> {
  try {
    await mkdir(path)
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    if (code === 'EEXIST' && (await stat(path)).isDirectory()) return
    if (code !== 'ENOENT' || dirname(path) === path) throw error
    await makeFolders(dirname(path))
    await mkdir(path)
  }
}

/** Names of the files that a report in the folder lists and that are there still; none without one. */
export async function earlierLayers(out: string): Promise<string[]> {
  const names = filesOfReport(await earlierReport(out))
  const there = await Promise.all(
    names.map(async (name) => (await isFile(join(out, name))) && name),
  )
  return there.filter((name) => name !== false)
}

async function earlierReport(out: string): Promise<unknown> {
  const path = join(out, REPORT)
  try {
    if ((await stat(path)).size > MAX_REPORT_BYTES) return null
    return JSON.parse(await readFile(path, 'utf8'))
  } catch {
    // Missing, or of something else: it tells of no layers.
    return null
  }
}

function filesOfReport(report: unknown): string[] {
  const { files } = Object(report) as { files?: unknown }
  if (!Array.isArray(files)) return []
  return files.flatMap((entry) => {
    const { file } = Object(entry) as { file?: unknown }
    return typeof file === 'string' && basename(file) === file ? [file] : []
  })
}

async function isFile(path: string): Promise<boolean> {
  try {
    return (await stat(path)).isFile()
  } catch {
    return false
  }
}

/**
 * Writes the files one after another, each whole or not at all. The report comes last and an earlier
 * one is taken away first: a folder without one was not finished.
 *
 * @throws WriteError that names the file and why
 */
export async function writeLayers(out: string, planned: readonly PlannedFile[]): Promise<void> {
  await named(REPORT, () => rm(join(out, REPORT), { force: true }))
  for (const { file, write } of planned) {
    const bytes = write()
    await named(file, () => writeWhole(join(out, file), bytes))
  }

  async function named(file: string, work: () => Promise<void>): Promise<void> {
    try {
      await work()
    } catch (error) {
      const words = `${file} cannot be written to ${out}: ${systemWords(error)}.`
      throw new WriteError(`${words} Mend that and run again; nothing that was read is changed.`)
    }
  }
}

/** Under another name first: what stops midway leaves no half of a layer that looks like a whole. */
async function writeWhole(path: string, bytes: Uint8Array): Promise<void> {
  const part = partOf(path)
  try {
    await writeFile(part, bytes)
    await rename(part, path)
  } catch (error) {
    await rm(part, { force: true })
    throw error
  }
}

/** What a file is called until it is whole. */
function partOf(path: string): string {
  return `${path}.part`
}
